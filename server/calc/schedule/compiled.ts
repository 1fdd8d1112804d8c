import { topologicalOrder } from '../graph.ts'
import { listTeams, turnedTeam, type Team } from './teams.ts'
import type { ScheduleProblem } from './problem.ts'

/** An earlier or later activity in a flat list: activity, lag, activity, lag … */
export type Links = Int32Array

/** A problem ready for many placings: the same facts in arrays, forward or seen from the end. */
export interface Compiled {
  readonly count: number
  readonly horizon: number
  readonly work: Int32Array
  readonly earliest: Int32Array
  readonly before: readonly Links[]
  readonly after: readonly Links[]
  readonly teams: readonly (readonly Team[])[]
  readonly mayPause: Uint8Array
  /** The stay of each activity, −1 without. */
  readonly stayOf: Int32Array
  readonly stays: readonly (readonly number[])[]
  readonly membersOf: readonly (readonly number[])[]
  /** The bay each stay has already, null where it is free to choose. */
  readonly fixedBayOf: readonly (number | null)[]
  /** Stays whose vehicle stands in its bay already. */
  readonly isInAlready: readonly boolean[]
  /** How much of each resource there is, tick by tick, one resource after the other. */
  readonly base: Int16Array
  /** Where each fixed activity starts, −1 where it is free. */
  readonly fixedAt: Int32Array
  /** An order in which every activity follows what it needs. */
  readonly topological: Int32Array
}

/**
 * Compiles a problem. Throws a RangeError for activities that wait for each other in a ring (named), and for a need
 * nobody can serve.
 *
 * Source: an arrangement of the same facts, ours; the order by Kahn 1962 as in `graph.ts`.
 */
export function compile(problem: ScheduleProblem): Compiled {
  const { activities, horizonTicks: horizon } = problem
  const base = toProfiles(problem)
  const before = activities.map(({ after }) => Int32Array.from(after.flatMap(({ activity, lagTicks }) => [activity, lagTicks])))
  const teamsSeen = new Map<string, Team>()
  return {
    count: activities.length, horizon, base, before, after: turned(before),
    work: Int32Array.from(activities, ({ work }) => work),
    earliest: Int32Array.from(activities, ({ earliestTick }) => earliestTick),
    teams: activities.map((activity) => listTeams(activity, { base, horizon, seen: teamsSeen })),
    mayPause: Uint8Array.from(activities, ({ mayPause }) => Number(mayPause)),
    stayOf: Int32Array.from(activities, ({ stay }) => stay ?? -1),
    stays: problem.stays.map(({ anyOf }) => anyOf),
    membersOf: problem.stays.map((_, stay) => activities.flatMap((activity, place) => (activity.stay === stay ? [place] : []))),
    isInAlready: problem.stays.map(({ isInAlready }) => isInAlready),
    fixedBayOf: problem.stays.map(({ anyOf }, stay) => activities.flatMap((activity) => (activity.stay === stay ? activity.fixed?.resources ?? [] : []))
      .find((resource) => anyOf.includes(resource)) ?? null),
    fixedAt: Int32Array.from(activities, ({ fixed }) => fixed?.startTick ?? -1),
    topological: toTopological(problem),
  }
}

/**
 * The same seen from the end: later comes before, and the last tick is the first. Where vehicles stay, when things can
 * begin and what is fixed is left out: an order is looked for here, and the plan itself is made forward.
 *
 * Source: the backward pass of Li and Willis 1992, from memory.
 */
export function mirrored(compiled: Compiled): Compiled {
  const { count, horizon, base, before, after, teams } = compiled
  const turnedBase = new Int16Array(base.length)
  for (let from = 0; from < base.length; from += horizon) turnedBase.set(base.slice(from, from + horizon).reverse(), from)
  const seen = new Map<Team, Team>()
  const mirroredTeam = (team: Team): Team => {
    const known = seen.get(team) ?? turnedTeam(team)
    seen.set(team, known)
    return known
  }
  return {
    ...compiled, base: turnedBase, before: after, after: before, earliest: new Int32Array(count),
    teams: teams.map((own) => own.map(mirroredTeam)), stayOf: new Int32Array(count).fill(-1), fixedAt: new Int32Array(count).fill(-1),
    topological: compiled.topological.slice().reverse(),
  }
}

function toProfiles({ resources, horizonTicks }: ScheduleProblem): Int16Array {
  const base = new Int16Array(resources.length * horizonTicks)
  resources.forEach(({ capacity }, place) => {
    const from = place * horizonTicks
    if (typeof capacity === 'number') base.fill(capacity, from, from + horizonTicks)
    else base.set(capacity.subarray(0, horizonTicks), from)
  })
  return base
}

function turned(before: readonly Links[]): Links[] {
  const after: number[][] = before.map(() => [])
  before.forEach((links, later) => {
    for (let at = 0; at < links.length; at += 2) after[links[at]!]!.push(later, links[at + 1]!)
  })
  return after.map((links) => Int32Array.from(links))
}

function toTopological({ activities }: ScheduleProblem): Int32Array {
  const edges = activities.flatMap(({ after }, later) => after.map(({ activity }) => ({ before: String(activity), after: String(later) })))
  const found = topologicalOrder(activities.map((_, place) => String(place)), edges)
  if ('cycle' in found) throw new RangeError(`These wait for each other: ${found.cycle.map((place) => activities[Number(place)]!.name).join(' → ')}`)
  return Int32Array.from(found.order, Number)
}
