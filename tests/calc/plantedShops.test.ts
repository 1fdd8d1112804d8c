import t from 'tap'
import { checkSchedule } from '../../server/calc/schedule/checkSchedule.ts'
import { listImpossible } from '../../server/calc/schedule/impossible.ts'
import type { Activity, Schedule, ScheduleProblem } from '../../server/calc/schedule/problem.ts'
import { searchSchedule } from '../../server/calc/schedule/search.ts'
import { randomFrom } from '../../server/calc/random.ts'
import { plantShop, type PlantedKind } from '../support/plantedShop.ts'

const USUAL: PlantedKind = { pinned: 0.2, keptIn: 0.4, inOnePiece: 0.4, noWork: 0.1, closed: 0.3, people: 4, bays: 2, vehicles: 4, spare: 1 }
const KINDS: readonly (readonly [string, PlantedKind])[] = [
  ['much is pinned', { ...USUAL, pinned: 0.8, people: 6, bays: 3, vehicles: 7 }],
  ['all are kept in and bays are closed', { ...USUAL, keptIn: 1, closed: 0.6 }],
  ['one bay for all', { ...USUAL, bays: 1, vehicles: 6 }],
  ['much takes no time', { ...USUAL, noWork: 0.7, pinned: 0 }],
  ['the horizon is near', { ...USUAL, spare: 0 }],
]

t.test('where a plan is known to be, one is found, and never said to be impossible', async (t) => {
  for (const [name, kind] of KINDS) {
    let missed = 0
    for (let seed = 1; seed <= 60; seed += 1) {
      const { problem, plan } = plantShop(seed, kind)
      const known = checkSchedule(problem, plan)
      if (known.length > 0) t.same(known, [], `${name}, shop ${seed}: the known plan is taken for a wrong one`)
      const found = searchSchedule(problem, randomFrom(seed))
      if (found.leastDelay > plan.delay) t.fail(`${name}, shop ${seed}: the known plan has less delay than is said to be possible`)
      const first = found.best()
      if (first === null) {
        missed += 1
        if (listImpossible(problem).some(({ isProven }) => isProven)) t.fail(`${name}, shop ${seed}: said to be impossible`)
        continue
      }
      for (let step = 0; step < 6; step += 1) found.step()
      const faults = [...checkSchedule(problem, first), ...checkSchedule(problem, found.best()!)]
      if (faults.length > 0) t.same(faults, [], `${name}, shop ${seed}`)
    }
    t.ok(missed <= 1, `${name}: none found in ${missed} of 60`)
  }
})

const anActivity = (name: string, work: number, more: Partial<Activity> = {}): Activity =>
  ({ name, work, after: [], needs: [], earliestTick: 0, mayPause: false, stay: null, keepsIn: false, fixed: null, ...more })
const people = ['Ann', 'Bob', 'Cam'].map((name) => ({ name, capacity: 1 }))

t.test('who does what is pinned is chosen for all of it at once, and where it cannot be, what stands beside it is named', async (t) => {
  const pinned = (name: string, startTick: number, anyOf: readonly number[]): Activity => anActivity(name, 3, { needs: [{ anyOf, units: 1, isHeld: false }], fixed: { startTick, resources: [] } })
  const shop = (...activities: Activity[]): ScheduleProblem => ({ resources: people, activities, stays: [], ends: [], horizonTicks: 40 })
  const possible = shop(pinned('sew', 8, [0, 1]), pinned('cut', 8, [1, 2]), pinned('wrap', 9, [0, 1]))
  const plan = searchSchedule(possible, randomFrom(1)).best()!
  t.same(checkSchedule(possible, plan), [])
  t.equal(plan.placed[1]!.resources[0], 2, 'the one of three who can cut and nothing else')
  const impossible = shop(pinned('call', 2, [0]), pinned('sew', 8, [0, 1]), pinned('cut', 8, [1, 2]), pinned('wrap', 10, [0, 1]), pinned('trim', 9, [0, 1]))
  t.equal(searchSchedule(impossible, randomFrom(1)).best(), null)
  t.match(listImpossible(impossible), [{ activity: 3, why: 'nobody is free', need: 0, resources: [0, 1], beside: [1, 4], isProven: true }])
})

t.test('where a chain of many is pinned, going back stops in time', async (t) => {
  // Seven at once for six, each by any of them, and thirty pinned elsewhere.
  const six = Array.from({ length: 6 }, (_, place) => ({ name: `person ${place + 1}`, capacity: 1 }))
  const anyOf = six.map((_, place) => place)
  const activities = Array.from({ length: 37 }, (_, place) => anActivity(`work ${place + 1}`, 2, { needs: [{ anyOf, units: 1, isHeld: false }], fixed: { startTick: place < 7 ? 3 : 2 * place, resources: [] } }))
  const problem: ScheduleProblem = { resources: six, activities, stays: [], ends: [], horizonTicks: 100 }
  t.match(listImpossible(problem), [{ why: 'nobody is free' }])
})

