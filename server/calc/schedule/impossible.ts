import { compile, type Compiled } from './compiled.ts'
import { findFirst } from './firstPlan.ts'
import { fit, newPlacing } from './placing.ts'
import type { Need, ScheduleProblem } from './problem.ts'

/** An activity that fits nowhere, and what of it fails. */
export interface Impossible {
  readonly activity: number
  /**
   * “nobody is there”: enough for one need are never there once it could begin, or at the tick it is pinned to;
   * “never together”: for each need there are, never for all at once;
   * “not in one piece”: it must not be interrupted, and no time is long enough; “too long”: it is not done by the horizon;
   * “bay is closed”: of the bays it could have; “kept in a closed bay”: its vehicle stands there, and cannot be moved before;
   * “too early”: pinned before what it waits for can be done; “nobody is free”: pinned to where others are, and so are those
   * `beside` it; “bay is taken”: others have it; “no room”: it fits alone, but not with all the rest before the horizon.
   */
  readonly why: 'nobody is there' | 'never together' | 'not in one piece' | 'too long' | 'bay is closed' | 'kept in a closed bay' | 'too early' | 'nobody is free' | 'bay is taken' | 'no room'
  /** Which of its needs fails, by place; null where it is none alone. */
  readonly need: number | null
  /** Who or what could serve that need, or the bays. */
  readonly resources: readonly number[]
  /** The last tick at which enough of these are there, before it could begin or where it is pinned; null where they never are. */
  readonly lastTick: number | null
  /** The first tick at which it could begin; where it is pinned too early, the one it could be pinned to; where its vehicle is kept in, at which it could be done. */
  readonly soonestTick: number
  /** The most ticks it could be worked in one piece; null where that is not what fails. */
  readonly longestTicks: number | null
  /** What is pinned and takes those it needs, whoever does which. */
  readonly beside: readonly number[]
  /** No plan can have it. Otherwise this is where the first try ended: none was found, and one may exist. */
  readonly isProven: boolean
}

/**
 * What can be planned by no means, and why: each activity is tried with the whole shop to itself and what it waits for
 * done as early as can be; what waits for an impossible one is not told. Where each alone is possible, and no plan is
 * found, the one at which the first try ends is told. Throws as `compile` does.
 *
 * Source: ours, no source.
 */
export function listImpossible(problem: ScheduleProblem): Impossible[] {
  const compiled = compile(problem)
  const end = new Float64Array(compiled.count)
  const found: Impossible[] = []
  for (const activity of compiled.topological) {
    let ready = compiled.earliest[activity]!
    const links = compiled.before[activity]!
    for (let at = 0; at < links.length; at += 2) ready = Math.max(ready, end[links[at]!]! + links[at + 1]!)
    if (ready === Infinity) end[activity] = Infinity
    else if (compiled.fixedAt[activity]! >= 0 && compiled.isPinned[activity] === 0) end[activity] = compiled.fixedAt[activity]! + compiled.work[activity]!
    else {
      const tried = tryAlone(problem, compiled, activity, ready)
      end[activity] = typeof tried === 'number' ? tried : Infinity
      if (typeof tried !== 'number') found.push(tried)
    }
  }
  if (found.length === 0) found.push(...keptInClosed(compiled, end))
  return found.length > 0 ? found.sort((one, other) => one.activity - other.activity) : stuckTogether(problem, compiled)
}

