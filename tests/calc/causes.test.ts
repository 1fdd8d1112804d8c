import t from 'tap'
import { causeOf, whyLonger, type Cause } from '../../server/calc/schedule/causes.ts'
import type { Before, PlanBefore } from '../../server/calc/schedule/change.ts'
import type { Activity, PlacedActivity, ScheduleProblem, Visit } from '../../server/calc/schedule/problem.ts'

const [ANN, BO, BAY_1, BAY_2, MILL] = [0, 1, 2, 3, 4]
const HORIZON = 1_000
const by = (...anyOf: number[]): Activity['needs'] => [{ anyOf, units: 1, isHeld: false }]
const an = (more: Partial<Activity> = {}): Activity => ({ name: 'work', work: 4, after: [], needs: by(ANN, BO), earliestTick: 0, mayPause: true, stay: null, keepsIn: false, fixed: null, ...more })
const was = (startTick: number, more: Partial<Before> = {}): Before => ({ startTick, endTick: startTick + 4, work: 4, people: [ANN], bay: null, ...more })
const now = (startTick: number, resources: readonly number[] = [ANN], endTick = startTick + 4): PlacedActivity => ({ startTick, endTick, resources })
/** There but for these ticks. */
const but = (from: number, to: number): Int16Array => Int16Array.from({ length: HORIZON }, (_, tick) => Number(tick < from || tick >= to))

interface Told {
  readonly activities: readonly Activity[]
  readonly before: PlanBefore['activities']
  readonly placed: readonly PlacedActivity[]
  readonly visits?: readonly Visit[]
  readonly capacity?: ReadonlyMap<number, Int16Array>
  readonly dueTick?: number
}

/** Why the first of these activities does not stand where it stood; the last is waited for. */
function told({ activities, before, placed, visits = [], capacity = new Map(), dueTick = 900 }: Told, why: typeof causeOf = causeOf): Cause {
  const problem: ScheduleProblem = {
    activities, horizonTicks: HORIZON, resources: ['Ann', 'Bo', 'Bay 1', 'Bay 2', 'Mill'].map((name, place) => ({ name, capacity: capacity.get(place) ?? 1 })),
    stays: ['one', 'two'].map((name) => ({ name, anyOf: [BAY_1, BAY_2], isInAlready: false, mayRollOutNow: true, rollTicks: 2 })), ends: [{ activity: activities.length - 1, dueTick, weight: 2 }],
  }
  const plan: PlanBefore = { activities: before, peopleCount: 2, midnights: [], delay: 0, ends: [null] }
  return why({ problem, before: plan, schedule: { placed, visits, delay: 0, endTick: HORIZON } }, 0)
}

const other = an({ name: 'other', needs: by(ANN) })

t.test('what is new, runs, or is held by hand is told as such before anything else', async (t) => {
  t.same(told({ activities: [an()], before: ['new'], placed: [now(8)] }), { why: 'new' })
  t.same(told({ activities: [an({ fixed: { startTick: 0, resources: [ANN] } })], before: [was(8)], placed: [now(0)] }), { why: 'running' })
  t.same(told({ activities: [an({ fixed: { startTick: 40, resources: [] }, earliestTick: 60 })], before: [was(8)], placed: [now(40)] }), { why: 'pinned' })
})

t.test('later, or by others: who cannot any more, what is expected, what it waits for, who is away', async (t) => {
  t.same(told({ activities: [an({ needs: by(BO) })], before: [was(8)], placed: [now(8, [BO])] }), { why: 'cannot', people: [ANN] })
  t.same(told({ activities: [an({ earliestTick: 30 })], before: [was(8)], placed: [now(30)] }), { why: 'not before', tick: 30 })
  const waits = [{ activity: 1, lagTicks: 6 }, { activity: 2, lagTicks: 0 }]
  t.same(told({ activities: [an({ after: waits }), other, other], before: [was(8), was(0), was(4)], placed: [now(26), now(16), now(20)] }), { why: 'waits for', activity: 1 }, 'of two the one that is over last, with its cure')
  const away = new Map([[ANN, but(8, 40)]])
  t.same(told({ activities: [an()], before: [was(8)], placed: [now(40)], capacity: away }), { why: 'away', people: [ANN] })
  t.same(told({ activities: [an()], before: [was(8)], placed: [now(8, [BO])], capacity: away }), { why: 'away', people: [ANN] }, 'given to somebody else')
  const onMill = [...by(ANN), { anyOf: [MILL], units: 1, isHeld: true }]
  t.same(told({ activities: [an({ needs: onMill })], before: [was(8)], placed: [now(40, [ANN, MILL])], capacity: new Map([[MILL, but(8, 40)]]) }), { why: 'machine closed', machine: MILL })
  t.same(told({ activities: [an()], before: [was(-2, { endTick: 4, work: 4 })], placed: [now(40)], capacity: new Map([[ANN, but(0, 40)]]) }), { why: 'away', people: [ANN] }, 'from now on where it had begun')
})

