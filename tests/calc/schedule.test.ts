import t from 'tap'
import { chanceBy, endWithin, simulateCases } from '../../server/calc/schedule/chances.ts'
import { checkSchedule } from '../../server/calc/schedule/checkSchedule.ts'
import { compile } from '../../server/calc/schedule/compiled.ts'
import { listImpossible } from '../../server/calc/schedule/impossible.ts'
import type { Activity, PlacedActivity, Schedule, ScheduleProblem, Visit } from '../../server/calc/schedule/problem.ts'
import { searchSchedule } from '../../server/calc/schedule/search.ts'
import { earliestFinishes, latestFinishes } from '../../server/calc/schedule/urgency.ts'
import { randomFrom } from '../../server/calc/random.ts'
import { drawShop, spoiledPlans } from '../support/generatedShop.ts'
import { readProject } from '../support/publishedProjects.ts'

const NOW = 24

const anActivity = (name: string, work: number, more: Partial<Activity> = {}): Activity =>
  ({ name, work, after: [], needs: [], earliestTick: 0, mayPause: false, stay: null, keepsIn: false, fixed: null, ...more })
const aProblem = (more: Partial<ScheduleProblem>): ScheduleProblem => ({ resources: [], activities: [], stays: [], ends: [], horizonTicks: 60, ...more })
const after = (...activities: number[]): Activity['after'] => activities.map((activity) => ({ activity, lagTicks: 0 }))
const by = (...anyOf: number[]): Activity['needs'] => [{ anyOf, units: 1, isHeld: false }]

function search(problem: ScheduleProblem, steps: number): Schedule | null {
  const found = searchSchedule(problem, randomFrom(7))
  for (let step = 0; step < steps && !found.isProven(); step += 1) found.step()
  return found.best()
}

t.test('the earliest and the latest end of each activity are those of a published network', async (t) => {
  // W. Taylor, Introduction to Management Science, chapter 8, solution of problem 1: duration, earliest and latest finish.
  const PUBLISHED = [['1-2', 7, 7, 9], ['1-3', 10, 10, 10], ['2-4', 6, 13, 15], ['3-4', 5, 15, 15], ['3-5', 4, 14, 18], ['4-5', 3, 18, 18], ['5-6', 2, 20, 20]] as const
  const earlierOf = (name: string): number[] => PUBLISHED.flatMap(([other], place) => (other.endsWith(name[0]!) ? [place] : []))
  const problem = aProblem({ activities: PUBLISHED.map(([name, work]) => anActivity(name, work, { after: after(...earlierOf(name)) })), ends: [{ activity: 6, dueTick: 20, weight: 1 }] })
  const compiled = compile(problem)
  t.same([...earliestFinishes(compiled)], PUBLISHED.map(([, , finish]) => finish))
  t.same([...latestFinishes(compiled, problem.ends)], PUBLISHED.map(([, , , latest]) => latest))
})

t.test('a published project of fourteen activities is planned in its published weeks, with the published slack of each', async (t) => {
  // F. S. Hillier and G. J. Lieberman, Introduction to Operations Research, the chapter on projects: the plant built in 44 weeks. Durations are read off a
  // public copy of its table, order and slack are from memory: duration, what comes before, earliest finish, slack.
  const PUBLISHED = [
    ['A', 2, '', 2, 0], ['B', 4, 'A', 6, 0], ['C', 10, 'B', 16, 0], ['D', 6, 'C', 22, 4], ['E', 4, 'C', 20, 0], ['F', 5, 'E', 25, 0], ['G', 7, 'D', 29, 4], ['H', 9, 'EG', 38, 4],
    ['I', 7, 'C', 23, 2], ['J', 8, 'FI', 33, 0], ['K', 4, 'J', 37, 1], ['L', 5, 'J', 38, 0], ['M', 2, 'H', 40, 4], ['N', 6, 'KL', 44, 0],
  ] as const
  const place = (name: string): number => 'ABCDEFGHIJKLMN'.indexOf(name)
  const activities = [...PUBLISHED.map(([name, work, before]) => anActivity(name, work, { after: after(...[...before].map(place)) })), anActivity('end', 0, { after: after(place('M'), place('N')) })]
  const problem = aProblem({ activities, ends: [{ activity: 14, dueTick: 44, weight: 1 }] })
  const compiled = compile(problem)
  t.same([...earliestFinishes(compiled)].slice(0, 14), PUBLISHED.map(([, , , finish]) => finish))
  t.same([...latestFinishes(compiled, problem.ends)].slice(0, 14), PUBLISHED.map(([, , , finish, slack]) => finish + slack))
  const found = searchSchedule(problem, randomFrom(1))
  t.same([found.best()!.endTick, found.best()!.delay, found.leastEnds], [44, 0, [44]])
})

