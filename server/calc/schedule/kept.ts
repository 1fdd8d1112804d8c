import { randomFrom } from '../random.ts'
import { compile, type Compiled } from './compiled.ts'
import { worthOf } from './delay.ts'
import { rankOf, sortInto } from './improve.ts'
import { newPlacing } from './placing.ts'
import type { Activity, Schedule, ScheduleProblem } from './problem.ts'
import { searchSchedule, toSchedule } from './search.ts'
import { placeInOrder } from './serial.ts'
import type { ShopFacts, ShopProblem } from './shopProblem.ts'

/** One operation as a plan in force has it. */
export interface KeptWork {
  readonly startMs: number
  readonly personIds: readonly string[]
  readonly bayId: string | null
}

/** What a plan in force says, by operation; null where there is none. */
export type Kept = ReadonlyMap<string, KeptWork> | null

/**
 * The open work of the shop as a plan in force has it: nothing earlier than planned, in its order, by the same people in
 * the same bays. What is over its planned start already comes as soon as it can; what the plan does not know comes last.
 * Where somebody or some bay is not there any more, others may do it; without a plan a first one is made. Null where not
 * all of it fits.
 *
 * Source: serial schedule generation in a given order (Kelley 1963, from memory); to keep to a plan so is ours, no source.
 */
export function keepToPlan(shop: ShopProblem, facts: ShopFacts, kept: Kept): Schedule | null {
  const { problem, workOf } = shop
  if (kept === null) return searchSchedule(problem, randomFrom(1)).best()
  const plannedAt = Float64Array.from(workOf, (id) => {
    const own = id === null ? undefined : kept.get(id)
    return own === undefined ? problem.horizonTicks : Math.round((own.startMs - facts.fromMs) / facts.tickMs)
  })
  const from = (activities: readonly Activity[]): ScheduleProblem =>
    ({ ...problem, activities: activities.map((activity, place) => (plannedAt[place]! >= problem.horizonTicks ? activity : { ...activity, earliestTick: Math.max(activity.earliestTick, plannedAt[place]!) })) })
  const same = problem.activities.map((activity, place) => withTheSame(activity, kept.get(workOf[place] ?? ''), facts))
  const compiled = compile(from(same))
  problem.activities.forEach(({ stay, fixed }, place) => {
    const bay = bayOf(kept.get(workOf[place] ?? ''), facts)
    if (stay !== null && fixed === null && bay >= 0 && problem.stays[stay]!.anyOf.includes(bay)) compiled.bayOf[place] = bay
  })
  return placeBy(problem, plannedAt, { compiled }) ?? placeBy(from(problem.activities), plannedAt) ?? searchSchedule(problem, randomFrom(1)).best()
}

function withTheSame(activity: Activity, kept: KeptWork | undefined, { people }: ShopFacts): Activity {
  if (kept === undefined || activity.fixed !== null) return activity
  return {
    ...activity, needs: activity.needs.map((need) => {
      const same = need.anyOf.filter((resource) => resource >= people.length || kept.personIds.includes(people[resource]!.id))
      return need.anyOf.length > 1 && same.length >= need.units ? { ...need, anyOf: same } : need
    }),
  }
}

const bayOf = (kept: KeptWork | undefined, { people, bays }: ShopFacts): number => {
  const place = kept === undefined || kept.bayId === null ? -1 : bays.findIndex(({ id }) => id === kept.bayId)
  return place < 0 ? -1 : people.length + place
}

/**
 * A plan made in one order: the activities by a key, the smallest first. Null where not all of it fits.
 * Source: serial schedule generation (Kelley 1963, from memory).
 */
export function placeBy(problem: ScheduleProblem, key: Float64Array, { compiled = compile(problem) }: { readonly compiled?: Compiled } = {}): Schedule | null {
  const order = new Int32Array(compiled.count)
  sortInto(order, key, rankOf(compiled.topological))
  const placing = newPlacing(compiled)
  return placeInOrder(compiled, order, placing) ? toSchedule(compiled, placing, worthOf(problem.ends, placing)) : null
}
