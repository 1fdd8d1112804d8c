import type { Random } from '../random.ts'
import { compile, mirrored, type Compiled } from './compiled.ts'
import { cross, drawOrder } from './crossing.ts'
import { isBetter, worthOf, type Worth } from './delay.ts'
import { findFirst } from './firstPlan.ts'
import { toImprove, type Found, type Improve } from './improve.ts'
import { leastWorth } from './bounds.ts'
import { newPlacing, type Placing } from './placing.ts'
import type { Schedule, ScheduleProblem } from './problem.ts'
import { listVisits } from './stays.ts'
import { latestFinishes } from './urgency.ts'

/** A search that goes on for as long as it is asked to. */
export interface Search {
  /** One more try. */
  step(): void
  /** The best plan so far; null where nothing fits before the horizon. */
  best(): Schedule | null
  /** No plan can have less weighted delay than this. */
  readonly leastDelay: number
  /** No plan can end them earlier: a tick for each of the problem's ends. */
  readonly leastEnds: readonly number[]
  /** The best plan has no more delay than any plan must have, and nothing can end earlier. */
  isProven(): boolean
}

const POPULATION = 80
const MOST_FAILURES = 1_500

/**
 * Looks for a plan with the least weighted delay: a first one by urgency, at once, then a population of orders that are
 * crossed; doubles are turned away, and what no longer gets better begins anew (genetic search over activity lists;
 * Hartmann 1998, Valls, Ballestín and Quintanilla 2008, from memory). The same problem and the same numbers of `random`
 * give the same plans.
 *
 * Throws a RangeError for activities that wait for each other in a ring and for needs nobody serves.
 */
export function searchSchedule(problem: ScheduleProblem, random: Random): Search {
  const given = compile(problem)
  const { ends } = problem
  const placing = newPlacing(given)
  const first = findFirst(given, ends, placing)
  const forward = 'order' in first ? first.compiled : given
  // Not before it is needed: a first plan is made without.
  let improve: Improve | null = null
  const latest = latestFinishes(forward, ends)
  const bound = leastWorth(problem, given)
  const population = newPopulation(random)
  let best: { readonly worth: Worth, readonly schedule: Schedule } | null = null
  const keep = (worth: Worth): void => {
    if (best === null || isBetter(worth, best.worth)) best = { worth, schedule: toSchedule(forward, placing, worth) }
  }
  const tryOrder = (order: Int32Array): Found | null => {
    improve ??= toImprove({ forward, backward: mirrored(forward), ends, placing })
    const found = improve(order)
    if (found) keep(found.worth)
    return found
  }
  if ('order' in first) keep(worthOf(ends, placing))
  let steps = 0
  return {
    leastDelay: bound.delay,
    leastEnds: bound.each,
    best: () => best?.schedule ?? null,
    isProven: () => best !== null && best.worth.delay <= bound.delay && best.worth.ends <= bound.ends,
    step() {
      if (!('order' in first)) return
      steps += 1
      if (steps === 1) return population.add(tryOrder(first.order))
      if (population.isGrowing()) return population.add(tryOrder(drawOrder(forward, latest, random)))
      const [one, other] = population.parents()
      population.replace(tryOrder(cross(one.order, other.order, forward, random)))
    },
  }
}

/** Plans that are crossed with each other, no two alike. */
function newPopulation(random: Random) {
  let members: Found[] = []
  let prints = new Set<number>()
  let drawn = 0
  let failures = 0
  let best: Worth | null = null
  const pick = (): Found => members[Math.floor(random() * members.length)]!
  const better = (one: Found, other: Found): Found => (isBetter(one.worth, other.worth) ? one : other)
  const note = (worth: Worth): void => {
    const isBest = best === null || isBetter(worth, best)
    if (isBest) best = worth
    failures = isBest ? 0 : failures + 1
  }
  return {
    isGrowing: () => members.length < 2 || (members.length < POPULATION && drawn < 3 * POPULATION),
    add(found: Found | null): void {
      drawn += 1
      if (found === null || prints.has(found.print)) return
      note(found.worth)
      prints.add(found.print)
      members.push(found)
    },
    parents(): readonly [Found, Found] {
      const one = better(pick(), pick())
      const other = better(pick(), pick())
      return [one, one === other ? pick() : other]
    },
    replace(found: Found | null): void {
      if (found === null || prints.has(found.print)) failures += 1
      else {
        const worst = worstOf(members, random)
        if (!isBetter(members[worst]!.worth, found.worth)) {
          prints.delete(members[worst]!.print)
          prints.add(found.print)
          members[worst] = found
        }
        note(found.worth)
      }
      if (failures <= MOST_FAILURES) return
      members = []
      prints = new Set()
      drawn = 0
      failures = 0
      best = null
    },
  }
}

const OF_EQUALS = 0.3

function worstOf(members: readonly Found[], random: Random): number {
  let worst = 0
  for (let at = 1; at < members.length; at += 1) {
    const [one, other] = [members[worst]!.worth, members[at]!.worth]
    if (isBetter(one, other) || (!isBetter(other, one) && random() < OF_EQUALS)) worst = at
  }
  return worst
}

/** A plan as it stands in a placing. Source: none, an arrangement of ours. */
export function toSchedule(compiled: Compiled, placing: Placing, { delay }: Worth): Schedule {
  const { start, end, team, bay } = placing
  const placed = Array.from(start, (startTick, activity) => {
    const { takes } = compiled.teams[activity]![team[activity]!]!
    const stay = compiled.stayOf[activity]!
    return { startTick, endTick: end[activity]!, resources: [...Array.from(takes).filter((_, at) => at % 3 === 0), ...(stay < 0 ? [] : [bay[activity]!])] }
  })
  return { placed, visits: listVisits(compiled, placing), delay, endTick: Math.max(0, ...placed.map(({ endTick }) => endTick)) }
}
