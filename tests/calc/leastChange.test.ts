import t from 'tap'
import { CHANGE, costOfLater, moveOf, type Before, type PlanBefore } from '../../server/calc/schedule/change.ts'
import { checkSchedule } from '../../server/calc/schedule/checkSchedule.ts'
import { costOfMoves, listMoves, searchLeastChange } from '../../server/calc/schedule/leastChange.ts'
import type { Activity, Schedule, ScheduleProblem } from '../../server/calc/schedule/problem.ts'
import { searchSchedule, type Search } from '../../server/calc/schedule/search.ts'
import { randomFrom } from '../../server/calc/random.ts'
import { drawShop } from '../support/generatedShop.ts'
import { absent, beforeOf, changed, TICKS_A_DAY } from '../support/planBefore.ts'

const searched = (search: Search, steps: number): Schedule | null => {
  for (let step = 0; step < steps && !search.isProven(); step += 1) search.step()
  return search.best()
}
const anew = (problem: ScheduleProblem, steps: number): Schedule | null => searched(searchSchedule(problem, randomFrom(5)), steps)
const repaired = (problem: ScheduleProblem, before: PlanBefore, steps: number): Schedule | null => searched(searchLeastChange(problem, before, randomFrom(5)), steps)
const movedIn = (problem: ScheduleProblem, plan: Schedule, before: PlanBefore): number[] => listMoves(problem, plan, before).flatMap((move, place) => (move?.isMoved ? [place] : []))

/** A drawn shop with its plan: the first of them that have one. */
function* shops(count: number): Generator<{ readonly seed: number, readonly problem: ScheduleProblem, readonly plan: Schedule, readonly before: PlanBefore }> {
  for (let seed = 1, found = 0; found < count; seed += 1) {
    const problem = drawShop(seed)
    const plan = anew(problem, 30)
    if (plan === null) continue
    found += 1
    yield { seed, problem, plan, before: beforeOf(problem, plan) }
  }
}

t.test('where nothing has changed, nothing moves', async (t) => {
  for (const { seed, problem, plan, before } of shops(40)) {
    const again = repaired(problem, before, 100)!
    t.same(again.placed, plan.placed, `shop ${seed}`)
  }
})

t.test('what takes longer moves only what waits for it or shares its people and bays, and no more than planning from the beginning does', async (t) => {
  let [moved, movedAnew, compared] = [0, 0, 0]
  for (const { seed, problem, before } of shops(30)) {
    const place = seed % problem.activities.length
    const longer = changed(problem, place, ({ work }) => ({ work: work + 3 }))
    const plan = repaired(longer, before, 400)
    if (plan === null) continue
    t.same(checkSchedule(longer, plan), [], `shop ${seed}`)
    const own = movedIn(longer, plan, before)
    const tied = tiedTo(longer, place)
    if (plan.delay === 0) t.same(own.filter((one) => !tied.has(one)), [], `shop ${seed}: only what is tied to it`)
    const other = anew(longer, 400)!
    const costOf = (one: Schedule): number => one.delay + costOfMoves(listMoves(longer, one, before)) + costOfLater(longer.ends, before.ends, (activity) => one.placed[activity]!.endTick)
    if (costOf(plan) > costOf(other)) t.fail(`shop ${seed}: ${costOf(plan)} with the least change, ${costOf(other)} from the beginning`)
    compared += 1
    moved += own.length
    movedAnew += movedIn(longer, other, before).length
  }
  t.ok(compared >= 20)
  t.ok(moved * 2 < movedAnew, `${moved} moved, from the beginning ${movedAnew}`)
})

/** Whatever may be moved by one activity: what waits for it, and what shares people or bays with any of it. */
function tiedTo({ activities }: ScheduleProblem, place: number): Set<number> {
  const tied = new Set([place])
  for (const one of tied) {
    activities.forEach(({ after, needs, stay }, other) => {
      const shares = needs.some(({ anyOf }) => activities[one]!.needs.some((need) => need.anyOf.some((resource) => anyOf.includes(resource))))
      if (after.some(({ activity }) => activity === one) || shares || (stay !== null && stay === activities[one]!.stay)) tied.add(other)
    })
  }
  return tied
}

t.test('with somebody away in the middle of the week, today stays as it is for all others', async (t) => {
  for (const { seed, problem, before } of shops(30)) {
    const away = absent(problem, 0, TICKS_A_DAY, 2 * TICKS_A_DAY)
    const plan = repaired(away, before, 200)
    if (plan === null) continue
    t.same(checkSchedule(away, plan), [], `shop ${seed}`)
    const todays = listMoves(away, plan, before).flatMap((move, place) => (move?.wasToday && move.isMoved && !(before.activities[place] as Before).people.includes(0) ? [place] : []))
    t.same(todays, [], `shop ${seed}`)
  }
})

