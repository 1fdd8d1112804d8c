import { topologicalOrder } from '../graph.ts'
import { endOfBegun, take } from './placing.ts'
import { staffPinned, type Staffed, type Unstaffed } from './pins.ts'
import { latestStarts } from './urgency.ts'
import { isPinned, listTeams, turnedTeam, type Team } from './teams.ts'
import type { Activity, ScheduleProblem } from './problem.ts'

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
  /** The bays each stay can have. */
  readonly stays: readonly (readonly number[])[]
  readonly membersOf: readonly (readonly number[])[]
  /** Stays whose vehicle stands in its bay already. */
  readonly isInAlready: readonly boolean[]
  readonly mayRollOut: readonly boolean[]
  readonly roll: Int32Array
  readonly keepsIn: Uint8Array
  /** The longest that anything waits after each activity. */
  readonly waitAfter: Int32Array
  /** The bay each activity has to have, −1 where it may be any of its stay. */
  readonly bayOf: Int32Array
  /** When each bay is closed: no vehicle can be in it. */
  readonly closed: ReadonlyMap<number, readonly { readonly from: number, readonly to: number }[]>
  /** How much of each resource there is, tick by tick, one resource after the other. */
  readonly base: Int16Array
  /** Where each fixed activity starts, −1 where it is free. */
  readonly fixedAt: Int32Array
  /** Fixed to its start alone: with whom is open, and what it waits for has to be done by then. */
  readonly isPinned: Uint8Array
  /** The earliest first. */
  readonly begun: readonly number[]
  /** The earliest first. */
  readonly pinned: readonly number[]
  /** What is pinned and what it waits for: first what has to begin first so that all is in time. */
  readonly forPinned: readonly number[]
  /** By when each activity has to begin for what is pinned; infinite where nothing pinned waits for it. */
  readonly latestFor: Float64Array
  /** Who does what is pinned. */
  readonly staffed: Staffed | Unstaffed
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
  const after = turned(before)
  const teamsSeen = new Map<string, Team>()
  const teams = activities.map((activity) => listTeams(activity, { base, horizon, seen: teamsSeen }))
  const compiled: Bare = {
    count: activities.length, horizon, base, before, after,
    work: Int32Array.from(activities, ({ work }) => work),
    earliest: Int32Array.from(activities, ({ earliestTick }) => earliestTick),
    teams,
    mayPause: Uint8Array.from(activities, ({ mayPause }) => Number(mayPause)),
    stayOf: Int32Array.from(activities, ({ stay }) => stay ?? -1),
    stays: problem.stays.map(({ anyOf }) => anyOf),
    membersOf: problem.stays.map((_, stay) => activities.flatMap((activity, place) => (activity.stay === stay ? [place] : []))),
    isInAlready: problem.stays.map(({ isInAlready }) => isInAlready),
    mayRollOut: problem.stays.map(({ mayRollOutNow }) => mayRollOutNow),
    roll: Int32Array.from(problem.stays, ({ rollTicks }) => rollTicks),
    keepsIn: Uint8Array.from(activities, ({ keepsIn }) => Number(keepsIn)),
    waitAfter: longestWaits(after),
    bayOf: Int32Array.from(activities, ({ stay, fixed }) => fixed?.resources.find((resource) => stay !== null && problem.stays[stay]!.anyOf.includes(resource)) ?? -1),
    closed: new Map([...new Set(problem.stays.flatMap(({ anyOf }) => anyOf))].map((bay) => [bay, closedTimes(base.subarray(bay * horizon, (bay + 1) * horizon))])),
    fixedAt: Int32Array.from(activities, ({ fixed }) => fixed?.startTick ?? -1),
    isPinned: Uint8Array.from(activities, (activity) => Number(isPinned(activity))),
    begun: fixedInOrder(activities, (activity) => activity.fixed !== null && !isPinned(activity)),
    pinned: fixedInOrder(activities, isPinned),
    topological: toTopological(problem),
  }
  const latestFor = latestStarts(compiled)
  return { ...compiled, closed: besideRunning(compiled), latestFor, forPinned: inTimeFor(latestFor, compiled), staffed: staffPinned({ ...compiled, latestFor }, besideBegun(compiled)) }
}

type Bare = Omit<Compiled, 'staffed' | 'forPinned' | 'latestFor'>

function inTimeFor(latest: Float64Array, { topological }: Bare): number[] {
  return [...topological].filter((activity) => latest[activity]! < Infinity).sort((one, other) => latest[one]! - latest[other]!)
}

/** What has begun goes on in its bay and is rolled out of it, closed or not. */
function besideRunning(compiled: Bare): Compiled['closed'] {
  const closed = new Map(compiled.closed)
  for (const activity of compiled.begun) {
    const [bay, stay] = [compiled.bayOf[activity]!, compiled.stayOf[activity]!]
    if (bay < 0) continue
    const until = endOfBegun(compiled, activity, compiled.teams[activity]![0]!) + compiled.roll[stay]!
    closed.set(bay, closed.get(bay)!.flatMap(({ from, to }) => [{ from, to: Math.min(to, compiled.fixedAt[activity]!) }, { from: Math.max(from, until), to }]).filter(({ from, to }) => from < to))
  }
  return closed
}

/** What is left of each resource beside what has begun. Source: none, an arrangement of the same facts, ours. */
export function besideBegun(compiled: Bare): Int16Array {
  const left = compiled.base.slice()
  if (compiled.pinned.length > 0) for (const activity of compiled.begun) take(compiled, compiled.teams[activity]![0]!, compiled.fixedAt[activity]!, endOfBegun(compiled, activity, compiled.teams[activity]![0]!), left)
  return left
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
    teams: teams.map((own) => own.map(mirroredTeam)), stayOf: new Int32Array(count).fill(-1), stays: [], membersOf: [],
    fixedAt: new Int32Array(count).fill(-1), isPinned: new Uint8Array(count), begun: [], pinned: [], forPinned: [], latestFor: new Float64Array(count).fill(Infinity), staffed: { team: new Int32Array(0), end: new Int32Array(0) },
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

const fixedInOrder = (activities: readonly Activity[], isMeant: (activity: Activity) => boolean): number[] =>
  activities.flatMap((activity, place) => (isMeant(activity) ? [place] : [])).sort((one, other) => activities[one]!.fixed!.startTick - activities[other]!.fixed!.startTick)

const longestWaits = (after: readonly Links[]): Int32Array =>
  Int32Array.from(after, (links) => links.reduce((most, lag, at) => (at % 2 === 1 ? Math.max(most, lag) : most), 0))

function closedTimes(there: Int16Array): { from: number, to: number }[] {
  const times: { from: number, to: number }[] = []
  for (let tick = 0; tick < there.length; tick += 1) {
    if (there[tick]! >= 1) continue
    if (times.at(-1)?.to === tick) times[times.length - 1]!.to = tick + 1
    else times.push({ from: tick, to: tick + 1 })
  }
  return times
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
