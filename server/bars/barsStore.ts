import type { Reads } from '../shared/database/database.ts'

const IN_ZONE = { select: { zone: { select: { number: true, name: true } } } } as const

/** What of a build's operations the plan of it does not say: where they are, how long they wait, how many hours are logged. */
export async function loadBarred(reads: Reads, buildId: string, from: Date) {
  const [operations, entries, sums, timers] = await Promise.all([
    reads.operation.findMany({ where: { buildId }, select: { id: true, number: true, state: true, wait: true, part: IN_ZONE, line: IN_ZONE, factoryPart: IN_ZONE } }),
    reads.timeEntry.findMany({ where: { buildId, startedAt: { gte: from }, correctedBy: null, seconds: { gt: 0 } }, select: { operationId: true, kind: true, startedAt: true, seconds: true } }),
    reads.timeEntry.groupBy({ by: ['operationId'], where: { buildId, correctedBy: null, kind: { not: 'waiting' } }, _sum: { seconds: true } }),
    reads.timer.findMany({ where: { buildId }, select: { operationId: true, kind: true, startedAt: true } }),
  ])
  return {
    entries, timers,
    operations: new Map(operations.map(({ id, part, line, factoryPart, ...rest }) => [id, { ...rest, zone: (part ?? line ?? factoryPart)?.zone ?? null }])),
    loggedS: new Map(sums.map(({ operationId, _sum }) => [operationId, _sum.seconds ?? 0])),
  }
}

export type Barred = Awaited<ReturnType<typeof loadBarred>>
