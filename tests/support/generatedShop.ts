import type { Activity, Need, PlacedActivity, Resource, Schedule, ScheduleProblem, Stay } from '../../server/calc/schedule/problem.ts'
import { randomFrom } from '../../server/calc/random.ts'

const TICKS_A_DAY = 8
const DAYS = 90
const TICKS = TICKS_A_DAY * DAYS * 3

export interface ShopSize {
  readonly people: number
  readonly bays: number
  readonly vehicles: number
  /** Activities a vehicle. */
  readonly work: number
}

/**
 * A small shop drawn by chance: people who come and go, bays that are closed for a while, machines that run by day and
 * hold their work overnight, vehicles with work in and out of their bay that are rolled out or must not be, work in one
 * piece and work that is pinned. Of a given size, or of one drawn too.
 */
export function drawShop(seed: number, size?: ShopSize): ScheduleProblem {
  const random = randomFrom(seed)
  const upTo = (most: number): number => Math.floor(random() * (most + 1))
  const people = Array.from({ length: size?.people ?? 2 + upTo(4) }, (_, place): Resource => ({ name: `person ${place + 1}`, capacity: drawHours(random) }))
  const bays = Array.from({ length: size?.bays ?? 1 + upTo(2) }, (_, place): Resource => ({ name: `bay ${place + 1}`, capacity: random() < 0.8 ? 1 : closedFrom(1 + upTo(40), 1 + upTo(3)) }))
  const machines = [{ name: 'oven', capacity: 1 }, { name: 'mill', capacity: Int16Array.from({ length: TICKS }, (_, tick) => Number(tick % TICKS_A_DAY < 6)) }]
  const resources = [...people, ...bays, ...machines]
  const machineOf = (): Need => ({ anyOf: [people.length + bays.length + upTo(1)], units: 1, isHeld: random() < 0.7 })
  const activities: Activity[] = []
  const stays: Stay[] = []
  const ends: { activity: number, dueTick: number, weight: number }[] = []
  const vehicles = size?.vehicles ?? 1 + upTo(4)
  for (let vehicle = 0; vehicle < vehicles; vehicle += 1) {
    const all = bays.map((_, place) => people.length + place)
    const isInAlready = vehicle < bays.length && random() < 0.4
    stays.push({
      name: `vehicle ${vehicle + 1}`, isInAlready, mayRollOutNow: random() < 0.5, rollTicks: upTo(2),
      anyOf: isInAlready ? [all[vehicle]!, ...(random() < 0.5 ? all.filter((_, place) => place !== vehicle) : [])] : all,
    })
    const first = activities.length
    const count = size?.work ?? 2 + upTo(6)
    const keepsIn = random()
    for (let at = 0; at < count; at += 1) {
      const isLast = at === count - 1
      const earlier = Array.from({ length: at }, (_, place) => first + place).filter(() => isLast || random() < 0.4)
      const able = people.map((_, place) => place).filter(() => random() < 0.6)
      const anyOf = able.length < 2 ? [0, 1] : able
      activities.push({
        name: `vehicle ${vehicle + 1}, work ${at + 1}`, work: 1 + upTo(5), earliestTick: random() < 0.2 ? upTo(60) : 0, mayPause: random() < 0.7,
        after: earlier.map((activity) => ({ activity, lagTicks: random() < 0.2 ? upTo(12) : 0 })),
        needs: [{ anyOf, units: random() < 0.15 ? 2 : 1, isHeld: false }, ...(random() < 0.2 ? [machineOf()] : [])],
        stay: random() < 0.6 ? vehicle : null, keepsIn: random() < keepsIn,
        fixed: random() < 0.03 ? { startTick: TICKS_A_DAY * (20 + upTo(40)) + 2, resources: [] } : null,
      })
    }
    ends.push({ activity: first + count - 1, dueTick: 20 + upTo(200), weight: 1 + upTo(3) })
  }
  return { resources, activities, stays, ends, horizonTicks: TICKS }
}

/** There for five of eight or so ticks a day, away on some days and for a while. */
function drawHours(random: () => number): Int16Array {
  const from = Math.floor(random() * 2)
  const to = 5 + Math.floor(random() * 3)
  const away = Math.floor(random() * DAYS)
  return Int16Array.from({ length: TICKS }, (_, tick) => {
    const day = Math.floor(tick / TICKS_A_DAY)
    const hour = tick % TICKS_A_DAY
    return Number(hour >= from && hour < to && day % 7 < 5 && (day < away || day > away + 4))
  })
}

/** One, but none for some days. */
function closedFrom(firstDay: number, days: number): Int16Array {
  return Int16Array.from({ length: TICKS }, (_, tick) => Number(tick < TICKS_A_DAY * firstDay || tick >= TICKS_A_DAY * (firstDay + days)))
}

/** The same plan over and over, each time with one thing changed so that it cannot be worked any more. */
export function spoiledPlans({ activities, stays }: ScheduleProblem, plan: Schedule): Schedule[] {
  const withPlaced = (place: number, change: Partial<PlacedActivity>): Schedule => ({ ...plan, placed: plan.placed.map((one, own) => (own === place ? { ...one, ...change } : one)) })
  const ofActivities = activities.flatMap(({ after, fixed, work, needs }, place): Schedule[] => {
    const { startTick, endTick } = plan.placed[place]!
    const [first] = after
    return [
      ...(work > 0 && needs.length > 0 ? [withPlaced(place, { endTick: endTick - 1 }), withPlaced(place, { resources: [] })] : []),
      ...(first === undefined || activities[first.activity]!.work === 0 ? [] : [withPlaced(place, { startTick: plan.placed[first.activity]!.endTick - 1 })]),
      ...(fixed === null ? [] : [withPlaced(place, { startTick: startTick + 1, endTick: endTick + 1 })]),
    ]
  })
  const ofVisits = plan.visits.flatMap((one, place): Schedule[] => {
    const inIt = plan.placed.filter(({ startTick, endTick }, own) => activities[own]!.stay === one.stay && one.fromTick <= startTick && endTick <= one.toTick)
    const next = plan.visits.find((other) => other.bay === one.bay && other.stay !== one.stay && other.fromTick >= one.toTick && other.toTick > other.fromTick)
    const withVisit = (change: Partial<Schedule['visits'][number]>): Schedule => ({ ...plan, visits: plan.visits.map((visit, own) => (own === place ? { ...visit, ...change } : visit)) })
    if (inIt.length === 0) return []
    return [
      { ...plan, visits: plan.visits.filter((visit) => visit !== one) }, withVisit({ toTick: Math.max(...inIt.map(({ endTick }) => endTick)) + stays[one.stay]!.rollTicks - 1 }),
      ...(next === undefined ? [] : [withVisit({ toTick: next.fromTick + 1 })]),
    ]
  })
  return [...ofActivities, ...ofVisits]
}
