import type { Reads } from '../shared/database/database.ts'
import { notFound } from '../shared/problems.ts'

const readNumber = (text: string, prefix: string): number | null => {
  const digits = new RegExp(`^${prefix}-?0*(\\d{1,6})$`, 'i').exec(text)?.[1]
  return digits === undefined ? null : Number(digits)
}

export type Thing = { readonly kind: 'bin' | 'part', readonly number: number }

/** Reads "A-003" as a bin and "F-053" as a factory part, a fastener bag being its part's. Throws a 404 for anything else. */
export function readThing(text: string): Thing {
  const [bin, part] = [readNumber(text, 'A'), readNumber(text, 'F')]
  if (bin !== null) return { kind: 'bin', number: bin }
  if (part !== null) return { kind: 'part', number: part }
  throw notFound('label')
}

/** The build that a label names. Throws a 404. */
export async function getScannedBuild(reads: Reads, text: string) {
  const number = readNumber(text, 'B')
  const build = number === null ? null : await reads.build.findFirst({
    where: { number, removedAt: null }, select: { id: true, number: true, title: true, vehicle: { select: { make: true, model: true, year: true } } },
  })
  if (!build) throw notFound('build')
  return build
}
export type ScannedBuild = Awaited<ReturnType<typeof getScannedBuild>>

const PART = {
  id: true, number: true, name: true, state: true, binId: true, place: true, condition: true, connectors: true,
  zone: { select: { name: true } }, bin: { select: { number: true, place: true } },
} as const

/** All factory parts and bins of a build, as a scanned label needs them. */
export async function loadAround(reads: Reads, buildId: string) {
  const [parts, bins, openTake] = await Promise.all([
    reads.factoryPart.findMany({ where: { buildId, removedAt: null }, orderBy: { number: 'asc' }, select: PART }),
    reads.bin.findMany({ where: { buildId, removedAt: null }, orderBy: { number: 'asc' }, select: { id: true, number: true, place: true, note: true } }),
    reads.stockTake.findFirst({ where: { closedOn: null, removedAt: null }, orderBy: { number: 'desc' }, select: { number: true } }),
  ])
  return { parts, bins, openTake }
}
export type Around = Awaited<ReturnType<typeof loadAround>>
export type ScannedPart = Around['parts'][number]

export function listFasteners(reads: Reads, factoryPartId: string) {
  return reads.fastener.findMany({
    where: { factoryPartId, removedAt: null }, orderBy: { id: 'asc' },
    select: { kind: true, count: true, size: true, drive: true, torque: true, torqueSource: true, isSingleUse: true, isSafety: true },
  })
}