/** The tick at which it ends with the whole shop to itself, or why it cannot. */
function tryAlone(problem: ScheduleProblem, compiled: Compiled, activity: number, ready: number): number | Impossible {
  const { needs, stay, mayPause, work } = problem.activities[activity]!
  const isPinned = compiled.isPinned[activity] === 1
  const from = isPinned ? compiled.fixedAt[activity]! : ready
  const told = (why: Impossible['why'], more: Partial<Impossible> = {}): Impossible =>
    ({ activity, why, need: null, resources: [], lastTick: null, soonestTick: ready, longestTicks: null, beside: [], isProven: true, ...more })
  if (isPinned && ready > from) return told('too early')
  const bays = stay === null ? [] : problem.stays[stay]!.anyOf
  const isBayOpen = (tick: number): boolean => bays.some((bay) => compiled.base[bay * compiled.horizon + tick]! > 0)
  const lastOpen = stay === null ? null : lastTickWith(compiled, isBayOpen)
  if (stay !== null && (isPinned ? !isBayOpen(from) : lastOpen === null || lastOpen < from)) return told('bay is closed', { resources: bays, lastTick: lastOpen })
  const result = { end: 0 }
  const ends = compiled.teams[activity]!.flatMap((team) => {
    const start = fit(compiled, activity, team, from, compiled.base, result)
    return start < 0 || (isPinned && start !== from) ? [] : [result.end]
  })
  if (ends.length > 0) return Math.min(...ends)
  for (const [need, one] of needs.entries()) {
    const isServed = (tick: number): boolean => serves(compiled, one, tick)
    const until = lastTickWith(compiled, isServed, isPinned ? from : undefined)
    if (isPinned ? until !== from : until === null || until < from) return told('nobody is there', { need, resources: one.anyOf, lastTick: until })
  }
  const opens = compiled.teams[activity]!.map(({ open }) => open)
  if (!opens.some((open) => open === null || (isPinned ? open[from] === 1 : open.indexOf(1, from) >= 0))) return told('never together')
  const longest = Math.max(...opens.map((open) => longestStretch(open, from, compiled.horizon, isPinned)))
  return !mayPause && longest < work ? told('not in one piece', { longestTicks: longest }) : told('too long')
}

/** Vehicles that stand in a bay which closes before any work in them can be done, and must not be moved until then. */
function keptInClosed({ isInAlready, mayRollOut, membersOf, stays, closed }: Compiled, end: Float64Array): Impossible[] {
  return membersOf.flatMap((members, stay): Impossible[] => {
    if (!isInAlready[stay] || mayRollOut[stay] || members.length === 0) return []
    const activity = members.reduce((first, member) => (end[member]! < end[first]! ? member : first))
    const bay = stays[stay]![0]!
    const closes = closed.get(bay)!.find(({ from }) => from < end[activity]!)
    if (closes === undefined) return []
    return [{ activity, why: 'kept in a closed bay', need: null, resources: [bay], lastTick: closes.from === 0 ? null : closes.from - 1, soonestTick: end[activity]!, longestTicks: null, beside: [], isProven: true }]
  })
}

const serves = ({ base, horizon }: Pick<Compiled, 'base' | 'horizon'>, { anyOf, units }: Need, tick: number): boolean =>
  anyOf.length === 1 ? base[anyOf[0]! * horizon + tick]! >= units : anyOf.filter((resource) => base[resource * horizon + tick]! > 0).length >= units

function lastTickWith({ horizon }: Compiled, isSo: (tick: number) => boolean, upTo = horizon - 1): number | null {
  for (let tick = Math.min(upTo, horizon - 1); tick >= 0; tick -= 1) if (isSo(tick)) return tick
  return null
}

function longestStretch(open: Uint8Array | null, from: number, horizon: number, isFirstOnly: boolean): number {
  if (open === null) return Math.max(0, horizon - from)
  let longest = 0
  let own = 0
  for (let tick = from; tick < horizon; tick += 1) {
    own = open[tick] === 1 ? own + 1 : 0
    longest = Math.max(longest, own)
    if (isFirstOnly && own === 0) break
  }
  return longest
}

function stuckTogether(problem: ScheduleProblem, compiled: Compiled): Impossible[] {
  const tried = findFirst(compiled, problem.ends, newPlacing(compiled))
  if ('order' in tried) return []
  const { activity, why, tick } = tried.stuck
  const { stay, needs } = problem.activities[activity]!
  const soonestTick = tick ?? Math.max(0, compiled.fixedAt[activity]!)
  const told = { activity, why, need: null, resources: [], lastTick: null, soonestTick, longestTicks: null, beside: [], isProven: tried.isProven }
  if (why === 'bay is taken' && stay !== null) return [{ ...told, resources: problem.stays[stay]!.anyOf }]
  if (!('activity' in compiled.staffed) || why !== 'nobody is free') return [told]
  const { beside, left } = compiled.staffed
  const need = needs.findIndex((one) => !serves({ base: left, horizon: compiled.horizon }, one, soonestTick))
  return [{ ...told, beside, ...(need < 0 ? {} : { need, resources: needs[need]!.anyOf }) }]
}
