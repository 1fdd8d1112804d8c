import { leastAssignment } from './assignment.ts'
import type { Compiled } from './compiled.ts'
import type { Worth } from './delay.ts'
import { fit } from './placing.ts'
import type { ScheduleProblem } from './problem.ts'

const MOST_GROUPS = 6

/** What no plan can go below. */
export interface Least extends Worth {
  /** The tick before which each thing that is waited for cannot end, in the order of the problem's ends. */
  readonly each: readonly number[]
}

/**
 * What no plan can go below. Each thing that is waited for is worked off by the whole shop with nothing else to do, along
 * its longest chain, or by those who alone can do a part of it: of such a part all that cannot begin before a tick, and
 * after which some ticks must still pass, is shared out among them by their calendars from that tick on. Together, those
 * who alone can do a part of several cannot have ended the first before the smallest part is done, nor the second before
 * the two smallest are, and so on; who comes at which place is chosen as is best.
 *
 * Source: critical path and energy between heads and tails (Carlier 1982; Lopez, Erschler and Esquirol 1992), bounds by
 * assigning places, from memory; published makespans in the tests.
 */
export function leastWorth(problem: ScheduleProblem, compiled: Compiled): Least {
  const { ends } = problem
  const { start, end } = aloneInShop(compiled)
  const there = sumsBefore(compiled)
  const needs = needsOf(problem)
  const tailsOf = ends.map(({ activity }) => tailsTo(compiled, activity))
  const each = ends.map(({ activity }, place) => loadsOf(needs, (one) => tailsOf[place]![one]! >= 0)
    .reduce((latest, group) => Math.max(latest, leastEndByLoad(group, start, tailsOf[place]!, there)), end[activity]!))
  const alone = { delay: ends.reduce((sum, { dueTick, weight }, place) => sum + weight * Math.max(0, each[place]! - dueTick), 0), ends: each.reduce((sum, own) => sum + own, 0) }
  if (ends.length < 2) return { ...alone, each }
  const endOf = problem.activities.map((_, activity) => tailsOf.findIndex((tails) => tails[activity]! >= 0))
  const together = busiest(loadsOf(needs, (activity) => endOf[activity]! >= 0), there).map((group): Worth => {
    const units = new Float64Array(ends.length)
    for (const { activity, units: more } of group.own) units[endOf[activity]!]! += more
    let done = 0
    const places = [...units].sort((one, other) => one - other).map((more) => firstWith(there, group.resources, done += more))
    return {
      delay: leastAssignment(ends.map(({ dueTick, weight }, place) => places.map((tick) => weight * Math.max(0, Math.max(tick, each[place]!) - dueTick)))),
      ends: leastAssignment(each.map((own) => places.map((tick) => Math.max(tick, own)))),
    }
  })
  return { delay: Math.max(alone.delay, ...together.map(({ delay }) => delay)), ends: Math.max(alone.ends, ...together.map((one) => one.ends)), each }
}

interface Load {
  readonly activity: number
  /** Ticks of one of those who can do it. */
  readonly units: number
}

interface Group {
  readonly resources: readonly number[]
  readonly own: readonly Load[]
}

/** From when to when each activity is done with the whole shop to itself and all before it; the horizon where it fits nowhere. */
function aloneInShop(compiled: Compiled): { readonly start: Float64Array, readonly end: Float64Array } {
  const { count, topological, before, earliest, teams, fixedAt, base, horizon, stayOf, isInAlready, roll } = compiled
  const start = new Float64Array(count)
  const end = new Float64Array(count)
  const found = { end: 0 }
  for (const activity of topological) {
    let ready = earliest[activity]!
    const links = before[activity]!
    for (let link = 0; link < links.length; link += 2) ready = Math.max(ready, end[links[link]!]! + links[link + 1]!)
    const stay = stayOf[activity]!
    if (stay >= 0 && !isInAlready[stay]) ready = Math.max(ready, roll[stay]!)
    // What has begun may have begun before what it waits for.
    if (fixedAt[activity]! >= 0) ready = fixedAt[activity]!
    start[activity] = horizon
    end[activity] = horizon
    for (const team of teams[activity]!) {
      const at = fit(compiled, activity, team, ready, base, found)
      if (at < 0) continue
      start[activity] = Math.min(start[activity]!, at)
      end[activity] = Math.min(end[activity]!, found.end)
    }
  }
  return { start, end }
}

