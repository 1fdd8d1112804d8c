import type { Before, PlanBefore } from './change.ts'
import type { Resource, Schedule, ScheduleProblem } from './problem.ts'

/** Why an activity does not stand where the plan in force had it. Places are those of the problem. */
export type Cause =
  | { readonly why: 'new' | 'running' | 'pinned' | 'behind' | 'own hours' | 'ends sooner' | 'order' }
  | { readonly why: 'not before', readonly tick: number }
  | { readonly why: 'waits for', readonly activity: number }
  | { readonly why: 'away' | 'cannot', readonly people: readonly number[] }
  | { readonly why: 'goes first', readonly activity: number }
  | { readonly why: 'bay taken', readonly stay: number }
  | { readonly why: 'bay closed' }
  | { readonly why: 'machine closed', readonly machine: number }
  | { readonly why: 'not in bay', readonly tick: number }

export interface Seen {
  readonly problem: ScheduleProblem
  readonly before: PlanBefore
  readonly schedule: Schedule
}

/**
 * The first of these that holds where it stood: it is new, runs, is pinned; those who were to do it can do it no more;
 * it comes sooner, and something late waits for it; it may not begin yet; something it waits for ends later; its people
 * are away, its machine is closed, its people do something else that was not there, its bay has another vehicle or is
 * closed, its vehicle is not in the bay yet; it was to be further by now; it takes longer. In another bay at the same
 * time: its bay is closed or taken while the vehicle is there. Sooner for no such reason: what has its people instead.
 * The rest follows from the order alone.
 *
 * Source: ours, no source.
 */
export function causeOf({ problem, before, schedule }: Seen, activity: number): Cause {
  const { fixed, earliestTick, after, needs, work, stay } = problem.activities[activity]!
  const was = before.activities[activity] ?? null
  const now = schedule.placed[activity]!
  if (fixed !== null) return { why: fixed.resources.length === 0 ? 'pinned' : 'running' }
  if (was === null || was === 'new') return { why: 'new' }
  const able = new Set(needs.flatMap(({ anyOf }) => anyOf))
  const cannot = was.people.filter((person) => !able.has(person))
  if (cannot.length > 0) return { why: 'cannot', people: cannot }
  const at = Math.max(0, was.startTick)
  const isWaitedFor = problem.ends.some(({ activity: end, dueTick, weight }) => weight > 0 && dueTick < problem.horizonTicks && schedule.placed[end]!.endTick > dueTick - SPARE && isBefore(problem, activity, end))
  if (now.startTick < at && isWaitedFor) return { why: 'ends sooner' }
  const isLater = now.startTick > at || !was.people.every((person) => now.resources.includes(person))
  if (isLater) {
    if (earliestTick > at) return { why: 'not before', tick: earliestTick }
    const waits = after.filter((earlier) => schedule.placed[earlier.activity]!.endTick + earlier.lagTicks > at)
    if (waits.length > 0) return { why: 'waits for', activity: waits.reduce((last, one) => (endOf(one) > endOf(last) ? one : last)).activity }
    const away = was.people.filter((person) => isAway(problem.resources[person]!, at, was.endTick, was.work))
    if (away.length > 0) return { why: 'away', people: away }
    const closed = needs.flatMap(({ anyOf }) => anyOf).find((one) => one >= before.peopleCount && isAway(problem.resources[one]!, at, was.endTick, was.work))
    if (closed !== undefined) return { why: 'machine closed', machine: closed }
    const first = whoIsFirst({ problem, before, schedule }, activity, { ...was, startTick: at })
    if (first !== null) return { why: 'goes first', activity: first }
    if (was.bay !== null) {
      const visit = schedule.visits.find((one) => one.stay !== stay && one.bay === was.bay && one.fromTick < was.endTick && one.toTick > at)
      if (visit !== undefined) return { why: 'bay taken', stay: visit.stay }
      if (isAway(problem.resources[was.bay]!, at, was.endTick, was.endTick - at)) return { why: 'bay closed' }
    }
    const comesAt = stay === null ? 0 : cameIn(schedule, stay, now.startTick) + problem.stays[stay]!.rollTicks
    if (comesAt > at && comesAt === now.startTick) return { why: 'not in bay', tick: comesAt }
  }
  if (work > was.work && now.endTick > was.endTick) return { why: was.startTick < 0 ? 'behind' : 'own hours' }
  if (now.startTick === at) return bayCause({ problem, before, schedule }, activity, was)
  if (now.startTick > at) return { why: 'order' }
  const instead = whoIsFirst({ problem, before, schedule }, activity, { ...was, startTick: at })
  return instead === null ? { why: 'order' } : { why: 'goes first', activity: instead }

  function endOf(earlier: { readonly activity: number, readonly lagTicks: number }): number {
    return schedule.placed[earlier.activity]!.endTick + earlier.lagTicks
  }
}