t.test('published problems end as early as published', async (t) => {
  // PSPLIB, see tests/support/published/README.md.
  for (const [file, makespan] of [['j30_17_8', 61], ['j30_21_2', 59], ['j60_17_8', 85]] as const) {
    const problem = readProject(`tests/support/published/${file}.rcp`)
    const plan = search(problem, 150)!
    t.same(checkSchedule(problem, plan), [], file)
    t.equal(plan.endTick, makespan, file)
  }
})

t.test('plans of a hundred shops drawn by chance can be worked as they stand, or it is said what cannot', async (t) => {
  let planned = 0
  let spoiled = 0
  for (let seed = 1; seed <= 100; seed += 1) {
    const problem = drawShop(seed)
    const found = searchSchedule(problem, randomFrom(seed))
    const first = found.best()
    if (first === null) {
      if (listImpossible(problem).length === 0) t.fail(`shop ${seed}: no plan, and no reason`)
      continue
    }
    for (let step = 0; step < 30; step += 1) found.step()
    const best = found.best()!
    const faults = [...checkSchedule(problem, first), ...checkSchedule(problem, best)]
    if (faults.length > 0) t.same(faults, [], `shop ${seed}`)
    if (best.delay > first.delay || best.delay < found.leastDelay) t.fail(`shop ${seed}: ${first.delay} became ${best.delay}, with ${found.leastDelay} the least`)
    for (const plan of spoiledPlans(problem, best)) {
      spoiled += 1
      if (checkSchedule(problem, plan).length === 0) t.fail(`shop ${seed}: a spoiled plan is taken for a good one`)
    }
    planned += 1
  }
  t.ok(spoiled > 1_000, `${spoiled} plans spoiled, none taken for a good one`)
  t.ok(planned >= 75, `${planned} of 100 planned`)
})

t.test('what has begun stays where it is when the rest is planned anew', async (t) => {
  for (let seed = 1; seed <= 40; seed += 1) {
    const problem = drawShop(seed)
    const plan = search(problem, 10)
    if (plan === null) continue
    const activities = problem.activities.map((activity, place) => {
      const { startTick, resources } = plan.placed[place]!
      return startTick < NOW ? { ...activity, fixed: { startTick, resources } } : { ...activity, earliestTick: Math.max(activity.earliestTick, NOW) }
    })
    const again = search({ ...problem, activities }, 10)
    t.ok(again, `shop ${seed}`)
    t.same(checkSchedule({ ...problem, activities }, again!), [], `shop ${seed}`)
    const moved = plan.placed.filter(({ startTick }, place) => startTick < NOW && again!.placed[place]!.startTick !== startTick)
    t.same(moved, [], `shop ${seed}`)
  }
})

t.test('work goes on after the night where it may, and waits for a whole day’s room where it may not', async (t) => {
  const day = Int16Array.from({ length: 60 }, (_, tick) => Number(tick % 10 < 4))
  const plan = (mayPause: boolean) => search(aProblem({
    resources: [{ name: 'trimmer', capacity: day }],
    activities: [anActivity('sew', 2, { needs: by(0) }), anActivity('wrap', 3, { needs: by(0), after: after(0), mayPause })],
    ends: [{ activity: 1, dueTick: 0, weight: 1 }],
  }), 5)!.placed[1]
  t.same(plan(true), { startTick: 2, endTick: 11, resources: [0] })
  t.same(plan(false), { startTick: 10, endTick: 13, resources: [0] })
})

