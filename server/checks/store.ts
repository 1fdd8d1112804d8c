import type { Reads, Write } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'

const STANDING = { removedAt: null } as const
const BY_NUMBER = { orderBy: { number: 'asc' } } as const

const CHECKED = {
  id: true, version: true, number: true, title: true, kind: true, stage: true,
  vehicle: { select: { make: true, model: true, year: true, energy: true, airbagWait: true, highVoltageWait: true } },
  zones: { where: STANDING, ...BY_NUMBER, select: { id: true, number: true, place: true } },
  lines: {
    where: STANDING, ...BY_NUMBER,
    select: { id: true, number: true, name: true, quantity: true, isFitted: true, cautions: true, item: { select: { kind: true, current: true, channels: true, resistance: true } } },
  },
  parts: { where: STANDING, select: { id: true, number: true, cautions: true } },
  operations: { where: { ...STANDING, visitId: null, state: { not: 'done' } }, orderBy: { number: 'asc' }, select: { number: true, kind: true, work: true, state: true, partId: true, lineId: true, factoryPartId: true } },
  finishes: { where: STANDING, ...BY_NUMBER, select: { number: true, kind: true, sampleState: true } },
  alterations: { where: STANDING, ...BY_NUMBER, select: { number: true, kind: true, what: true, factoryPartId: true, consentBy: true, reversedOn: true } },
  factoryParts: { where: STANDING, ...BY_NUMBER, select: { id: true, number: true, name: true, state: true, binId: true, place: true, cautions: true, zone: { select: { place: true } }, _count: { select: { removals: { where: STANDING } } } } },
  points: { where: { ...STANDING, stopsWork: true, closedOn: null }, ...BY_NUMBER, select: { number: true, text: true, zone: { select: { number: true } } } },
  faultCodes: { where: STANDING, orderBy: { readOn: 'asc' }, select: { code: true, unit: true, words: true, readAt: true, readOn: true, clearedOn: true } },
  _count: { select: { operations: { where: { ...STANDING, visitId: null } } } },
  finalCheck: {
    select: {
      id: true, version: true, signedName: true, signedAt: true, signature: true,
      results: { orderBy: { at: 'asc' }, select: { point: true, outcome: true, value: true, entered: true, note: true, at: true, personId: true } },
    },
  },
} as const

const LIMITS = { restVoltageLeast: true, chargeVoltageLeast: true, chargeVoltageMost: true, loadVoltageLeast: true, keyOffMost: true, voltageDropMost: true, gainTolerance: true } as const

export type StoredCheck = Awaited<ReturnType<typeof loadCheck>>

/** A build as its final check sees it. Throws a 404. */
export async function loadCheck(client: Reads | Write, buildId: string) {
  const build = await client.build.findFirst({ where: { id: buildId, removedAt: null }, select: CHECKED })
  if (!build) throw notFound('build')
  const shop = await client.shop.findFirst({ select: { ...LIMITS, timeZone: true } })
  const people = await client.person.findMany({ where: { id: { in: (build.finalCheck?.results ?? []).map(({ personId }) => personId) } }, select: { id: true, name: true } })
  const { timeZone = 'UTC', ...limits } = shop ?? {}
  return { build, limits, timeZone, people: new Map(people.map(({ id, name }) => [id, name])) }
}

interface NewResult {
  readonly point: string
  readonly lineId: string | null
  readonly outcome: string
  readonly value: number | null
  readonly entered: Readonly<Record<string, string>>
  readonly note: string
  readonly at: Date
  readonly personId: string
}

/** The id of the build's final check, begun where there was none. */
export async function beginCheck(write: Write, buildId: string): Promise<string> {
  const { id } = await write.finalCheck.upsert({ where: { buildId }, create: { buildId }, update: {}, select: { id: true } })
  return id
}

/** Adds an answer; what was signed before it is no longer what stands. */
export async function addResult(write: Write, finalCheckId: string, result: NewResult): Promise<void> {
  await write.checkResult.create({ data: { ...result, finalCheckId, entered: JSON.stringify(result.entered), createdAt: result.at } })
  await write.finalCheck.update({ where: { id: finalCheckId }, data: { version: { increment: 1 }, signedName: '', signedAt: null, signature: '' } })
}

export async function storeSignature(write: Write, finalCheckId: string, signed: { signedName: string, signature: string, signedAt: Date }): Promise<void> {
  await write.finalCheck.update({ where: { id: finalCheckId }, data: { ...signed, version: { increment: 1 } } })
}
