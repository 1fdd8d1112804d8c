import type { Random } from '../random.ts'
import { leastWorth } from './bounds.ts'
import { CHANGE, costOfLater, dayOf, moveOf, type Before, type Move, type PlanBefore } from './change.ts'
import { compile, type Compiled } from './compiled.ts'
import { isBetter, worthOf, type Worth } from './delay.ts'
import { listDisplaced } from './displaced.ts'
import { rankOf, sortInto } from './improve.ts'
import { newPlacing } from './placing.ts'
import type { Schedule, ScheduleProblem } from './problem.ts'
import { toSchedule, type Search } from './search.ts'
import { placeBoldly, placeInOrder } from './serial.ts'
import type { Team } from './teams.ts'
import { comeLast, copyOf, laterOf, letGone, mutate, withBack, type Choice, type Ground } from './repair.ts'
import { latestFinishes } from './urgency.ts'

/** A plan that was tried: what was chosen, and what came of it. */
export interface Tried {
  readonly choice: Choice
  readonly schedule: Schedule
  readonly moves: readonly (Move | null)[]
  /** Weighted delay and change in one, and the ticks at which all ends. */
  readonly worth: Worth
}

const REMEMBERED = 40
const MOST_FAILURES = 1_500
/** When nothing was gained for so many tries, whatever was let go is put back one by one, so that nothing moves for no gain. */
const TIDY_AFTER = 120

/**
 * Plans anew with as little change as can be. At first everything stands where the plan in force has it: same people,
 * same bay, not before its time; what cannot stand there comes as soon after as it can, in the order it had, or after all
 * that stands, wherever there is room. Then single things are let go (another time, other people, another bay) and put
 * back, and what costs less, delay, change and later ends together, is kept (late acceptance; Burke and Bykov 2017, from
 * memory). What was planned for today is let go only where it cannot stand anyway. What is new comes after all that was
 * there and not today, unless it is worth more before. Where all can stay as it was and is no later than it was, it stays:
 * to find a better plan for its own sake is to plan from the beginning.
 *
 * Null where nothing of it fits before the horizon. Throws as `compile` does.
 */
export function searchLeastChange(problem: ScheduleProblem, before: PlanBefore, random: Random): Search {
  const compiled = compile(problem)
  const bound = leastWorth(problem, compiled)
  const attempt = toAttempt(problem, compiled, before)
  const usual = asBefore(problem, compiled, before)
  // Where nothing of the order can be kept, the most urgent first, and what can be is put back from there.
  const kept = keptAsItCan(usual, attempt) ?? attempt({ ...ways(usual).at(-1)!, key: latestFinishes(compiled, problem.ends) })
  const ground: Ground | null = kept && toGround(problem, compiled, kept, { usual, before })
  let best = ground && aside(compiled, before, ground).map(attempt).reduce(betterOf, kept)
  let current = best
  const stands = kept !== null && kept.schedule.delay <= before.delay && kept.moves.every((move) => move === null || !move.isMoved) && !before.activities.includes('new')
  let failures = 0
  let at = 0
  let toTidy: number[] = []
  const remembered: Worth[] = best === null ? [] : Array.from({ length: REMEMBERED }, () => best!.worth)
  return {
    leastDelay: bound.delay,
    leastEnds: bound.each,
    best: () => best?.schedule ?? null,
    isProven: () => best === null || stands || failures > MOST_FAILURES || best.worth.delay <= bound.delay,
    step() {
      if (best === null || current === null || ground === null) return
      if (failures === TIDY_AFTER) toTidy = letGone(best.choice, ground)
      const one = toTidy.pop()
      const next = attempt(one === undefined ? mutate(current, ground, random) : withBack(best.choice, one, ground))
      failures += 1
      if (next === null) return
      const limit = remembered[at % REMEMBERED]!
      if (!isBetter(limit, next.worth) || !isBetter(current.worth, next.worth)) current = next
      if (isBetter(next.worth, best.worth)) {
        best = next
        // While it is tidied up what is gained goes on being tidied, and nothing begins anew.
        failures = one === undefined ? 0 : TIDY_AFTER + 1
      }
      remembered[at % REMEMBERED] = current.worth
      at += 1
      if (failures > 0 && failures % (MOST_FAILURES / 3) === 0) current = best
    },
  }
}

