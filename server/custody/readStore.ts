import type { Reads } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'

const NEWEST = { orderBy: { at: 'desc' }, take: 1, select: { id: true, kind: true, at: true, personId: true, toWhom: true, signedName: true } } as const

const PART = {
  id: true, number: true, name: true, state: true, binId: true, place: true, condition: true,
  zone: { select: { name: true } }, bin: { select: { number: true, place: true } }, moves: NEWEST,
} as const

const BUILD = {
  id: true, number: true, title: true, stage: true,
  vehicle: { select: { make: true, model: true, year: true, customer: { select: { name: true } } } },
} as const

/** A build's factory parts with where each is. Throws a 404. */
export async function loadCustody(reads: Reads, buildId: string) {
  const build = await reads.build.findFirst({
    where: { id: buildId, removedAt: null },
    select: {
      ...BUILD,
      factoryParts: { where: { removedAt: null }, orderBy: { number: 'asc' }, select: PART },
      bins: { where: { removedAt: null }, orderBy: { number: 'asc' }, select: { id: true, number: true, place: true } },
    },
  })
  if (!build) throw notFound('build')
  return build
}
export type StoredCustody = Awaited<ReturnType<typeof loadCustody>>
export type StoredPart = StoredCustody['factoryParts'][number]

const MOVE = {
  id: true, kind: true, at: true, personId: true, place: true, fromWords: true, toWhom: true, signedName: true, signature: true, note: true, stockTakeId: true,
  bin: { select: { number: true, place: true } }, stockTake: { select: { number: true } },
} as const

/** One factory part and every move of it, newest first. Throws a 404. */
export async function loadPartMoves(reads: Reads, partId: string) {
  const part = await reads.factoryPart.findFirst({
    where: { id: partId, removedAt: null, build: { removedAt: null } }, select: { ...PART, build: { select: BUILD } },
  })
  if (!part) throw notFound('factory part')
  const moves = await reads.custodyMove.findMany({ where: { factoryPartId: partId }, orderBy: { at: 'desc' }, select: MOVE })
  return { part, moves }
}
export type StoredMove = Awaited<ReturnType<typeof loadPartMoves>>['moves'][number]

const MOST_KEPT = 3_000

/** Everything of every vehicle that is out of it, or is out and gone. */
export function listKept(reads: Reads) {
  return reads.factoryPart.findMany({
    where: {
      removedAt: null, build: { removedAt: null },
      OR: [
        { state: { in: ['out and stored', 'out with the customer', 'missing', 'disposed with consent'] } },
        { state: { in: ['altered', 'damaged'] }, OR: [{ binId: { not: null } }, { place: { not: '' } }] },
      ],
    },
    orderBy: [{ build: { number: 'asc' } }, { number: 'asc' }], take: MOST_KEPT, select: { ...PART, build: { select: BUILD } },
  })
}
export type StoredKept = Awaited<ReturnType<typeof listKept>>[number]

/** What was handed over together with this move. Throws a 404 for any other kind of move. */
export async function loadReceipt(reads: Reads, moveId: string) {
  const move = await reads.custodyMove.findFirst({ where: { id: moveId, kind: 'handed to the customer', build: { removedAt: null } }, select: { at: true, buildId: true, build: { select: BUILD } } })
  if (!move) throw notFound('handing over')
  const [together, handings, shop] = await Promise.all([
    reads.custodyMove.findMany({
      where: { buildId: move.buildId, at: move.at, kind: 'handed to the customer' }, orderBy: { factoryPart: { number: 'asc' } },
      select: { ...MOVE, factoryPart: { select: { number: true, name: true, partNumber: true, condition: true, zone: { select: { name: true } } } } },
    }),
    reads.custodyMove.findMany({ where: { buildId: move.buildId, kind: 'handed to the customer' }, distinct: ['at'], orderBy: { at: 'asc' }, select: { at: true } }),
    reads.shop.findFirst({ select: { name: true, address: true, phone: true } }),
  ])
  return { ...move, together, number: handings.findIndex(({ at }) => at.getTime() === move.at.getTime()) + 1, shop }
}

export async function namesOf(reads: Reads, ids: readonly string[]): Promise<ReadonlyMap<string, string>> {
  const people = await reads.person.findMany({ where: { id: { in: [...new Set(ids)] } }, select: { id: true, name: true } })
  return new Map(people.map(({ id, name }) => [id, name]))
}