t.test('a vehicle that is kept in keeps its bay between its work; another is rolled out for the next one', async (t) => {
  const shop = (keepsIn: boolean, rollTicks: number) => aProblem({
    resources: [{ name: 'one', capacity: 1 }, { name: 'other', capacity: 1 }, { name: 'bay', capacity: 1 }],
    stays: ['van', 'wagon'].map((name) => ({ name, anyOf: [2], isInAlready: false, mayRollOutNow: false, rollTicks })),
    activities: [
      anActivity('take out', 2, { needs: by(0), stay: 0, keepsIn }), anActivity('build', 5, { needs: by(0), after: after(0) }),
      anActivity('put in', 2, { needs: by(0), after: after(1), stay: 0 }), anActivity('wagon', 3, { needs: by(1), stay: 1 }),
    ],
    ends: [{ activity: 2, dueTick: 9, weight: 5 }, { activity: 3, dueTick: 3, weight: 1 }],
  })
  const startsOf = (problem: ScheduleProblem) => {
    const plan = search(problem, 20)!
    t.same(checkSchedule(problem, plan), [])
    return { starts: plan.placed.map(({ startTick }) => startTick), visits: plan.visits.map(({ stay, fromTick, toTick }) => [stay, fromTick, toTick]) }
  }
  t.same(startsOf(shop(true, 0)), { starts: [0, 2, 7, 9], visits: [[0, 0, 9], [1, 9, 12]] }, 'kept in: the wagon comes after the van')
  t.same(startsOf(shop(false, 0)), { starts: [0, 2, 7, 2], visits: [[0, 0, 2], [0, 7, 9], [1, 2, 5]] }, 'rolled out: the wagon comes between')
  t.same(startsOf(shop(false, 1)), { starts: [1, 3, 8, 12], visits: [[0, 0, 11], [1, 11, 16]] }, 'no room for rolling both out and in: it comes after')
})

t.test('a plan is told how early it could end at best: by those who alone can do it, and by sharing them among several', async (t) => {
  const people = [{ name: 'Ann', capacity: 1 }, { name: 'Bob', capacity: 1 }]
  const sewn = aProblem({
    resources: people, activities: [...['seat', 'bench', 'liner'].map((name) => anActivity(name, 4, { needs: by(0) })), anActivity('fit', 2, { needs: by(0, 1), after: after(0, 1, 2) })],
    ends: [{ activity: 3, dueTick: 10, weight: 2 }],
  })
  const found = searchSchedule(sewn, randomFrom(1))
  t.same([found.leastEnds, found.leastDelay, found.best()!.delay, found.isProven()], [[14], 8, 8, true], 'a chain of six ticks, and twelve of Ann before the last two')
  // One machine, four jobs: hours, due times and weights as in M. Pinedo, Scheduling, on total weighted tardiness, from memory; the least is found by trying all orders.
  const jobs = [[12, 16, 4], [8, 26, 5], [15, 25, 3], [9, 27, 5]] as const
  const orders = (left: readonly number[]): number[][] => (left.length === 0 ? [[]] : left.flatMap((one) => orders(left.filter((other) => other !== one)).map((rest) => [one, ...rest])))
  const delayOf = (order: readonly number[]): number => order.reduce(({ at, sum }, job) => ({ at: at + jobs[job]![0], sum: sum + jobs[job]![2] * Math.max(0, at + jobs[job]![0] - jobs[job]![1]) }), { at: 0, sum: 0 }).sum
  const machine = aProblem({ resources: people, activities: jobs.map(([work], place) => anActivity(`job ${place + 1}`, work, { needs: by(0) })), ends: jobs.map(([, dueTick, weight], activity) => ({ activity, dueTick, weight })) })
  const least = Math.min(...orders([0, 1, 2, 3]).map(delayOf))
  const shared = searchSchedule(machine, randomFrom(1))
  for (let step = 0; step < 40; step += 1) shared.step()
  t.equal(shared.best()!.delay, least)
  t.ok(shared.leastDelay > 0 && shared.leastDelay <= least, `${shared.leastDelay} of ${least}: each alone would be in time`)
})