/** Ticks that must still pass after each activity until another has ended; −1 where that one does not wait for it. */
function tailsTo({ count, topological, before, work }: Compiled, last: number): Float64Array {
  const tail = new Float64Array(count).fill(-1)
  tail[last] = 0
  for (let at = count - 1; at >= 0; at -= 1) {
    const activity = topological[at]!
    if (tail[activity]! < 0) continue
    const links = before[activity]!
    for (let link = 0; link < links.length; link += 2) tail[links[link]!] = Math.max(tail[links[link]!]!, links[link + 1]! + work[activity]! + tail[activity]!)
  }
  return tail
}

interface Needed extends Load {
  /** Alike for all that the same can do. */
  readonly key: string
}

/** What only some can do: for each such some, all that they alone can do. */
interface Needs {
  readonly needed: readonly Needed[]
  readonly resources: ReadonlyMap<string, readonly number[]>
  readonly within: ReadonlyMap<string, ReadonlySet<string>>
}

function needsOf({ activities }: ScheduleProblem): Needs {
  const resources = new Map<string, readonly number[]>()
  const keys = new Map<readonly number[], string>()
  const keyOf = (anyOf: readonly number[]): string => {
    const key = keys.get(anyOf) ?? [...anyOf].sort((one, other) => one - other).join()
    keys.set(anyOf, key)
    resources.set(key, anyOf)
    return key
  }
  const needed = activities.flatMap(({ work, needs }, activity) => (work === 0 ? [] : needs.map(({ anyOf, units }): Needed => ({ key: keyOf(anyOf), activity, units: work * units }))))
  const within = new Map([...resources].map(([key, all]) => {
    const isIn = new Set(all)
    return [key, new Set([...resources].flatMap(([other, anyOf]) => (anyOf.every((one) => isIn.has(one)) ? [other] : [])))]
  }))
  return { needed, resources, within }
}

/** The same for the activities that count. */
function loadsOf({ needed, resources, within }: Needs, counts: (activity: number) => boolean): Group[] {
  const counted = needed.filter(({ activity }) => counts(activity))
  return [...new Set(counted.map(({ key }) => key))].map((key) => ({ resources: resources.get(key)!, own: counted.filter((one) => within.get(key)!.has(one.key)) }))
}

/** Those whose work takes longest. */
function busiest(groups: readonly Group[], there: readonly Float64Array[]): readonly Group[] {
  const done = groups.map((group) => ({ group, by: firstWith(there, group.resources, group.own.reduce((sum, { units }) => sum + units, 0)) }))
  return done.sort((one, other) => other.by - one.by).slice(0, MOST_GROUPS).map(({ group }) => group)
}

/** How much of each resource there is before each tick, the horizon included. */
function sumsBefore({ base, horizon }: Compiled): readonly Float64Array[] {
  return Array.from({ length: base.length / horizon }, (_, resource) => {
    const sum = new Float64Array(horizon + 1)
    for (let tick = 0; tick < horizon; tick += 1) sum[tick + 1] = sum[tick]! + base[resource * horizon + tick]!
    return sum
  })
}

/** The most that any choice of late heads and long tails asks for. */
function leastEndByLoad({ own, resources }: Group, heads: Float64Array, tails: Float64Array, there: readonly Float64Array[]): number {
  const latestFirst = [...own].sort((one, other) => heads[other.activity]! - heads[one.activity]!)
  let latest = 0
  for (const shortest of new Set(own.map(({ activity }) => tails[activity]!))) {
    let units = 0
    for (const { activity, units: more } of latestFirst) {
      if (tails[activity]! < shortest) continue
      units += more
      latest = Math.max(latest, firstWith(there, resources, sumAt(there, resources, heads[activity]!) + units) + shortest)
    }
  }
  return latest
}

function sumAt(there: readonly Float64Array[], resources: readonly number[], tick: number): number {
  let sum = 0
  for (const resource of resources) sum += there[resource]![tick]!
  return sum
}

/** The first tick before which there is so much; the horizon where there never is. */
function firstWith(there: readonly Float64Array[], resources: readonly number[], units: number): number {
  let low = 0
  let high = there[0]!.length - 1
  while (low < high) {
    const middle = (low + high) >> 1
    if (sumAt(there, resources, middle) >= units) high = middle
    else low = middle + 1
  }
  return low
}