/**
 * The plan in force as it comes out now: the same people, bays and order, nothing before its time, and no search. Null
 * where it cannot stand. Throws as `compile` does.
 *
 * Source: ours, no source.
 */
export function keepAsBefore(problem: ScheduleProblem, before: PlanBefore): Schedule | null {
  const compiled = compile(problem)
  const attempt = toAttempt(problem, compiled, before)
  return keptAsItCan(asBefore(problem, compiled, before), attempt)?.schedule ?? null
}

/** What each activity would cost, moved as it is in a plan; null for what is no work or has begun. Source: ours, no source. */
export function listMoves({ activities, stays }: ScheduleProblem, { placed }: Pick<Schedule, 'placed'>, { activities: was, peopleCount, midnights }: PlanBefore): (Move | null)[] {
  return activities.map(({ work, fixed, stay }, activity) => {
    const before = was[activity] ?? null
    if (before === null || work === 0 || (fixed !== null && fixed.resources.length > 0)) return null
    const { startTick, endTick, resources } = placed[activity]!
    const bay = stay === null ? null : resources.find((resource) => stays[stay]!.anyOf.includes(resource)) ?? null
    return moveOf(before, { startTick, endTick, people: resources.filter((resource) => resource < peopleCount).sort((one, other) => one - other), bay }, midnights)
  })
}

/** What a plan costs beside its delay: all its changes. Source: `CHANGE`. */
export const costOfMoves = (moves: readonly (Move | null)[]): number => moves.reduce((sum, move) => sum + (move?.cost ?? 0), 0)

/** What is displaced comes after all that can stand, wherever there is room: alone or with what waits for it, by the same people or by others. */
function aside(compiled: Compiled, before: PlanBefore, { usual, mayGo }: Ground): Choice[] {
  const alone = listDisplaced(compiled, before, compiled.teams.map((teams, activity) => teamAsBefore(teams, before, activity))).filter((one) => mayGo[one])
  const withLater = [...new Set(alone.flatMap((one) => laterOf(compiled, one)))].filter((one) => mayGo[one])
  const either = [false, true]
  return either.flatMap((isBold) => either.flatMap((inOtherBays) => either.flatMap((byOthers) => [alone, withLater].map((moved): Choice => {
    const choice = { ...copyOf(usual), isBold }
    comeLast(choice, moved, { compiled, usual })
    for (const one of alone) {
      if (byOthers) choice.hasFreePeople[one] = 1
      if (inOtherBays && compiled.stayOf[one]! >= 0) choice.hasFreeBay[compiled.stayOf[one]!] = 1
    }
    return choice
  }))))
}

type Attempt = (choice: Choice) => Tried | null

/** With nothing let go, in both orders of finishing vehicles; where that does not fit, with as little as does. */
const keptAsItCan = (usual: Choice, attempt: Attempt): Tried | null =>
  betterOf(attempt(usual), attempt({ ...usual, isBold: true })) ?? ways(usual).reduce<Tried | null>((found, choice) => found ?? attempt(choice), null)

function toAttempt(problem: ScheduleProblem, compiled: Compiled, before: PlanBefore): Attempt {
  const placing = newPlacing(compiled)
  const order = new Int32Array(compiled.count)
  const rank = rankOf(compiled.topological)
  const usual = compiled.teams.map((teams, activity) => teamAsBefore(teams, before, activity))
  return (choice) => {
    const held = holding(problem, compiled, before, choice, usual)
    sortInto(order, choice.key, rank)
    if (!(choice.isBold ? placeBoldly : placeInOrder)(held, order, placing)) return null
    const worth = worthOf(problem.ends, placing)
    const schedule = toSchedule(held, placing, worth)
    const moves = listMoves(problem, schedule, before)
    return { choice, schedule, moves, worth: { delay: worth.delay + costOfMoves(moves) + costOfLater(problem.ends, before.ends, (activity) => schedule.placed[activity]!.endTick), ends: worth.ends } }
  }
}