t.test('what takes no time where a vehicle changes its bay belongs to the bay it is done in', async (t) => {
  const bays = ['left', 'right'].map((name) => ({ name, capacity: 1 }))
  const problem: ScheduleProblem = {
    resources: [...people.slice(0, 1), ...bays], horizonTicks: 30, ends: [],
    stays: [{ name: 'van', anyOf: [1, 2], isInAlready: true, mayRollOutNow: true, rollTicks: 0 }],
    activities: [anActivity('look', 0, { stay: 0, keepsIn: true }), anActivity('fit', 2, { stay: 0, needs: [{ anyOf: [0], units: 1, isHeld: false }] })],
  }
  const plan = (bay: number): Schedule => ({
    placed: [{ startTick: 5, endTick: 5, resources: [bay] }, { startTick: 8, endTick: 10, resources: [0, 2] }],
    visits: [{ stay: 0, bay: 1, fromTick: 0, toTick: 5 }, { stay: 0, bay: 2, fromTick: 5, toTick: 10 }], delay: 0, endTick: 10,
  })
  t.same(checkSchedule(problem, plan(2)), [])
  t.match(checkSchedule(problem, plan(1)).join(), /van is moved at 5 while look keeps it in/)
})

t.test('a vehicle that stands in a bay while it is closed goes on where work has begun, is rolled out where it may be, and is named where it must stay', async (t) => {
  const bay = (from: number, to: number) => ({ name: 'bay', capacity: Int16Array.from({ length: 40 }, (_, tick) => Number(tick < from || tick >= to)) })
  const shop = (closed: readonly [number, number], mayRollOutNow: boolean, more: Partial<Activity> = {}): ScheduleProblem => ({
    resources: [{ name: 'Ann', capacity: 1 }, bay(...closed)], horizonTicks: 40, ends: [{ activity: 0, dueTick: 0, weight: 1 }],
    stays: [{ name: 'van', anyOf: [1], isInAlready: true, mayRollOutNow, rollTicks: 2 }],
    activities: [anActivity('fit', 6, { stay: 0, needs: [{ anyOf: [0], units: 1, isHeld: false }], ...more })],
  })
  const planOf = (problem: ScheduleProblem): Schedule['visits'] => {
    const plan = searchSchedule(problem, randomFrom(1)).best()!
    t.same(checkSchedule(problem, plan), [])
    return plan.visits
  }
  const begun = { fixed: { startTick: 0, resources: [0, 1] } }
  t.same(planOf(shop([4, 20], false, begun)), [{ stay: 0, bay: 1, fromTick: 0, toTick: 8 }])
  t.same(planOf(shop([0, 12], true)), [{ stay: 0, bay: 1, fromTick: 0, toTick: 2 }, { stay: 0, bay: 1, fromTick: 12, toTick: 22 }])
  t.same(planOf(shop([0, 1], true)).map(({ fromTick, toTick }) => toTick - fromTick), [12], 'where it is open again at once, it stays')
  t.equal(searchSchedule(shop([4, 20], false), randomFrom(1)).best(), null)
  t.match(listImpossible(shop([4, 20], false)), [{ activity: 0, why: 'kept in a closed bay', resources: [1], lastTick: 3, soonestTick: 6, isProven: true }])
  const stillIn: Schedule = { placed: [{ startTick: 12, endTick: 18, resources: [0, 1] }], visits: [{ stay: 0, bay: 1, fromTick: 0, toTick: 20 }], delay: 18, endTick: 18 }
  t.match(checkSchedule(shop([0, 12], true), stillIn).join(), /van is in bay at 2, and it is closed/)
})

t.test('what is pinned where a plan has it, half of all work, is nearly always planned again', async (t) => {
  let missed = 0
  for (let seed = 1; seed <= 40; seed += 1) {
    const { problem } = plantShop(seed, { ...USUAL, pinned: 0, keptIn: 0.1, spare: 3, people: 3, bays: 5, vehicles: 24 })
    const plan = searchSchedule(problem, randomFrom(seed)).best()!
    const pinned = { ...problem, activities: problem.activities.map((one, place): Activity => (place % 2 === seed % 2 && one.needs.length > 0 ? { ...one, fixed: { startTick: plan.placed[place]!.startTick, resources: [] } } : one)) }
    const found = searchSchedule(pinned, randomFrom(seed)).best()
    if (found === null) missed += 1
    else if (checkSchedule(pinned, found).length > 0) t.same(checkSchedule(pinned, found), [], `shop ${seed}`)
  }
  // That a plan exists is known: it is hard to find.
  t.ok(missed <= 5, `none found in ${missed} of 40`)
})