t.test('later: its people are on something that was not there, its bay is taken or closed, its vehicle is still on its way', async (t) => {
  t.same(told({ activities: [an(), other], before: [was(8), 'new'], placed: [now(12), now(8)] }), { why: 'goes first', activity: 1 })
  t.same(told({ activities: [an(), other, other], before: [was(8), was(20), was(11)], placed: [now(14), now(9, [ANN], 11), now(11)] }), { why: 'goes first', activity: 1 }, 'not what stood there before')
  const inBay = an({ stay: 0 })
  const visit = (stay: number, bay: number, fromTick: number, toTick: number): Visit => ({ stay, bay, fromTick, toTick })
  t.same(told({ activities: [inBay], before: [was(8, { bay: BAY_1 })], placed: [now(40, [ANN, BAY_1])], visits: [visit(0, BAY_1, 38, 46), visit(1, BAY_1, 0, 36)] }), { why: 'bay taken', stay: 1 })
  const closed = new Map([[BAY_1, but(0, 38)]])
  t.same(told({ activities: [inBay], before: [was(8, { bay: BAY_1 })], placed: [now(40, [ANN, BAY_1])], visits: [visit(0, BAY_1, 38, 46)], capacity: closed }), { why: 'bay closed' })
  t.same(told({ activities: [inBay], before: [was(8, { bay: BAY_1 })], placed: [now(10, [ANN, BAY_2])], visits: [visit(0, BAY_2, 8, 16)] }), { why: 'not in bay', tick: 10 })
})

t.test('at the same time in another bay: where the old one is closed or taken while the vehicle is there', async (t) => {
  const inBay = an({ stay: 0 })
  const placed = [now(8, [ANN, BAY_2])]
  const visits = [{ stay: 0, bay: BAY_2, fromTick: 6, toTick: 60 }]
  t.same(told({ activities: [inBay], before: [was(8, { bay: BAY_1 })], placed, visits, capacity: new Map([[BAY_1, but(30, 40)]]) }), { why: 'bay closed' })
  t.same(told({ activities: [inBay], before: [was(8, { bay: BAY_1 })], placed, visits: [...visits, { stay: 1, bay: BAY_1, fromTick: 50, toTick: 90 }] }), { why: 'bay taken', stay: 1 })
  t.same(told({ activities: [inBay], before: [was(8, { bay: BAY_1 })], placed, visits }), { why: 'order' })
})

t.test('its own hours; sooner for a date in danger, or for what has its people instead; the rest is the order', async (t) => {
  t.same(told({ activities: [an({ work: 9 })], before: [was(8)], placed: [now(9, [ANN], 18)], dueTick: 900 }), { why: 'own hours' })
  t.same(told({ activities: [an()], before: [was(-2, { work: 2, endTick: 2 })], placed: [now(0)] }), { why: 'behind' }, 'it was to begin, and nobody has')
  t.same(told({ activities: [an()], before: [was(30)], placed: [now(8)], dueTick: 100 }), { why: 'ends sooner' })
  t.same(told({ activities: [an()], before: [was(30)], placed: [now(8, [BO])], dueTick: 100, capacity: new Map([[ANN, but(30, 60)]]) }), { why: 'ends sooner' }, 'though somebody is away as well')
  t.same(told({ activities: [an(), other], before: [was(30), was(8)], placed: [now(8), now(30)] }), { why: 'goes first', activity: 1 })
  t.same(told({ activities: [an()], before: [was(30)], placed: [now(8)] }), { why: 'order' })
  t.same(told({ activities: [an()], before: [was(8)], placed: [now(30)] }), { why: 'order' })
})

t.test('what begins as planned and ends later does so by its own hours, or because somebody is away before it is done', async (t) => {
  t.same(told({ activities: [an({ work: 9 })], before: [was(8)], placed: [now(8, [ANN], 17)] }, whyLonger), { why: 'own hours' })
  t.same(told({ activities: [an()], before: [was(8)], placed: [now(8, [ANN], 40)], capacity: new Map([[ANN, but(10, 38)]]) }, whyLonger), { why: 'away', people: [ANN] })
})
