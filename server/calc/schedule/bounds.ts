import type { Compiled } from './compiled.ts'
import type { Worth } from './delay.ts'
import { fit } from './placing.ts'
import type { ScheduleProblem } from './problem.ts'
import { earliestFinishes } from './urgency.ts'

/**
 * What no plan can go below: everything that is waited for comes at the earliest when its longest chain is worked off by
 * people who have nothing else to do, or, where it is the last of all, when the scarcest resource has done all it must do.
 *
 * Source: critical path and resource load bounds for projects, from memory; published makespans in the tests.
 */
export function leastWorth(problem: ScheduleProblem, compiled: Compiled): Worth {
  const finish = earliestEnds(compiled)
  const loads = leastEndByLoad(problem, compiled)
  const least = problem.ends.map(({ activity, dueTick, weight }) => {
    const end = isLastOfAll(compiled, activity) ? Math.max(finish[activity]!, loads) : finish[activity]!
    return { end, delay: weight * Math.max(0, end - dueTick) }
  })
  return { delay: least.reduce((sum, { delay }) => sum + delay, 0), ends: least.reduce((sum, { end }) => sum + end, 0) }
}

/** When each activity ends with the whole shop to itself and all before it; the horizon where it fits nowhere. */
function earliestEnds(compiled: Compiled): Float64Array {
  const { count, topological, before, earliest, teams, fixedAt, base, horizon } = compiled
  const end = new Float64Array(count)
  const found = { end: 0 }
  for (const activity of topological) {
    let ready = earliest[activity]!
    const links = before[activity]!
    for (let link = 0; link < links.length; link += 2) ready = Math.max(ready, end[links[link]!]! + links[link + 1]!)
    // What has begun may have begun before what it waits for.
    if (fixedAt[activity]! >= 0) ready = fixedAt[activity]!
    const ends = teams[activity]!.map((team) => (fit(compiled, activity, team, ready, base, found) < 0 ? horizon : found.end))
    end[activity] = Math.min(...ends)
  }
  return end
}

/** The tick before which the work of some resource cannot all be done, with nothing before its heads and after its tails. */
function leastEndByLoad({ resources, activities }: ScheduleProblem, compiled: Compiled): number {
  const heads = earliestFinishes(compiled)
  const tails = tailsOf(compiled)
  return resources.reduce((latest, { capacity }, resource) => {
    const own = activities.flatMap(({ needs, work }, activity) => needs.flatMap(({ anyOf, units }) => (anyOf.length === 1 && anyOf[0] === resource && work > 0 ? [{ activity, load: work * units }] : [])))
    if (own.length === 0 || typeof capacity !== 'number') return latest
    const load = own.reduce((sum, one) => sum + one.load, 0)
    const head = Math.min(...own.map(({ activity }) => heads[activity]! - activities[activity]!.work))
    const tail = Math.min(...own.map(({ activity }) => tails[activity]!))
    return Math.max(latest, head + Math.ceil(load / capacity) + tail)
  }, 0)
}

/** Ticks that must still pass after each activity. */
function tailsOf({ count, topological, after, work }: Compiled): Float64Array {
  const tail = new Float64Array(count)
  for (let at = count - 1; at >= 0; at -= 1) {
    const links = after[topological[at]!]!
    for (let link = 0; link < links.length; link += 2) {
      tail[topological[at]!] = Math.max(tail[topological[at]!]!, links[link + 1]! + work[links[link]!]! + tail[links[link]!]!)
    }
  }
  return tail
}

/** Whether every other activity has to be finished before this one. */
function isLastOfAll({ count, before }: Compiled, activity: number): boolean {
  const earlier = new Set([activity])
  for (const one of earlier) for (let at = 0; at < before[one]!.length; at += 2) earlier.add(before[one]![at]!)
  return earlier.size === count
}
