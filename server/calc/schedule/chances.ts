import { groupBy } from '../grouping.ts'
import type { Random } from '../random.ts'
import { compile, type Compiled } from './compiled.ts'
import { worthOf } from './delay.ts'
import { rankOf, sortInto } from './improve.ts'
import { newPlacing } from './placing.ts'
import type { Schedule, ScheduleProblem } from './problem.ts'
import { placeBoldly, placeInOrder } from './serial.ts'
import { isPinned } from './teams.ts'

/** How long work may take: for each activity its ticks in even steps from the best case to the worst; null where it is sure. */
export interface UnsureWork {
  readonly ticks: readonly (readonly number[] | null)[]
  /** Thousandths: 0 where nothing that runs over has to do with anything else, 1000 where all runs over together. */
  readonly togetherThousandths: number
}

/** The ticks at which something that is waited for ended, the earliest case first. */
export type Ends = readonly number[]

/** How a plan ended in all cases, for each of the problem's ends. */
export interface Cases {
  readonly ends: readonly Ends[]
  /** What it waits for and what made it early or late most, the strongest first; none where nothing does for a twentieth. */
  readonly drivers: readonly (readonly Driver[])[]
}

export interface Driver {
  readonly activity: number
  /** How much of the variance of the end goes along with the ticks it took: the square of their correlation, thousandths. */
  readonly shareThousandths: number
}

/**
 * Works a plan through many times, each time with other hours: the same people and bays, everything in the order of the
 * plan and as early as it then can be; a case that cannot come out so takes what else there is. In each case some work
 * shares the luck of the whole case, the rest has its own, as in the spread of hours.
 *
 * Source: simulation of a schedule with drawn durations and the correlation of activities with the end as the measure of
 * what drives it, common practice; closed forms in the tests.
 */
export function simulateCases(problem: ScheduleProblem, schedule: Schedule, { ticks, togetherThousandths }: UnsureWork, cases: number, random: Random): Cases {
  const compiled = compile(asPlanned(problem, schedule))
  problem.activities.forEach(({ stay }, activity) => {
    if (stay !== null) compiled.bayOf[activity] = schedule.placed[activity]!.resources.find((resource) => problem.stays[stay]!.anyOf.includes(resource))!
  })
  const loose = compile(whereItMust(problem))
  const placing = newPlacing(compiled)
  const order = new Int32Array(compiled.count)
  sortInto(order, Float64Array.from(schedule.placed, ({ startTick }) => startTick), rankOf(compiled.topological))
  const ways = waysNearest(compiled, order, problem)
  const chance = Math.sqrt(togetherThousandths / 1000)
  const ends = problem.ends.map(() => [] as number[])
  const drawn = ticks.map((own) => (own === null ? null : [] as number[]))
  for (let each = 0; each < cases; each += 1) {
    const ofCase = random()
    ticks.forEach((own, activity) => {
      if (own === null) return
      const luck = random() < chance ? ofCase : random()
      compiled.work[activity] = own[Math.min(own.length - 1, Math.floor(luck * own.length))]!
      drawn[activity]!.push(compiled.work[activity]!)
    })
    loose.work.set(compiled.work)
    const fits = ways.some((way) => way(compiled, order, placing)) || ways.some((way) => way(loose, order, placing))
    problem.ends.forEach(({ activity }, place) => ends[place]!.push(fits ? placing.end[activity]! : problem.horizonTicks))
  }
  const behind = behindEach(problem, schedule)
  const drivers = ends.map((found, place) => driversOf(found, drawn, behind(problem.ends[place]!.activity)))
  return { ends: ends.map((found) => found.sort((one, other) => one - other)), drivers }
}

type Way = typeof placeInOrder

/** Both orders of finishing vehicles, that first which brings the plan itself out with the earlier ends. */
function waysNearest(compiled: Compiled, order: Int32Array, { ends }: ScheduleProblem): readonly Way[] {
  const worth = [placeInOrder, placeBoldly].map((way) => {
    const placing = newPlacing(compiled)
    return { way, worth: way(compiled, order, placing) ? worthOf(ends, placing) : null }
  })
  const [usual, bold] = [worth[0]!, worth[1]!]
  return bold.worth !== null && (usual.worth === null || bold.worth.ends < usual.worth.ends) ? [bold.way, usual.way] : [usual.way, bold.way]
}

const MOST_DRIVERS = 3
const LEAST_SHARE = 50

function driversOf(ends: readonly number[], drawn: readonly (readonly number[] | null)[], behind: ReadonlySet<number>): Driver[] {
  const found = drawn.flatMap((taken, activity): Driver[] => (taken === null || !behind.has(activity) ? [] : [{ activity, shareThousandths: sharedVariance(taken, ends) }]))
  return found.filter(({ shareThousandths }) => shareThousandths >= LEAST_SHARE).sort((one, other) => other.shareThousandths - one.shareThousandths).slice(0, MOST_DRIVERS)
}

/** What an activity waits for by the plan, through whatever lies between: what must be finished first, and what has its people, bay or machine before it. */
function behindEach({ activities }: ScheduleProblem, { placed }: Schedule): (activity: number) => ReadonlySet<number> {
  const before = activities.map(({ after }) => after.map(({ activity }) => activity))
  const takers = groupBy(placed.flatMap(({ resources }, activity) => resources.map((resource) => ({ resource, activity }))), ({ resource }) => resource)
  for (const row of takers.values()) {
    const inTurn = row.map(({ activity }) => activity).sort((one, other) => placed[one]!.startTick - placed[other]!.startTick)
    inTurn.slice(1).forEach((activity, place) => { if (placed[inTurn[place]!]!.endTick <= placed[activity]!.startTick) before[activity]!.push(inTurn[place]!) })
  }
  return (activity) => {
    const found = new Set([activity])
    for (const one of found) for (const earlier of before[one]!) found.add(earlier)
    return found
  }
}