const anActivity = (name: string, work: number, more: Partial<Activity> = {}): Activity =>
  ({ name, work, after: [], needs: [{ anyOf: [0, 1], units: 1, isHeld: false }], earliestTick: 0, mayPause: false, stay: null, keepsIn: false, fixed: null, ...more })
const was = (startTick: number, endTick: number, person: number) => ({ startTick, endTick, work: endTick - startTick, people: [person], bay: null })

t.test('by every way there is: in tiny shops no plan costs less than the one found', async (t) => {
  const random = randomFrom(11)
  const upTo = (most: number): number => Math.floor(random() * (most + 1))
  for (let each = 0; each < 25; each += 1) {
    const activities = Array.from({ length: 4 }, (_, place) => anActivity(`work ${place}`, 1 + upTo(2), {
      after: place > 0 && random() < 0.4 ? [{ activity: place - 1, lagTicks: 0 }] : [], earliestTick: upTo(2), needs: [{ anyOf: random() < 0.5 ? [0, 1] : [upTo(1)], units: 1, isHeld: false }],
    }))
    const problem: ScheduleProblem = { resources: [{ name: 'person 1', capacity: 1 }, { name: 'person 2', capacity: 1 }], activities, stays: [], horizonTicks: 30, ends: activities.map((_, activity) => ({ activity, dueTick: 3 + upTo(4), weight: upTo(9) })) }
    const first = anew({ ...problem, activities: activities.map((one) => ({ ...one, needs: [{ anyOf: [0, 1], units: 1, isHeld: false }] })) }, 20)!
    // Of today nothing is let go that can stand, whatever it would gain: the least of all holds where all is still to come.
    const later: PlanBefore = { ...beforeOf(problem, first), midnights: [0, 6, 12, 18, 24] }
    const found = repaired(problem, later, 1_500)!
    const costOf = (starts: readonly number[], people: readonly number[]): number => {
      const placed = activities.map(({ work }, place) => ({ startTick: starts[place]!, endTick: starts[place]! + work, resources: [people[place]!] }))
      return problem.ends.reduce((sum, { activity, dueTick, weight }) => sum + weight * Math.max(0, placed[activity]!.endTick - dueTick), 0) + costOfMoves(listMoves(problem, { placed }, later)) + costOfLater(problem.ends, later.ends, (activity) => placed[activity]!.endTick)
    }
    t.equal(costOf(found.placed.map(({ startTick }) => startTick), found.placed.map(({ resources }) => resources[0]!)), leastOf(problem, costOf), `shop ${each}`)
  }
})

/** The least cost over all starts up to tick 12 and all people, tried one by one. */
function leastOf({ activities }: ScheduleProblem, costOf: (starts: readonly number[], people: readonly number[]) => number): number {
  let least = Infinity
  const starts: number[] = []
  const people: number[] = []
  const place = (at: number): void => {
    if (at === activities.length) {
      least = Math.min(least, costOf(starts, people))
      return
    }
    const { work, earliestTick, after, needs } = activities[at]!
    const from = Math.max(earliestTick, ...after.map(({ activity }) => starts[activity]! + activities[activity]!.work))
    for (let start = from; start <= 12; start += 1) {
      for (const person of needs[0]!.anyOf) {
        if (starts.slice(0, at).some((other, one) => people[one] === person && other < start + work && start < other + activities[one]!.work)) continue
        starts[at] = start
        people[at] = person
        place(at + 1)
      }
    }
    starts.length = at
    people.length = at
  }
  place(0)
  return least
}

t.test('an urgent build goes before others where days are gained by it, but not before what is planned for today', async (t) => {
  const alone = { needs: [{ anyOf: [0], units: 1, isHeld: false }] }
  const problem: ScheduleProblem = {
    resources: [{ name: 'person 1', capacity: 1 }], stays: [], horizonTicks: 400,
    activities: [anActivity('today', 8, alone), anActivity('tomorrow', 40, alone), anActivity('urgent', 10, alone)],
    ends: [{ activity: 1, dueTick: 300, weight: 1 }, { activity: 2, dueTick: 12, weight: 4 }],
  }
  const before: PlanBefore = { peopleCount: 1, delay: 0, ends: [48, null], midnights: [8, 48, 96, 144, 192, 240, 288, 336, 384], activities: [was(0, 8, 0), was(8, 48, 0), 'new'] }
  t.same(repaired(problem, before, 400)!.placed.map(({ startTick }) => startTick), [0, 18, 8])
  const slight = { ...problem, ends: [problem.ends[0]!, { activity: 2, dueTick: 57, weight: 1 }] }
  t.same(repaired(slight, before, 400)!.placed.map(({ startTick }) => startTick), [0, 8, 48], 'one tick of delay is not worth a move')
})

