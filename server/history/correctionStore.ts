import { formatQuantity } from '../calc/figures.ts'
import type { LearnedRatio } from '../calc/estimate/hourHistory.ts'
import { audit, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { notFound, Problem } from '../shared/problems.ts'

const SELECT = { id: true, version: true, buildId: true, kind: true, departmentId: true, ratio: true, low: true, high: true, records: true, acceptedById: true, createdAt: true } as const

export type StoredCorrection = Awaited<ReturnType<typeof listCorrections>>[number]

/** What was accepted for a build and not taken back. */
export function listCorrections(reads: Reads | Write, buildId: string) {
  return reads.hourCorrection.findMany({ where: { buildId, removedAt: null }, orderBy: [{ kind: 'asc' }, { id: 'asc' }], select: SELECT })
}

interface Asked {
  readonly buildId: string
  readonly kind: string
  readonly departmentId: string
}

const RECORD = 'hour correction'
const told = (ratio: number, records: number): string => `× ${formatQuantity(ratio, 'times', 'metric')} from ${records} records`

/** Writes down that a ratio is accepted for a build; one that was accepted before is taken back in the same write. */
export async function acceptCorrection(write: Write, { buildId, kind, departmentId }: Asked, learned: LearnedRatio, actor: Actor): Promise<string> {
  await refuseSettled(write, buildId)
  const before = await write.hourCorrection.findFirst({ where: { buildId, kind, departmentId, removedAt: null }, select: SELECT })
  if (before) await write.hourCorrection.update({ where: { id: before.id }, data: { removedAt: actor.now, version: { increment: 1 } } })
  const { ratio, low, high, records } = learned
  const { id } = await write.hourCorrection.create({ data: { buildId, kind, departmentId, ratio, low, high, records, acceptedById: actor.personId ?? '' } })
  await tell(write, actor, 'accepted', { buildId, id, kind, before: before ? told(before.ratio, before.records) : null, after: told(ratio, records) })
  return id
}

/** Takes it back: the estimate stands again as it was typed. */
export async function takeBackCorrection(write: Write, { buildId, id }: { readonly buildId: string, readonly id: string }, actor: Actor): Promise<void> {
  await refuseSettled(write, buildId)
  const found = await write.hourCorrection.findFirst({ where: { id, buildId, removedAt: null }, select: SELECT })
  if (!found) throw notFound('accepted ratio')
  await write.hourCorrection.update({ where: { id }, data: { removedAt: actor.now, version: { increment: 1 } } })
  await tell(write, actor, 'took back', { buildId, id, kind: found.kind, before: told(found.ratio, found.records), after: null })
}

async function refuseSettled(write: Write, buildId: string): Promise<void> {
  const build = await write.build.findFirst({ where: { id: buildId, removedAt: null }, select: { stage: true } })
  if (!build) throw notFound('build')
  if (build.stage === 'delivered') throw new Problem(409, 'Delivered', 'The build is delivered: its estimate is settled and teaches others. Nothing was changed.')
}

// It stands in the history of the build, whose estimate it changes, and in its own.
async function tell(write: Write, actor: Actor, action: string, { buildId, id, kind, before, after }: { buildId: string, id: string, kind: string, before: string | null, after: string | null }): Promise<void> {
  const changes = [{ field: `Hours of ${kind}`, before, after }]
  await audit(write, actor, { action, recordKind: RECORD, recordId: id, changes })
  await audit(write, actor, { action: 'changed', recordKind: 'build', recordId: buildId, changes })
}
