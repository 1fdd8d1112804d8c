import type { Activity, Need } from './problem.ts'

/** One way to serve all needs of an activity. */
export interface Team {
  /** resource, units, 1 if held through pauses: three numbers a need. */
  readonly takes: Int32Array
  /** The ticks at which all of it is there at all; null where that is always. */
  readonly open: Uint8Array | null
  /** For each tick the first from it on that is open, the horizon where none is; null where all are. */
  readonly nextOpen: Int32Array | null
  /** Whether anything is held through pauses. */
  readonly holds: boolean
}

interface Ground {
  readonly base: Int16Array
  readonly horizon: number
  /** Teams found so far, so that alike ones are kept once. */
  readonly seen: Map<string, Team>
}

/** Ways to staff an activity. Ours, no source. */
export const MOST_TEAMS = 200

/**
 * Every team that can do an activity. Throws a RangeError where nobody can, or where the ways are more than can be tried.
 * Source: combinations of people as the modes of multi-mode project scheduling, from memory; the most of 200 is ours.
 */
export function listTeams(activity: Activity, ground: Ground): Team[] {
  const ways = activity.fixed && !isPinned(activity) ? [takenWhenFixed(activity)] : activity.needs.reduce<number[][]>((teams, need) => {
    const own = waysOf(need)
    const both = teams.flatMap((team) => own.filter((way) => isApart(team, way)).map((way) => [...team, ...way]))
    if (both.length > MOST_TEAMS) throw new RangeError(`${activity.name}: more than ${MOST_TEAMS} ways to staff it`)
    return both
  }, [[]])
  if (ways.length === 0) throw new RangeError(`${activity.name}: nobody serves all that it needs`)
  return ways.map((takes) => toTeam(takes, ground))
}

/** Fixed to its start, and with whom is open. Source: none, an arrangement of ours. */
export const isPinned = ({ fixed }: Activity): boolean => fixed !== null && fixed.resources.length === 0

function takenWhenFixed({ needs, fixed }: Activity): number[] {
  return fixed!.resources.flatMap((resource) => {
    const need = needs.find(({ anyOf }) => anyOf.includes(resource))
    return need === undefined ? [] : [resource, need.anyOf.length === 1 ? need.units : 1, Number(need.isHeld)]
  })
}

function waysOf({ anyOf, units, isHeld }: Need): number[][] {
  if (anyOf.length === 1) return [[anyOf[0]!, units, Number(isHeld)]]
  return choose(anyOf, units).map((resources) => resources.flatMap((resource) => [resource, 1, Number(isHeld)]))
}

function choose(from: readonly number[], count: number): number[][] {
  if (count === 0) return [[]]
  return from.flatMap((first, place) => choose(from.slice(place + 1), count - 1).map((rest) => [first, ...rest]))
}

const isApart = (team: readonly number[], way: readonly number[]): boolean =>
  way.every((resource, at) => at % 3 !== 0 || !team.some((taken, place) => place % 3 === 0 && taken === resource))

function toTeam(takes: readonly number[], { base, horizon, seen }: Ground): Team {
  const key = takes.join()
  const known = seen.get(key)
  if (known) return known
  const open = new Uint8Array(horizon).fill(1)
  for (let at = 0; at < takes.length; at += 3) {
    const from = takes[at]! * horizon
    for (let tick = 0; tick < horizon; tick += 1) if (base[from + tick]! < takes[at + 1]!) open[tick] = 0
  }
  const team = withOpenTicks(Int32Array.from(takes), open.includes(0) ? open : null)
  seen.set(key, team)
  return team
}

function withOpenTicks(takes: Int32Array, open: Uint8Array | null): Team {
  const nextOpen = open && new Int32Array(open.length + 1).fill(open.length)
  if (nextOpen) for (let tick = open.length - 1; tick >= 0; tick -= 1) nextOpen[tick] = open[tick] === 1 ? tick : nextOpen[tick + 1]!
  return { takes, open, nextOpen, holds: takes.some((held, at) => at % 3 === 2 && held === 1) }
}

/** The same team seen from the end. Source: as `mirrored` in `compiled.ts`. */
export const turnedTeam = ({ takes, open }: Team): Team => withOpenTicks(takes, open && open.slice().reverse())
