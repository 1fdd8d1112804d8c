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

/**
 * By when each activity has to begin so that what is pinned can begin on its tick, by the calendars of those who can do it
 * and were nobody else to wait for; infinite where nothing pinned waits for it. No plan can have it later.
 *
 * Source: the backward pass of the critical path method (Kelley and Walker 1959, from memory) over calendars.
 */
export function latestStarts(compiled: Pick<Compiled, 'count' | 'topological' | 'after' | 'work' | 'pinned' | 'fixedAt' | 'isPinned' | 'teams' | 'mayPause'>): Float64Array {
  const { count, topological, pinned, fixedAt, isPinned } = compiled
  const latest = new Float64Array(count).fill(Infinity)
  if (pinned.length === 0) return latest
  for (let at = count - 1; at >= 0; at -= 1) {
    const activity = topological[at]!
    const by = latestEnd(compiled, activity, latest)
    latest[activity] = isPinned[activity] === 1 ? fixedAt[activity]! : by === Infinity ? Infinity : lastStart(compiled, activity, by)
  }
  return latest
}

/** By when it has to be done so that what follows can begin in time. Source: as above. */
export function latestEnd({ after }: Pick<Compiled, 'after'>, activity: number, latest: Float64Array): number {
  const links = after[activity]!
  let by = Infinity
  for (let link = 0; link < links.length; link += 2) by = Math.min(by, latest[links[link]!]! - links[link + 1]!)
  return by
}

/** The last tick at which anybody can begin and be done by another; −1 where nobody can. */
function lastStart({ teams, work, mayPause }: Pick<Compiled, 'teams' | 'work' | 'mayPause'>, activity: number, by: number): number {
  let last = -1
  for (const { open } of teams[activity]!) {
    let tick = Math.min(by, open === null ? by : open.length)
    if (open === null) tick -= work[activity]!
    else {
      for (let done = 0; done < work[activity]! && tick > last; tick -= 1) done = open[tick - 1] === 1 ? done + 1 : mayPause[activity] === 1 ? done : 0
    }
    last = Math.max(last, tick)
  }
  return last
}