t.test('a vehicle that is kept in comes before the days on which its bay is closed, where it is done by then', async (t) => {
  const closed = Int16Array.from({ length: 60 }, (_, tick) => Number(tick < 9 || tick >= 40))
  const problem = (work: number) => aProblem({
    resources: [{ name: 'Ann', capacity: 1 }, { name: 'bay', capacity: closed }],
    stays: [{ name: 'van', anyOf: [1], isInAlready: true, mayRollOutNow: false, rollTicks: 1 }],
    activities: [anActivity('strip', 3, { needs: by(0), stay: 0, keepsIn: true }), anActivity('refit', work, { needs: by(0), stay: 0, keepsIn: true, after: after(0) })],
    ends: [{ activity: 1, dueTick: 0, weight: 1 }],
  })
  const plan = search(problem(5), 3)!
  t.same(checkSchedule(problem(5), plan), [])
  t.same(plan.visits, [{ stay: 0, bay: 1, fromTick: 0, toTick: 9 }])
  t.equal(search(problem(6), 3), null)
  t.same(listImpossible(problem(6)).map(({ activity, why }) => [activity, why]), [[1, 'bay is taken']])
})

t.test('the checking of plans finds each kind of fault', async (t) => {
  const hours = Int16Array.from({ length: 60 }, (_, tick) => Number(tick !== 5))
  const problem = aProblem({
    resources: [{ name: 'Ann', capacity: hours }, { name: 'bay', capacity: 1 }, { name: 'saw', capacity: 1 }],
    stays: [{ name: 'van', anyOf: [1], isInAlready: false, mayRollOutNow: false, rollTicks: 0 }, { name: 'wagon', anyOf: [1], isInAlready: false, mayRollOutNow: false, rollTicks: 0 }],
    activities: [
      anActivity('cut', 2, { needs: [...by(0), { anyOf: [2], units: 1, isHeld: true }] }), anActivity('fit', 2, { needs: by(0), after: [{ activity: 0, lagTicks: 1 }], stay: 0 }),
      anActivity('tune', 1, { needs: by(0), stay: 1 }), anActivity('check', 1, { earliestTick: 9 }),
    ],
    ends: [{ activity: 3, dueTick: 9, weight: 2 }],
  })
  const right = search(problem, 10)!
  t.same(checkSchedule(problem, right), [])
  const wrong = (place: number, change: Partial<Schedule['placed'][number]>): string[] =>
    checkSchedule(problem, { ...right, placed: right.placed.map((one, at) => (at === place ? { ...one, ...change } : one)) })
  const at = (startTick: number, endTick: number) => ({ startTick, endTick })
  t.match(wrong(3, at(2, 3)), [/check starts at 2/])
  t.match(wrong(1, at(2, 4)).join(), /fit starts before cut and its waiting are over/)
  t.match(wrong(0, at(0, 3)).join(), /cut is worked 3 ticks, not 2/)
  t.match(wrong(1, at(4, 7)).join(), /fit pauses and must not/)
  t.match(wrong(2, at(5, 6)).join(), /tune is worked 0 ticks/)
  t.match(wrong(2, at(0, 1)).join(), /Ann is taken 2 times at tick 0, and there 1 times/)
  t.match(wrong(0, { resources: [0] }).join(), /cut is not done by those it needs/)
  t.match(wrong(1, { resources: [0] }).join(), /fit is done while van is not in the bay/)
  const visits = (change: (visit: Schedule['visits'][number]) => Partial<Schedule['visits'][number]>): string => checkSchedule(problem, { ...right, visits: right.visits.map((visit) => ({ ...visit, ...change(visit) })) }).join()
  t.match(visits(() => ({ fromTick: 0, toTick: 60 })), /van and wagon are in one bay at once/)
  t.match(checkSchedule(problem, { ...right, delay: right.delay + 1 }).join(), /the delay is/)
  t.match(checkSchedule(problem, { ...right, placed: right.placed.slice(1) }).join(), /3 of 4 activities are planned/)
})

