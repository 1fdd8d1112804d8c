import { topologicalOrder } from '../graph.ts'
import type { OpenTime } from './openTime.ts'

/** One operation as it is planned. Times are instants in milliseconds. */
export interface PlannedStep {
  readonly id: string
  readonly startMs: number
  readonly endMs: number
  readonly after: readonly StepLink[]
}

/** What must have ended first, by rule or because it has the same person, bay or machine, and how long to wait after it on the calendar. */
export interface StepLink {
  readonly id: string
  readonly waitMs: number
}

export interface Slack {
  readonly latestStartMs: number
  readonly latestEndMs: number
  /** Open milliseconds by which it can end later; negative where it is too late already. */
  readonly slackMs: number
}

/**
 * How much later each operation of a plan can end before something that must end by its time does not. Worked back from
 * those ends: an operation ends at the latest when the first of those that follow must start, less the wait between them.
 * Its own hours, and the slack, count in the open time of the shop; waiting counts on the calendar. Operations nothing
 * depends on have none of it and are left out; what the plan itself does not keep, as where work has begun too early, binds
 * nobody. Throws a RangeError where steps wait for each other in a ring.
 *
 * Source: the backward pass of the critical path method; a published network in the tests.
 *
 * @example slackOf([{ id: 'a', startMs: 0, endMs: 3, after: [] }, { id: 'b', startMs: 5, endMs: 6, after: [{ id: 'a', waitMs: 0 }] }], new Map([['b', 6]]), { before: (ms) => ms, lastWith: (ms) => ms }).get('a').slackMs // 2
 */
export function slackOf(steps: readonly PlannedStep[], mustEndMs: ReadonlyMap<string, number>, open: OpenTime): Map<string, Slack> {
  const byId = new Map(steps.map((step) => [step.id, step]))
  const kept = new Map(steps.map(({ id, startMs, after }) => [id, after.filter((link) => (byId.get(link.id)?.endMs ?? Infinity) + link.waitMs <= startMs)]))
  const edges = steps.flatMap(({ id }) => kept.get(id)!.map((link) => ({ before: link.id, after: id })))
  const sorted = topologicalOrder(steps.map(({ id }) => id), edges)
  if ('cycle' in sorted) throw new RangeError(`These wait for each other: ${sorted.cycle.join(' → ')}`)
  const latest = new Map(mustEndMs)
  const found = new Map<string, Slack>()
  for (const id of sorted.order.toReversed()) {
    const { startMs, endMs } = byId.get(id)!
    const latestEndMs = latest.get(id)
    if (latestEndMs === undefined) continue
    const hoursMs = open.before(endMs) - open.before(startMs)
    const latestStartMs = hoursMs === 0 ? latestEndMs : open.lastWith(open.before(latestEndMs) - hoursMs)
    found.set(id, { latestStartMs, latestEndMs, slackMs: open.before(latestEndMs) - open.before(endMs) })
    for (const link of kept.get(id)!) latest.set(link.id, Math.min(latest.get(link.id) ?? Infinity, latestStartMs - link.waitMs))
  }
  return found
}

/** The operations that move the end if they end any later. */
export function chainOf(slacks: ReadonlyMap<string, Slack>): Set<string> {
  return new Set([...slacks].filter(([, { slackMs }]) => slackMs <= 0).map(([id]) => id))
}