/** The problem with what is not let go held where it was. */
function holding(problem: ScheduleProblem, compiled: Compiled, before: PlanBefore, { isFree, hasFreePeople, hasFreeBay }: Choice, usual: readonly (readonly Team[])[]): Compiled {
  const was = before.activities.map(known)
  const notBefore = before.activities.map((one) => (one === 'new' ? before.midnights[0] ?? 0 : one?.startTick ?? 0))
  return {
    ...compiled,
    bayOf: compiled.bayOf.map((own, activity) => {
      const stay = compiled.stayOf[activity]!
      const bay = stay < 0 || own !== -1 || hasFreeBay[stay] === 1 ? null : was[activity]?.bay ?? null
      return bay !== null && compiled.stays[stay]!.includes(bay) ? bay : own
    }),
    earliest: compiled.earliest.map((own, activity) => (isFree[activity] === 1 ? own : Math.max(own, notBefore[activity]!))),
    teams: compiled.teams.map((own, activity) => (hasFreePeople[activity] === 1 || problem.activities[activity]!.fixed !== null ? own : usual[activity]!)),
  }
}

const known = (was: Before | 'new' | null): Before | null => (was === 'new' ? null : was)

const betterOf = (one: Tried | null, other: Tried | null): Tried | null => (one === null || (other !== null && isBetter(other.worth, one.worth)) ? other : one)

/** Bays let go, then people, then times. */
function ways(usual: Choice): Choice[] {
  const all = (list: Uint8Array): Uint8Array => list.map(() => 1)
  const [hasFreeBay, hasFreePeople, isFree] = [all(usual.hasFreeBay), all(usual.hasFreePeople), all(usual.isFree)]
  return [{ ...usual, hasFreeBay }, { ...usual, hasFreeBay, hasFreePeople }, { ...usual, hasFreeBay, hasFreePeople, isFree }]
}

/** The team of the plan in force alone; all where it can no longer be. */
function teamAsBefore(teams: readonly Team[], { activities, peopleCount }: PlanBefore, activity: number): readonly Team[] {
  const was = known(activities[activity] ?? null)
  if (was === null) return teams
  const same = teams.filter(({ takes }) => {
    const people = takes.filter((resource, at) => at % 3 === 0 && resource < peopleCount)
    return people.length === was.people.length && people.every((one) => was.people.includes(one))
  })
  return same.length === 0 ? teams : same
}

/** In the order of the plan in force, today first; what is new after all, the urgent first. */
function asBefore(problem: ScheduleProblem, compiled: Compiled, { activities, midnights }: PlanBefore): Choice {
  const { count, horizon, work } = compiled
  const latest = latestFinishes(compiled, problem.ends)
  const key = Float64Array.from(activities, (was, activity) => {
    if (was === null || was === 'new') return horizon + latest[activity]! - work[activity]!
    const isTodays = was.endTick > 0 && dayOf(Math.max(0, was.startTick), midnights) === 0
    return was.startTick - (isTodays ? horizon : 0)
  })
  return { key, isFree: Uint8Array.from(activities, (was) => Number(was === null)), hasFreePeople: new Uint8Array(count), hasFreeBay: new Uint8Array(compiled.stays.length), isBold: false }
}

function toGround(problem: ScheduleProblem, compiled: Compiled, { moves }: Tried, { usual, before }: { readonly usual: Choice, readonly before: PlanBefore }): Ground {
  const mayGo = problem.activities.map(({ work, fixed }, activity) => work > 0 && fixed === null && !(moves[activity]?.wasToday && moves[activity]!.cost < CHANGE.today))
  return { compiled, ends: problem.ends, endsBefore: before.ends, isNew: before.activities.map((was) => was === 'new'), usual, mayGo }
}