t.test('the checking of plans finds vehicles that are moved when they must not be, and what is not where it is pinned', async (t) => {
  const away = (...ticks: number[]): Int16Array => Int16Array.from({ length: 60 }, (_, tick) => Number(!ticks.includes(tick)))
  const [ANN, BOB, LEFT, RIGHT, OVEN] = [0, 1, 2, 3, 4] as const
  const oven = { anyOf: [OVEN], units: 1, isHeld: true }
  const problem = aProblem({
    resources: [{ name: 'Ann', capacity: away(5, 6, 7, 8, 9) }, { name: 'Bob', capacity: 1 }, { name: 'left', capacity: 1 }, { name: 'right', capacity: away(20, 21) }, { name: 'oven', capacity: away(6, 7) }],
    stays: [{ name: 'van', anyOf: [LEFT, RIGHT], isInAlready: true, mayRollOutNow: false, rollTicks: 1 }, { name: 'wagon', anyOf: [LEFT], isInAlready: false, mayRollOutNow: true, rollTicks: 1 }],
    activities: [
      anActivity('strip', 2, { needs: by(ANN), stay: 0, keepsIn: true }),
      anActivity('coat', 2, { needs: [...by(ANN), oven], stay: 0, after: [{ activity: 0, lagTicks: 1 }], mayPause: true }),
      anActivity('tune', 2, { needs: by(BOB), stay: 1 }),
      anActivity('refit', 3, { needs: by(ANN), stay: 0, after: after(1), fixed: { startTick: 30, resources: [] } }),
      anActivity('bake', 1, { needs: [...by(BOB), oven] }),
    ],
    ends: [{ activity: 3, dueTick: 30, weight: 2 }],
  })
  const at = (startTick: number, endTick: number, ...resources: number[]): PlacedActivity => ({ startTick, endTick, resources })
  const right: Schedule = {
    placed: [at(1, 3, ANN, LEFT), at(4, 11, ANN, OVEN, LEFT), at(13, 15, BOB, LEFT), at(30, 33, ANN, RIGHT), at(11, 12, BOB, OVEN)],
    visits: [{ stay: 0, bay: LEFT, fromTick: 0, toTick: 12 }, { stay: 0, bay: RIGHT, fromTick: 29, toTick: 34 }, { stay: 1, bay: LEFT, fromTick: 12, toTick: 16 }],
    delay: 6, endTick: 33,
  }
  t.same(checkSchedule(problem, right), [])
  const placed = (place: number, change: PlacedActivity): string => checkSchedule(problem, { ...right, placed: right.placed.map((one, own) => (own === place ? change : one)) }).join()
  const visit = (place: number, ...changes: Partial<Visit>[]): string => checkSchedule(problem, { ...right, visits: right.visits.flatMap((one, own) => (own === place ? changes.map((change) => ({ ...one, ...change })) : one)) }).join()
  t.match(visit(0, { toTick: 4 }, { fromTick: 4 }), /van is moved at 3 while strip keeps it in/)
  t.match(visit(0, { toTick: 1 }, { fromTick: 1 }), /van is moved from where it is kept in/)
  t.match(visit(0, { fromTick: 1 }), /van is not where it stands/)
  t.match(visit(0, { toTick: 11 }), /coat goes on while van is rolled out/)
  t.match(visit(1, { fromTick: 30 }), /refit begins while van is rolled in/)
  t.match(visit(1, { fromTick: 18 }), /van is in right at 20, and it is closed/)
  t.match(visit(1, { fromTick: 11 }), /van is in two bays at once/)
  t.match(visit(1), /refit is done while van is not in the bay/)
  t.match(visit(2, { fromTick: 11 }), /van and wagon are in one bay at once/)
  t.match(visit(2, { bay: RIGHT }), /wagon is in a bay it cannot have/)
  t.match(placed(3, at(31, 34, ANN, RIGHT)), /refit starts at 31/)
  t.match(placed(1, at(28, 30, ANN, OVEN, LEFT)), /coat is done while van is not in the bay/)
  t.match(placed(1, at(30, 32, ANN, OVEN, RIGHT)), /refit starts before coat and its waiting are over/)
  t.match(placed(4, at(8, 9, BOB, OVEN)), /oven is taken 2 times at tick 8, and there 1 times/)
})

