import type { Reads } from '../shared/database/database.ts'

/** Hours logged from one instant to another, by whom, and what runs. */
export async function loadWeekHours(reads: Reads, from: Date, to: Date) {
  const [entries, timers] = await Promise.all([
    reads.timeEntry.findMany({ where: { startedAt: { gte: from, lt: to }, correctedBy: null, seconds: { gt: 0 }, kind: { not: 'waiting' } }, select: { personId: true, kind: true, startedAt: true, seconds: true } }),
    reads.timer.findMany({ where: { kind: { not: 'waiting' } }, select: { personId: true, kind: true, startedAt: true } }),
  ])
  return { entries, timers }
}

/** The outside finisher each operation goes to, by the operation's id. */
export async function loadFinishersOf(reads: Reads, operationIds: readonly string[]): Promise<ReadonlyMap<string, { readonly id: string, readonly name: string }>> {
  const rows = await reads.operation.findMany({ where: { id: { in: [...operationIds] }, finisherId: { not: null } }, select: { id: true, finisher: { select: { id: true, name: true } } } })
  return new Map(rows.flatMap(({ id, finisher }) => (finisher === null ? [] : [[id, finisher] as const])))
}
