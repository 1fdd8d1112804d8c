import { randomFrom, type Random } from '../random.ts'
import { simulateCases, type Ends } from './chances.ts'
import { compile } from './compiled.ts'
import { drawOrder } from './crossing.ts'
import { rankOf } from './improve.ts'
import { keepToPlan, placeBy, type Kept } from './kept.ts'
import { listLimits, type Limit } from './takingLimits.ts'
import type { Activity, Schedule, ScheduleProblem } from './problem.ts'
import { latestFinishes } from './urgency.ts'
import { toShopProblem, type LeftOut, type ShopBuild, type ShopFacts, type ShopProblem } from './shopProblem.ts'

/** One build that is not in the plan, beside all that is. */
export interface TakingAsked {
  /** All but the build asked about. */
  readonly facts: ShopFacts
  readonly build: ShopBuild
  readonly kept: Kept
  /** No work on it before this instant; null where it may begin at once. */
  readonly earliestMs: number | null
}

/** How one more build fits, in ticks from the beginning of the facts. */
export interface Taking {
  readonly shop: ShopProblem
  /** Where the build’s own work cannot be planned, why; it has no end then. */
  readonly leftOut: readonly LeftOut[]
  /** The others can be planned as they are; where they cannot, nothing can be said of one more. */
  readonly othersStand: boolean
  /** The others as they are kept, and the build where they leave room; null where it does not fit before the horizon. */
  readonly plan: Schedule | null
  readonly endTick: number | null
  /** Its first tick of work. */
  readonly startTick: number | null
  /** Were the shop its own, with nobody else’s build in it; null where even then it does not fit. */
  readonly aloneTick: number | null
  readonly limits: readonly Limit[]
  readonly first: GoesFirst | null
}

/** What gives way when it goes first. */
export interface GoesFirst {
  readonly endTick: number
  /** Of the other builds that end later than they are kept: both ends, and when they are due. */
  readonly later: readonly { readonly buildId: string, readonly keptTick: number, readonly thenTick: number, readonly dueTick: number | null }[]
}

/**
 * Whether a shop can take one more build: where it fits while everything else stays as planned, what holds it up, and
 * who would give way if it went first. Nothing of the plan is changed by asking.
 *
 * Source: insertion of a project into a schedule with all else fixed, common practice, no source; brute force in the tests.
 */
export function takeBuild({ facts, build, kept, earliestMs }: TakingAsked): Taking {
  const others = toShopProblem(facts)
  const shop = toShopProblem({ ...facts, builds: [...facts.builds, build] })
  const leftOut = shop.leftOut.filter(({ buildId }) => buildId === build.id)
  const own = shop.endOf.get(build.id)
  const nothing = { shop, leftOut, othersStand: true, plan: null, endTick: null, startTick: null, aloneTick: null, limits: [], first: null }
  const ownFrom = others.problem.activities.length
  const asIs = own === undefined ? null : keepToPlan(others, facts, kept)
  if (own === undefined) return nothing
  if (asIs === null) return { ...nothing, othersStand: false }
  const begins = earliestMs === null ? 0 : Math.max(0, Math.ceil((earliestMs - facts.fromMs) / facts.tickMs))
  const asked = startingFrom(shop.problem, ownFrom, begins)
  const around = besides(asked, asIs, { activity: own, ownFrom })
  const plan = bestOf(around)
  const alone = bestOf(withoutOthers(asked, { own, ownFrom }))
  return {
    shop: { ...shop, problem: asked }, leftOut, othersStand: true, plan: plan && { ...plan, delay: delayOf(asked, plan) }, endTick: plan && plan.placed[own]!.endTick,
    startTick: plan && Math.min(...plan.placed.filter((_, place) => place >= ownFrom && shop.workOf[place] !== null).map(({ startTick }) => startTick)),
    aloneTick: alone?.placed.at(-1)!.endTick ?? null,
    limits: listLimits({ problem: around, facts, build, ownFrom, begins, workOf: shop.workOf, endOf: (problem) => bestOf(problem)?.placed[own]!.endTick ?? null }),
    first: goFirst(asked, asIs, { shop, ownFrom, own }),
  }
}

const startingFrom = (problem: ScheduleProblem, ownFrom: number, begins: number): ScheduleProblem =>
  ({ ...problem, activities: problem.activities.map((activity, place) => (place < ownFrom ? activity : { ...activity, earliestTick: Math.max(activity.earliestTick, begins) })) })