t.test('what waits for itself, or needs what nobody is, is refused with its name', async (t) => {
  t.throws(() => compile(aProblem({ activities: [anActivity('prime', 1, { after: after(1) }), anActivity('paint', 1, { after: after(0) })] })), /prime → paint → prime|paint → prime → paint/)
  t.throws(() => compile(aProblem({ activities: [anActivity('weld', 1, { needs: by() })] })), /weld: nobody serves/)
})

t.test('what fits nowhere is told with what of it fails, and until when it did not', async (t) => {
  const until = (tick: number): Int16Array => Int16Array.from({ length: 60 }, (_, own) => Number(own < tick))
  const from = (tick: number): Int16Array => Int16Array.from({ length: 60 }, (_, own) => Number(own >= tick))
  const [ANN, BOB, CAM, BAY, LATE] = [0, 1, 2, 3, 4] as const
  const resources = [{ name: 'Ann', capacity: until(14) }, { name: 'Bob', capacity: 1 }, { name: 'Cam', capacity: from(20) }, { name: 'bay', capacity: until(10) }, { name: 'late bay', capacity: from(40) }]
  const stays = [BAY, BAY, LATE, LATE].map((bay, place) => ({ name: `vehicle ${place}`, anyOf: [bay], isInAlready: false, mayRollOutNow: false, rollTicks: 0 }))
  const told = (...activities: Activity[]) => {
    const problem = aProblem({ resources, stays, activities })
    t.equal(search(problem, 3), null)
    return listImpossible(problem).map(({ activity, why, need, resources: which, lastTick, soonestTick, longestTicks }) => [activity, why, need, which, lastTick, soonestTick, longestTicks])
  }
  const pinned = (startTick: number) => ({ fixed: { startTick, resources: [] } })
  t.same(told(anActivity('cut', 16, { needs: by(BOB) }), anActivity('weld', 2, { needs: by(ANN), after: after(0) }), anActivity('grind', 1, { after: after(1) })), [[1, 'nobody is there', 0, [ANN], 13, 16, null]])
  t.same(told(anActivity('lift', 1, { needs: [{ anyOf: [ANN, CAM], units: 2, isHeld: false }] })), [[0, 'nobody is there', 0, [ANN, CAM], null, 0, null]])
  t.same(told(anActivity('hand over', 1, { needs: [...by(ANN), ...by(CAM)] })), [[0, 'never together', null, [], null, 0, null]])
  t.same(told(anActivity('spray', 15, { needs: by(ANN) })), [[0, 'not in one piece', null, [], null, 0, 14]])
  t.same(told(anActivity('spray', 15, { needs: by(ANN), mayPause: true })), [[0, 'too long', null, [], null, 0, null]])
  t.same(told(anActivity('fit', 1, { needs: by(BOB), stay: 0, earliestTick: 12 })), [[0, 'bay is closed', null, [BAY], 9, 12, null]])
  t.same(told(anActivity('cut', 6, { needs: by(BOB) }), anActivity('trim', 1, { needs: by(BOB), after: [{ activity: 0, lagTicks: 2 }], ...pinned(7) })), [[1, 'too early', null, [], null, 8, null]])
  t.same(told(anActivity('sew', 2, { needs: by(ANN), ...pinned(14) })), [[0, 'nobody is there', 0, [ANN], 13, 0, null]])
  t.same(told(anActivity('sew', 2, { needs: by(ANN), ...pinned(4) }), anActivity('wrap', 2, { needs: [...by(BOB), ...by(ANN)], ...pinned(5) })), [[1, 'nobody is free', 1, [ANN], null, 5, null]])
  t.same(told(anActivity('fit', 4, { needs: by(BOB), stay: 2, ...pinned(42) }), anActivity('check', 2, { needs: by(CAM), stay: 3, ...pinned(44) })), [[1, 'bay is taken', null, [LATE], null, 44, null]])
  t.same(told(anActivity('fit', 35, { needs: by(BOB) }), anActivity('check', 35, { needs: by(BOB) })), [[1, 'no room', null, [], null, 0, null]])
})

