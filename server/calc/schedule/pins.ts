import type { Random } from '../random.ts'
import type { Compiled } from './compiled.ts'
import { take } from './placing.ts'
import type { Team } from './teams.ts'
import { latestEnd } from './urgency.ts'

/** Who does what is pinned: for each pinned activity, in the order of `Compiled.pinned`, its team and the tick it ends at. */
export interface Staffed {
  readonly team: Int32Array
  readonly end: Int32Array
}

/** Pinned work that cannot all be done by those there are. */
export interface Unstaffed {
  readonly activity: number
  /** The pinned work that takes those who could do it, whoever does which; were any one of it away, all could be done. */
  readonly beside: readonly number[]
  /** What is left while these are done, one way of many. */
  readonly left: Int16Array
  /** All ways were tried. */
  readonly isProven: boolean
}

type Ground = Pick<Compiled, 'horizon' | 'base' | 'work' | 'mayPause' | 'teams' | 'fixedAt' | 'pinned' | 'after' | 'latestFor'>

const MOST_NODES = 3_000

/**
 * Chooses for all pinned work at once who does it, each from its own tick on, so that nobody and no machine is taken twice;
 * `left` is what is there beside what has begun. What can be done in the fewest ways comes first, by those who are done
 * soonest, and in time for what is pinned after it; with `random`, by any. Where it gets stuck, it goes back to what took the people that are missing.
 *
 * Source: backtracking with fewest choices first and conflict-directed backjumping (Prosser 1993, from memory).
 */
export function staffPinned(compiled: Ground, left: Int16Array, random: Random | null = null): Staffed | Unstaffed {
  const all = compiled.pinned.map((_, place) => place)
  const ways = compiled.pinned.map((activity) => waysAt(compiled, activity, left, random))
  const tried = tryAll(compiled, all, ways, left)
  if (tried.staffed !== null) return tried.staffed
  if (!tried.isProven || random !== null) return { activity: compiled.pinned[tried.last]!, beside: [], left, isProven: false }
  const inTime = [...all].sort((one, other) => compiled.fixedAt[compiled.pinned[one]!]! - compiled.fixedAt[compiled.pinned[other]!]! || one - other)
  const fits = (places: readonly number[]): boolean => tryAll(compiled, places, ways, left).staffed !== null
  const count = all.findIndex((_, at) => !fits(inTime.slice(0, at + 1)))
  const last = inTime[count]!
  const beside = inTime.slice(0, count).reduceRight<readonly number[]>((kept, place) => {
    const without = kept.filter((one) => one !== place)
    return fits([...without, last]) ? kept : without
  }, inTime.slice(0, count))
  return { activity: compiled.pinned[last]!, beside: beside.map((place) => compiled.pinned[place]!), left: tryAll(compiled, beside, ways, left).left, isProven: true }
}

interface Way {
  readonly place: number
  readonly team: Team
  readonly end: number
}

function waysAt(compiled: Ground, activity: number, left: Int16Array, random: Random | null): Way[] {
  const start = compiled.fixedAt[activity]!
  const all = compiled.teams[activity]!.flatMap((team, place): (Way & { readonly key: number })[] => {
    const end = endFrom(compiled, activity, team, start)
    return end >= 0 && isFree(compiled, team, start, end, left) ? [{ place, team, end, key: random === null ? end : random() }] : []
  })
  const by = latestEnd(compiled, activity, compiled.latestFor)
  const inTime = all.filter(({ end }) => end <= by)
  return (inTime.length > 0 ? inTime : all).sort((one, other) => one.key - other.key || one.place - other.place)
}

/** When it ends if it begins on that very tick and nobody has anything else to do; −1 where it cannot. */
function endFrom({ work, mayPause, horizon }: Ground, activity: number, { open }: Team, start: number): number {
  if (open === null) return start + work[activity]! <= horizon ? start + work[activity]! : -1
  if (start >= horizon || open[start] === 0) return -1
  let tick = start
  for (let done = 0; done < work[activity]!; tick += 1) {
    if (tick >= horizon || (open[tick] === 0 && mayPause[activity] === 0)) return -1
    done += open[tick]!
  }
  return tick
}

function isFree({ horizon, base }: Ground, { takes, open }: Team, start: number, end: number, left: Int16Array): boolean {
  for (let at = 0; at < takes.length; at += 3) {
    const from = takes[at]! * horizon
    const units = takes[at + 1]!
    for (let tick = start; tick < end; tick += 1) {
      if (left[from + tick]! < units && (open === null || open[tick] === 1 || (takes[at + 2] === 1 && base[from + tick]! >= units))) return false
    }
  }
  return true
}

interface TriedAll {
  readonly staffed: Staffed | null
  readonly isProven: boolean
  readonly left: Int16Array
  /** What could be done by nobody any more when it last went back. */
  readonly last: number
}

/** Tries to staff these of the pinned activities, each by one of its ways. `left` is as it was afterwards. */
function tryAll(compiled: Ground, places: readonly number[], ways: readonly (readonly Way[])[], given: Int16Array): TriedAll {
  const { pinned, fixedAt } = compiled
  const left = given.slice()
  const chosen = new Map<number, Way>()
  const lastEnd = new Map(places.map((place) => [place, ways[place]!.reduce((latest, { end }) => Math.max(latest, end), 0)]))
  const near = new Map(places.map((place) => [place, places.filter((other) => other !== place && mayMeet(place, other))]))
  const open = new Map(places.map((place) => [place, ways[place]!.length]))
  const most = MOST_NODES + 10 * places.length
  let nodes = 0
  let last = places[0] ?? -1
  const conflict = search()
  const isDone = conflict === null
  return {
    last, left, isProven: !isDone && nodes <= most,
    staffed: isDone ? { team: Int32Array.from(pinned, (_, place) => chosen.get(place)?.place ?? -1), end: Int32Array.from(pinned, (_, place) => chosen.get(place)?.end ?? -1) } : null,
  }

  function mayMeet(one: number, other: number): boolean {
    return fixedAt[pinned[one]!]! < lastEnd.get(other)! && fixedAt[pinned[other]!]! < lastEnd.get(one)!
  }

  function canBe(place: number, { team, end }: Way): boolean {
    return isFree(compiled, team, fixedAt[pinned[place]!]!, end, left)
  }

  /** Null where all could be staffed, else what has to be changed. */
  function search(): ReadonlySet<number> | null {
    let place = -1
    for (const one of places) if (!chosen.has(one) && (place === -1 || open.get(one)! < open.get(place)!)) place = one
    if (place === -1) return null
    nodes += 1
    const inTheWay = new Set(near.get(place)!.filter((one) => chosen.has(one)))
    if (nodes > most) return inTheWay
    for (const way of ways[place]!) {
      if (!canBe(place, way)) continue
      chosen.set(place, way)
      give(place, way, 1)
      const result = search()
      if (result === null || nodes > most) return result
      chosen.delete(place)
      give(place, way, -1)
      if (!result.has(place)) return result
      for (const one of result) if (one !== place) inTheWay.add(one)
    }
    last = place
    return inTheWay
  }

  function give(place: number, { team, end }: Way, sign: 1 | -1): void {
    const start = fixedAt[pinned[place]!]!
    if (sign === 1) take(compiled, team, start, end, left)
    else take(compiled, { ...team, takes: team.takes.map((value, at) => (at % 3 === 1 ? -value : value)) }, start, end, left)
    for (const other of near.get(place)!) if (!chosen.has(other)) open.set(other, ways[other]!.reduce((sum, way) => sum + Number(canBe(other, way)), 0))
  }
}
