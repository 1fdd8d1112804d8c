import type { Compiled } from './compiled.ts'
import type { ScheduleProblem } from './problem.ts'
import { earliestFinishes } from './urgency.ts'

/**
 * Weighted delay that no plan can go below: everything that is waited for comes at the earliest when its longest chain
 * is worked off, or, where it is the last of all, when the scarcest resource has done all it must do.
 */
export function leastDelay(problem: ScheduleProblem, compiled: Compiled): number {
  const finish = earliestFinishes(compiled)
  const loads = leastEndByLoad(problem, compiled)
  return problem.ends.reduce((sum, { activity, dueTick, weight }) => {
    const chain = finish[activity]!
    const end = isLastOfAll(compiled, activity) ? Math.max(chain, loads) : chain
    return sum + weight * Math.max(0, end - dueTick)
  }, 0)
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