t.test('pinned work starts on its tick with whom is free then, and the rest goes around it', async (t) => {
  const problem = aProblem({
    resources: [{ name: 'Ann', capacity: 1 }, { name: 'Bob', capacity: 1 }, { name: 'bay', capacity: 1 }],
    stays: ['van', 'wagon'].map((name, place) => ({ name, anyOf: [2], isInAlready: place === 0, mayRollOutNow: false, rollTicks: 1 })),
    activities: [
      anActivity('inspect', 3, { needs: by(0, 1), fixed: { startTick: 5, resources: [] } }), anActivity('call', 2, { needs: by(0), fixed: { startTick: 6, resources: [] } }),
      anActivity('strip', 2, { needs: by(0, 1), stay: 0, keepsIn: true }), anActivity('refit', 3, { needs: by(0, 1), stay: 0, after: after(2) }),
      anActivity('tune', 1, { needs: by(1), stay: 1, fixed: { startTick: 12, resources: [] } }), anActivity('sand', 8, { needs: by(1) }),
    ],
    ends: [{ activity: 3, dueTick: 5, weight: 3 }, { activity: 5, dueTick: 0, weight: 1 }],
  })
  const plan = search(problem, 30)!
  t.same(checkSchedule(problem, plan), [])
  t.same(plan.placed.map(({ startTick, resources }) => [startTick, ...resources]), [[5, 1], [6, 0], [0, 0, 2], [2, 0, 2], [12, 1, 2], [13, 1]])
  t.same(plan.visits, [{ stay: 0, bay: 2, fromTick: 0, toTick: 6 }, { stay: 1, bay: 2, fromTick: 11, toTick: 14 }])
})

t.test('the chances of a plan are those of closed forms: one work, the later of two, and two in a row that run over together', async (t) => {
  const STEPS = Array.from({ length: 1000 }, (_, step) => step + 1)
  const chances = (problem: ScheduleProblem, togetherThousandths: number) =>
    simulateCases(problem, search(problem, 5)!, { ticks: problem.activities.map(({ work }) => (work === 0 ? null : STEPS)), togetherThousandths }, 4_000, randomFrom(3)).ends[0]!
  const end = (...earlier: number[]): Activity => anActivity('end', 0, { after: after(...earlier) })
  const people = [{ name: 'Ann', capacity: 1 }, { name: 'Bob', capacity: 1 }]
  const near = (found: number, expected: number, what: string): void => void t.ok(Math.abs(found - expected) <= 30, `${what}: ${found} for ${expected}`)

  const one = chances(aProblem({ resources: people, horizonTicks: 4_000, activities: [anActivity('sew', 500, { needs: by(0) }), end(0)], ends: [{ activity: 1, dueTick: 0, weight: 1 }] }), 0)
  near(endWithin(one, 0.8), 800, 'evenly from 1 to 1000')
  near(1000 * chanceBy(one, 250), 250, 'a quarter ends within 250')
  // The larger of two even values stays below x with the chance x²: 80 in 100 below √0.8 (order statistics).
  const both = chances(aProblem({ resources: people, horizonTicks: 4_000, activities: [anActivity('sew', 500, { needs: by(0) }), anActivity('cut', 500, { needs: by(1) }), end(0, 1)], ends: [{ activity: 2, dueTick: 0, weight: 1 }] }), 0)
  near(endWithin(both, 0.8), 894, 'the later of two')
  const inARow = (together: number) => chances(aProblem({ resources: people, horizonTicks: 4_000, activities: [anActivity('sew', 500, { needs: by(0) }), anActivity('wrap', 500, { needs: by(0), after: after(0) }), end(1)], ends: [{ activity: 2, dueTick: 0, weight: 1 }] }), together)
  // Sum of two even values, triangular: 80 in 100 below 2 − √0.4. Where both run over together it is twice one of them.
  near(endWithin(inARow(0), 0.8), 1368, 'two in a row, apart')
  near(endWithin(inARow(1000), 0.8), 1600, 'two in a row, together')
})

