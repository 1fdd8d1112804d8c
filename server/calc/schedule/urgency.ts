import type { Compiled } from './compiled.ts'
import type { End } from './problem.ts'

/**
 * By when each activity has to be finished if all that somebody waits for is to come in time, were there nobody else to
 * wait for (latest finish of the critical path method; Kelley and Walker 1959, from memory). In ticks; an activity that
 * nothing waits for has the horizon.
 */
export function latestFinishes({ count, horizon, topological, after, work, pinned, fixedAt }: Compiled, ends: readonly End[]): Float64Array {
  const latest = new Float64Array(count).fill(horizon)
  for (const { activity, dueTick } of ends) latest[activity] = Math.min(latest[activity]!, dueTick)
  for (const activity of pinned) latest[activity] = Math.min(latest[activity]!, fixedAt[activity]! + work[activity]!)
  for (let at = count - 1; at >= 0; at -= 1) {
    const activity = topological[at]!
    const links = after[activity]!
    for (let link = 0; link < links.length; link += 2) {
      latest[activity] = Math.min(latest[activity]!, latest[links[link]!]! - work[links[link]!]! - links[link + 1]!)
    }
  }
  return latest
}

/** When each activity could end at the earliest, were all it needs always free. */
export function earliestFinishes({ count, topological, before, work, earliest }: Compiled): Float64Array {
  const finish = new Float64Array(count)
  for (const activity of topological) {
    let ready = earliest[activity]!
    const links = before[activity]!
    for (let link = 0; link < links.length; link += 2) ready = Math.max(ready, finish[links[link]!]! + links[link + 1]!)
    finish[activity] = ready + work[activity]!
  }
  return finish
}
