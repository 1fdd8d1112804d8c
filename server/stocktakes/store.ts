import type { Reads, Write } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'

const STORED = {
  removedAt: null, build: { removedAt: null },
  OR: [{ state: 'out and stored' }, { state: { in: ['altered', 'damaged'] }, OR: [{ binId: { not: null } }, { place: { not: '' } }] }],
}

const PART = {
  id: true, number: true, name: true, state: true, binId: true, place: true, buildId: true,
  bin: { select: { number: true, place: true } },
  build: { select: { id: true, number: true, title: true } },
  moves: { orderBy: { at: 'desc' as const }, take: 1, select: { at: true, stockTakeId: true } },
} as const

/** Every part that should lie somewhere in the shop. */
export const listExpected = (client: Reads | Write) =>
  client.factoryPart.findMany({ where: STORED, orderBy: [{ build: { number: 'asc' } }, { number: 'asc' }], select: PART })
export type ExpectedPart = Awaited<ReturnType<typeof listExpected>>[number]

export const listParts = (client: Reads | Write, ids: readonly string[]) =>
  client.factoryPart.findMany({ where: { id: { in: [...ids] }, removedAt: null }, orderBy: [{ build: { number: 'asc' } }, { number: 'asc' }], select: PART })

/** A part by the numbers of its build and its own. */
export const findPart = (client: Reads | Write, build: number, number: number) =>
  client.factoryPart.findFirst({ where: { number, removedAt: null, build: { number: build, removedAt: null } }, select: PART })

/** A stock-take by its number. Throws a 404. */
export async function getTake(client: Reads | Write, number: number) {
  const take = await client.stockTake.findFirst({ where: { number, removedAt: null }, select: { id: true, number: true, startedOn: true, closedOn: true, note: true } })
  if (!take) throw notFound('stock-take')
  return take
}
export type Take = Awaited<ReturnType<typeof getTake>>

export const findOpenTake = (client: Reads | Write) => client.stockTake.findFirst({ where: { closedOn: null, removedAt: null }, select: { number: true } })

export async function listTakes(reads: Reads) {
  const [takes, counts] = await Promise.all([
    reads.stockTake.findMany({ where: { removedAt: null }, orderBy: { number: 'desc' }, select: { id: true, number: true, startedOn: true, closedOn: true, note: true } }),
    reads.custodyMove.groupBy({ by: ['stockTakeId', 'kind'], where: { stockTakeId: { not: null } }, _count: true }),
  ])
  return takes.map((take) => ({ ...take, moves: counts.filter(({ stockTakeId }) => stockTakeId === take.id).map(({ kind, _count }) => ({ kind, count: _count })) }))
}

/** All sightings in the order in which they were written. */
export const listSightings = (client: Reads | Write, takeId: string) => client.stockTakeSighting.findMany({
  where: { stockTakeId: takeId }, orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
  select: { id: true, factoryPartId: true, binId: true, place: true, finding: true, personId: true, createdAt: true, bin: { select: { number: true, place: true, buildId: true } } },
})
export type StoredSighting = Awaited<ReturnType<typeof listSightings>>[number]

export async function nextTakeNumber(write: Write): Promise<number> {
  const last = await write.stockTake.findFirst({ orderBy: { number: 'desc' }, select: { number: true } })
  return (last?.number ?? 0) + 1
}

export const createTake = (write: Write, number: number, startedOn: string, note: string, now: Date) =>
  write.stockTake.create({ data: { number, startedOn, note, createdAt: now }, select: { id: true } })

export const closeTake = (write: Write, id: string, closedOn: string) => write.stockTake.update({ where: { id }, data: { closedOn, version: { increment: 1 } } })

interface NewSighting { readonly factoryPartId: string, readonly binId: string | null, readonly place: string, readonly finding: string, readonly note?: string }

export async function addSightings(write: Write, takeId: string, rows: readonly NewSighting[], personId: string, now: Date): Promise<void> {
  const last = await write.stockTakeSighting.findFirst({ where: { stockTakeId: takeId }, orderBy: { createdAt: 'desc' }, select: { createdAt: true } })
  // One after the other, also on a clock that stands still or was set back: at each spot the last word holds.
  const first = Math.max(now.getTime(), (last?.createdAt.getTime() ?? 0) + 1)
  for (const [index, row] of rows.entries()) {
    await write.stockTakeSighting.create({ data: { note: '', ...row, stockTakeId: takeId, personId, createdAt: new Date(first + index) } })
  }
}

export async function getBin(client: Reads | Write, id: string) {
  const bin = await client.bin.findFirst({ where: { id, removedAt: null, build: { removedAt: null } }, select: { id: true, number: true, place: true, build: { select: { id: true, number: true, title: true } } } })
  if (!bin) throw notFound('bin')
  return bin
}

export const findBin = (client: Reads | Write, build: number, number: number) =>
  client.bin.findFirst({ where: { number, removedAt: null, build: { number: build, removedAt: null } }, select: { id: true } })

export const findBuild = (client: Reads | Write, number: number) => client.build.findFirst({ where: { number, removedAt: null }, select: { id: true, number: true, title: true } })