t.test('what drives an end is told by its share of the variance, as the closed form has it', async (t) => {
  const evenly = (most: number): number[] => Array.from({ length: 1000 }, (_, step) => Math.round((step + 0.5) * most / 1000))
  const problem = aProblem({ resources: [{ name: 'Ann', capacity: 1 }], horizonTicks: 4_000, activities: [anActivity('sew', 500, { needs: by(0) }), anActivity('wrap', 250, { needs: by(0), after: after(0) })], ends: [{ activity: 1, dueTick: 0, weight: 1 }] })
  const { drivers } = simulateCases(problem, search(problem, 5)!, { ticks: [evenly(1000), evenly(500)], togetherThousandths: 0 }, 4_000, randomFrom(3))
  // Of a sum of two independent even values 0 to a and 0 to b, a holds a² ÷ (a² + b²) of the variance: 4 ÷ 5 and 1 ÷ 5.
  t.same(drivers[0]!.map(({ activity }) => activity), [0, 1])
  t.ok(Math.abs(drivers[0]![0]!.shareThousandths - 800) <= 25 && Math.abs(drivers[0]![1]!.shareThousandths - 200) <= 25, JSON.stringify(drivers))
})

t.test('what an end does not wait for drives it in no case, even where all runs over together', async (t) => {
  const evenly = Array.from({ length: 100 }, (_, step) => step + 1)
  const people = ['Ann', 'Bo'].map((name) => ({ name, capacity: 1 }))
  const problem = aProblem({ resources: people, horizonTicks: 1_000, activities: [anActivity('sew', 50, { needs: by(0) }), anActivity('cut', 50, { needs: by(1) })], ends: [{ activity: 0, dueTick: 0, weight: 1 }] })
  const { drivers } = simulateCases(problem, search(problem, 5)!, { ticks: [evenly, evenly], togetherThousandths: 1000 }, 200, randomFrom(3))
  t.same(drivers, [[{ activity: 0, shareThousandths: 1000 }]])
})

t.test('however hours vary, a vehicle that stays in and one that changes its bay come to an end, near the plan where little varies', async (t) => {
  const late: number[] = []
  for (let seed = 1; seed <= 40; seed += 1) {
    const problem = drawShop(seed)
    const plan = search(problem, 20)
    if (plan === null) continue
    const { ends } = simulateCases(problem, plan, { ticks: problem.activities.map(({ work }) => (work > 1 ? [work - 1, work, work + 1] : null)), togetherThousandths: 300 }, 40, randomFrom(seed))
    for (const [place, own] of ends.entries()) if (endWithin(own, 0.9) >= problem.horizonTicks) late.push(seed * 100 + place)
  }
  t.same(late, [])
})

t.test('in no case does somebody go on to what comes later in the plan because what comes before it is late', async (t) => {
  const evenly = Array.from({ length: 1000 }, (_, step) => step + 1)
  const people = ['Ann', 'Bo'].map((name) => ({ name, capacity: 1 }))
  const problem = aProblem({
    resources: people, horizonTicks: 4_000, ends: [{ activity: 2, dueTick: 0, weight: 1 }],
    activities: [anActivity('cut', 10, { needs: by(1) }), anActivity('sew', 10, { needs: by(0), after: after(0) }), anActivity('call', 10, { needs: by(0) })],
  })
  const placed = [{ startTick: 0, endTick: 10, resources: [1] }, { startTick: 10, endTick: 20, resources: [0] }, { startTick: 20, endTick: 30, resources: [0] }]
  const [ends] = simulateCases(problem, { placed, visits: [], delay: 30, endTick: 30 }, { ticks: [evenly, null, null], togetherThousandths: 0 }, 4_000, randomFrom(3)).ends
  // Twenty ticks after an even value from 1 to 1000.
  t.ok(Math.abs(endWithin(ends!, 0.8) - 820) <= 30, `${endWithin(ends!, 0.8)} for 820`)
})