/** Why what begins as planned, by the same people, is done in another bay. */
function bayCause({ problem, schedule }: Seen, activity: number, { bay }: Before): Cause {
  const { stay } = problem.activities[activity]!
  const visit = schedule.visits.find((one) => one.stay === stay && one.fromTick <= schedule.placed[activity]!.startTick && schedule.placed[activity]!.startTick < one.toTick)
  if (bay === null || visit === undefined || visit.bay === bay) return { why: 'order' }
  const other = schedule.visits.find((one) => one.stay !== stay && one.bay === bay && one.fromTick < visit.toTick && visit.fromTick < one.toTick)
  if (isAway(problem.resources[bay]!, visit.fromTick, visit.toTick, visit.toTick - visit.fromTick)) return { why: 'bay closed' }
  return other === undefined ? { why: 'order' } : { why: 'bay taken', stay: other.stay }
}

/** Why what begins as planned, by the same people, ends later. Source: ours, no source. */
export function whyLonger({ problem, before }: Seen, activity: number): Cause {
  const was = before.activities[activity] ?? null
  if (was === null || was === 'new' || problem.activities[activity]!.work > was.work) return { why: 'own hours' }
  const away = was.people.filter((person) => isAway(problem.resources[person]!, Math.max(0, was.startTick), was.endTick, was.work))
  return away.length > 0 ? { why: 'away', people: away } : { why: 'own hours' }
}

/** When a vehicle that is in a bay at a tick came into it. */
const cameIn = ({ visits }: Schedule, stay: number, tick: number): number =>
  visits.find((visit) => visit.stay === stay && visit.fromTick <= tick && tick < visit.toTick)?.fromTick ?? 0

/** Two days of quarter hours: with less room than that a date is in danger. Our choice, no source. */
const SPARE = 2 * 96

/** There for fewer ticks than were planned. */
function isAway({ capacity }: Resource, from: number, to: number, planned: number): boolean {
  let there = 0
  for (let tick = from; tick < to; tick += 1) if ((typeof capacity === 'number' ? capacity : capacity[tick] ?? 0) > 0) there += 1
  return there < planned
}

/** What the same people do at that time instead: something new or moved, the one that takes most of it. */
function whoIsFirst({ problem, before, schedule }: Seen, activity: number, was: Before): number | null {
  const overlaps = problem.activities.map(({ work }, other) => {
    const { startTick, endTick, resources } = schedule.placed[other]!
    if (other === activity || work === 0 || !resources.some((resource) => was.people.includes(resource))) return 0
    const old = before.activities[other] ?? null
    const stood = old !== null && old !== 'new' && old.startTick === startTick && old.endTick === endTick && old.people.every((person) => resources.includes(person))
    return stood ? 0 : Math.min(endTick, Math.max(was.endTick, was.startTick + 1)) - Math.max(startTick, was.startTick)
  })
  const most = Math.max(0, ...overlaps)
  return most === 0 ? null : overlaps.indexOf(most)
}

function isBefore({ activities }: ScheduleProblem, earlier: number, later: number): boolean {
  const found = new Set([later])
  for (const one of found) for (const { activity } of activities[one]!.after) found.add(activity)
  return found.has(earlier)
}