t.test('a build with days to spare is not put off to where there is room, as long as little else has to move for it', async (t) => {
  const by = (...anyOf: number[]): Partial<Activity> => ({ needs: [{ anyOf, units: 1, isHeld: false }] })
  const problem: ScheduleProblem = {
    resources: [{ name: 'person 1', capacity: 1 }, { name: 'person 2', capacity: 1 }], stays: [], horizonTicks: 800,
    activities: [anActivity('part came late', 8, { ...by(0), earliestTick: 16 }), anActivity('either', 8), anActivity('long', 376, by(0))],
    ends: [{ activity: 0, dueTick: 700, weight: 2 }, { activity: 1, dueTick: 700, weight: 2 }, { activity: 2, dueTick: 400, weight: 2 }],
  }
  const before: PlanBefore = { peopleCount: 2, delay: 0, ends: [16, 24, 400], midnights: Array.from({ length: 90 }, (_, day) => 8 * (day + 1)), activities: [was(8, 16, 0), was(16, 24, 0), was(24, 400, 0)] }
  t.same(repaired(problem, before, 400)!.placed.map(({ startTick, resources }) => [startTick, ...resources]), [[16, 0], [16, 1], [24, 0]], 'the other goes to somebody else for it, where it would have ended 48 days later')
  t.equal(costOfLater(problem.ends, before.ends, (activity) => [16 + 80, 24, 480][activity]!), 20, 'an eighth of what delay costs, and nothing for delay itself')
})

t.test('what is new comes as early as it can where it moves nothing, and moves nothing where it has time', async (t) => {
  const problem: ScheduleProblem = {
    resources: [{ name: 'person 1', capacity: 1 }], stays: [], horizonTicks: 400,
    activities: [anActivity('tomorrow', 8, { needs: [{ anyOf: [0], units: 1, isHeld: false }] }), anActivity('later', 40, { needs: [{ anyOf: [0], units: 1, isHeld: false }] }), anActivity('new', 8, { needs: [{ anyOf: [0], units: 1, isHeld: false }] })],
    ends: [{ activity: 1, dueTick: 300, weight: 1 }, { activity: 2, dueTick: 200, weight: 4 }],
  }
  const before: PlanBefore = { peopleCount: 1, delay: 0, ends: [72, null], midnights: Array.from({ length: 49 }, (_, day) => 8 * (day + 1)), activities: [was(8, 16, 0), was(32, 72, 0), 'new'] }
  t.same(repaired(problem, before, 400)!.placed.map(({ startTick }) => startTick), [8, 32, 16])
})

t.test('a move is told by day, hour, people and bay; what goes on and ends in time is none', async (t) => {
  const midnights = [8, 16, 24]
  const at = (startTick: number, endTick: number, person = 0, bay: number | null = null) => ({ startTick, endTick, people: [person], bay })
  t.match(moveOf(was(10, 12, 0), at(10, 12), midnights), { isMoved: false, cost: 0 })
  t.match(moveOf(was(10, 12, 0), at(11, 13), midnights), { isMoved: true, hasOtherDay: false, cost: CHANGE.hour })
  t.match(moveOf(was(10, 12, 0), at(17, 19), midnights), { hasOtherDay: true, cost: CHANGE.day })
  t.match(moveOf(was(10, 12, 0), at(10, 12, 1), midnights), { hasOtherPeople: true, cost: CHANGE.person })
  t.match(moveOf(was(10, 12, 0), at(10, 12, 0, 5), midnights), { hasOtherBay: true, cost: CHANGE.bay })
  t.match(moveOf(was(2, 4, 0), at(9, 11), midnights), { wasToday: true, cost: CHANGE.day + CHANGE.today })
  t.match(moveOf(was(2, 4, 0), at(5, 7), midnights), { wasToday: true, cost: CHANGE.hour + CHANGE.withinToday })
  t.match(moveOf(was(10, 12, 0), at(3, 5), midnights), { cost: CHANGE.day + CHANGE.intoToday })
  t.match(moveOf(was(-3, 4, 0), at(0, 4), midnights), { isMoved: false, cost: 0 }, 'it goes on')
  t.match(moveOf(was(-3, 4, 0), at(0, 6), midnights), { isMoved: true, wasToday: true })
  t.match(moveOf(was(-3, 0, 0), at(0, 2), midnights), { isMoved: true, wasToday: false, cost: CHANGE.hour }, 'it should be over')
})