/** The square of the correlation of two lists, thousandths; 0 where either does not vary. @example sharedVariance([1, 2, 3], [4, 6, 8]) // 1000 */
export function sharedVariance(one: readonly number[], other: readonly number[]): number {
  const mean = (list: readonly number[]): number => list.reduce((sum, value) => sum + value, 0) / list.length
  const [a, b] = [mean(one), mean(other)]
  let [ab, aa, bb] = [0, 0, 0]
  one.forEach((value, at) => {
    ab += (value - a) * (other[at]! - b)
    aa += (value - a) ** 2
    bb += (other[at]! - b) ** 2
  })
  return aa === 0 || bb === 0 ? 0 : Math.round(1000 * ab * ab / (aa * bb))
}

/** The tick by which it has ended in this share of all cases. @example endWithin([4, 5, 6, 9], 0.5) // 5 */
export function endWithin(ends: Ends, share: number): number {
  return ends[Math.max(0, Math.ceil(share * ends.length) - 1)] ?? 0
}

/** The share of all cases that end by a tick. @example chanceBy([4, 5, 6, 9], 6) // 0.75 */
export function chanceBy(ends: Ends, tick: number): number {
  return ends.filter((end) => end <= tick).length / Math.max(ends.length, 1)
}

/**
 * The same problem with the people of the plan and no others. What is pinned starts no earlier, and later where it must.
 * Nobody begins what comes later in the plan because what comes before it is late: it would have to be known for how long.
 * A vehicle goes to its next bay when all that is planned in this one is done, and what frees it stays after what keeps it in.
 */
function asPlanned(problem: ScheduleProblem, { placed }: Schedule): ScheduleProblem {
  const inVehicle = orderInVehicles(problem, placed)
  const byOne = orderByOne(problem, placed)
  return {
    ...problem,
    activities: problem.activities.map((activity, place) => ({
      ...activity,
      after: [...activity.after, ...[...inVehicle[place]!, ...byOne[place]!].map((earlier) => ({ activity: earlier, lagTicks: 0 }))],
      needs: activity.needs.map((need) => ({ ...need, anyOf: need.anyOf.filter((resource) => placed[place]!.resources.includes(resource)) })),
      ...(isPinned(activity) ? { fixed: null, earliestTick: placed[place]!.startTick } : {}),
    })),
  }
}

/** What a case takes that fits as planned by no means: other people and bays, and work that was to be done in one piece goes on another day. */
const whereItMust = (problem: ScheduleProblem): ScheduleProblem =>
  ({ ...problem, activities: problem.activities.map((activity) => ({ ...activity, mayPause: true, ...(isPinned(activity) ? { fixed: null, earliestTick: activity.fixed!.startTick } : {}) })) })

/** What comes just before each activity for whom there is one of: people, and machines that do one thing at a time. */
function orderByOne({ activities, resources, stays }: ScheduleProblem, placed: Schedule['placed']): readonly (readonly number[])[] {
  const bays = new Set(stays.flatMap(({ anyOf }) => anyOf))
  const isOne = resources.map(({ capacity }, place) => !bays.has(place) && (typeof capacity === 'number' ? capacity === 1 : capacity.every((units) => units <= 1)))
  const earlier = activities.map(() => [] as number[])
  const takers = groupBy(placed.flatMap(({ resources: own }, activity) => (activities[activity]!.work > 0 ? own.filter((one) => isOne[one]).map((resource) => ({ resource, activity })) : [])), ({ resource }) => resource)
  for (const row of takers.values()) {
    const inTurn = row.map(({ activity }) => activity).sort((one, other) => placed[one]!.startTick - placed[other]!.startTick)
    inTurn.slice(1).forEach((activity, place) => { if (placed[inTurn[place]!]!.endTick <= placed[activity]!.startTick) earlier[activity]!.push(inTurn[place]!) })
  }
  return earlier
}

/** What comes before each activity in its vehicle, however long anything takes. */
function orderInVehicles({ activities, stays }: ScheduleProblem, placed: Schedule['placed']): readonly (readonly number[])[] {
  const earlier = activities.map(() => [] as number[])
  const bayOf = (activity: number, stay: number): number | undefined => placed[activity]!.resources.find((resource) => stays[stay]!.anyOf.includes(resource))
  stays.forEach((_, stay) => {
    const inTurn = activities.flatMap((activity, place) => (activity.stay === stay ? [place] : [])).sort((one, other) => placed[one]!.startTick - placed[other]!.startTick || placed[one]!.endTick - placed[other]!.endTick)
    inTurn.forEach((activity, place) => {
      const { startTick, endTick } = placed[activity]!
      for (const other of inTurn.slice(0, place)) if (bayOf(other, stay) !== bayOf(activity, stay) && placed[other]!.endTick <= startTick) earlier[activity]!.push(other)
      const next = activities[activity]!.keepsIn ? inTurn.slice(place + 1).find((other) => placed[other]!.startTick >= endTick) : undefined
      if (next !== undefined) earlier[next]!.push(activity)
    })
  })
  return earlier
}