const delayOf = ({ ends }: ScheduleProblem, { placed }: Schedule): number => ends.reduce((sum, { activity, dueTick, weight }) => sum + weight * Math.max(0, placed[activity]!.endTick - dueTick), 0)

/** All others fixed where they are kept; only the build’s own end counts. */
function besides(problem: ScheduleProblem, { placed }: Schedule, { activity, ownFrom }: { activity: number, ownFrom: number }): ScheduleProblem {
  return {
    ...problem, ends: [{ activity, dueTick: 0, weight: 1 }],
    activities: problem.activities.map((one, place): Activity => {
      if (place >= ownFrom) return one
      const { startTick, resources } = placed[place]!
      return resources.length === 0 ? { ...one, earliestTick: startTick } : { ...one, fixed: { startTick, resources } }
    }),
  }
}

/** The same people, bays and machines with this build alone in the shop. */
function withoutOthers(problem: ScheduleProblem, { own, ownFrom }: { own: number, ownFrom: number }): ScheduleProblem {
  return {
    ...problem, ends: [{ activity: own - ownFrom, dueTick: 0, weight: 1 }],
    activities: problem.activities.slice(ownFrom).map((activity) => ({ ...activity, stay: activity.stay === null ? null : 0, after: activity.after.map((one) => ({ ...one, activity: one.activity - ownFrom })) })),
    stays: problem.stays.slice(-1),
  }
}

/** Orders drawn besides the two that are always tried. Ours, no source. */
const DRAWN = 8

/** The best of a few orders: the most urgent first, as the work is listed, and some drawn ones, always the same. */
function bestOf(problem: ScheduleProblem): Schedule | null {
  const compiled = compile(problem)
  const latest = latestFinishes(compiled, problem.ends)
  const random = randomFrom(1)
  const drawn = Array.from({ length: DRAWN }, () => rankOf(drawOrder(compiled, latest, random)))
  const ways = [latest, new Float64Array(compiled.count), ...drawn].flatMap((key) => placeBy(problem, key, { compiled }) ?? [])
  return ways.reduce<Schedule | null>((best, way) => (best === null || way.delay < best.delay ? way : best), null)
}

/** It first, then the others in the order they are kept: by the same people in the same bays, or by whoever is free, whichever costs less. */
function goFirst(problem: ScheduleProblem, { placed }: Schedule, { shop, ownFrom, own }: { shop: ShopProblem, ownFrom: number, own: number }): GoesFirst | null {
  const key = Float64Array.from(problem.activities, (_, place) => (place >= ownFrom ? -1 : placed[place]!.startTick))
  const same = {
    ...problem, activities: problem.activities.map((activity, place) => (place >= ownFrom || activity.fixed !== null ? activity : {
      ...activity, needs: activity.needs.map((need) => ({ ...need, anyOf: need.anyOf.filter((resource) => placed[place]!.resources.includes(resource)) })),
    })),
  }
  const ways = [placeBy(same, key), placeBy(problem, key)].filter((way) => way !== null)
  const first = ways.reduce<Schedule | null>((best, way) => (best === null || costOf(way) < costOf(best) ? way : best), null)
  if (first === null) return null
  return {
    endTick: first.placed[own]!.endTick,
    later: [...shop.endOf].flatMap(([buildId, end]) => {
      if (end === own) return []
      const [keptTick, thenTick] = [placed[end]!.endTick, first.placed[end]!.endTick]
      const dueTick = problem.ends.find(({ activity }) => activity === end)?.dueTick ?? problem.horizonTicks
      return thenTick > keptTick ? [{ buildId, keptTick, thenTick, dueTick: dueTick >= problem.horizonTicks ? null : dueTick }] : []
    }),
  }

  function costOf(way: Schedule): number {
    return problem.ends.reduce((sum, { activity, dueTick, weight }) => sum + weight * Math.max(0, way.placed[activity]!.endTick - dueTick) * problem.horizonTicks + way.placed[activity]!.endTick, 0)
  }
}

/**
 * When the build ends in so many cases in which hours run over or under, those of the others too: people, bays and order
 * stay those of the plan. The earliest case first; empty where it does not fit. Source: as `simulateCases`.
 */
export function drawTakingEnds({ shop, plan }: Taking, { buildId, togetherThousandths }: { buildId: string, togetherThousandths: number }, cases: number, random: Random): Ends {
  const place = shop.problem.ends.findIndex(({ activity }) => activity === shop.endOf.get(buildId))
  return plan === null ? [] : simulateCases(shop.problem, plan, { ticks: shop.unsureTicks, togetherThousandths }, cases, random).ends[place] ?? []
}
