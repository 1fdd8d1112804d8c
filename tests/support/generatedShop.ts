import type { Activity, Need, Resource, ScheduleProblem, Stay } from '../../server/calc/schedule/problem.ts'
import { randomFrom } from '../../server/calc/random.ts'

const TICKS_A_DAY = 8
const DAYS = 90

/** A small shop drawn by chance: people who come and go, bays, a machine, vehicles with work in and out of their bay. */
export function drawShop(seed: number): ScheduleProblem {
  const random = randomFrom(seed)
  const upTo = (most: number): number => Math.floor(random() * (most + 1))
  const people = Array.from({ length: 2 + upTo(4) }, (_, place): Resource => ({ name: `person ${place + 1}`, capacity: drawHours(random) }))
  const bays = Array.from({ length: 1 + upTo(2) }, (_, place): Resource => ({ name: `bay ${place + 1}`, capacity: 1 }))
  const resources = [...people, ...bays, { name: 'machine', capacity: 1 }]
  const machine: Need = { anyOf: [resources.length - 1], units: 1, isHeld: true }
  const activities: Activity[] = []
  const stays: Stay[] = []
  const ends: { activity: number, dueTick: number, weight: number }[] = []
  const vehicles = 1 + upTo(4)
  for (let vehicle = 0; vehicle < vehicles; vehicle += 1) {
    const all = bays.map((_, place) => people.length + place)
    const isInAlready = vehicle < bays.length && random() < 0.4
    stays.push({ name: `vehicle ${vehicle + 1}`, anyOf: isInAlready ? [all[vehicle]!] : all, isInAlready, mayRollOutNow: false, rollTicks: 0 })
    const first = activities.length
    const count = 2 + upTo(6)
    for (let at = 0; at < count; at += 1) {
      const isLast = at === count - 1
      const earlier = Array.from({ length: at }, (_, place) => first + place).filter(() => isLast || random() < 0.4)
      const able = people.map((_, place) => place).filter(() => random() < 0.6)
      const anyOf = able.length < 2 ? [0, 1] : able
      activities.push({
        name: `vehicle ${vehicle + 1}, work ${at + 1}`, work: 1 + upTo(5), earliestTick: random() < 0.2 ? upTo(60) : 0, mayPause: random() < 0.7,
        after: earlier.map((activity) => ({ activity, lagTicks: random() < 0.2 ? upTo(12) : 0 })),
        needs: [{ anyOf, units: random() < 0.15 ? 2 : 1, isHeld: false }, ...(random() < 0.2 ? [machine] : [])],
        stay: random() < 0.6 ? vehicle : null, keepsIn: true, fixed: null,
      })
    }
    ends.push({ activity: first + count - 1, dueTick: 20 + upTo(200), weight: 1 + upTo(3) })
  }
  return { resources, activities, stays, ends, horizonTicks: TICKS_A_DAY * DAYS * 3 }
}

/** There for five of eight or so ticks a day, away on some days and for a while. */
function drawHours(random: () => number): Int16Array {
  const from = Math.floor(random() * 2)
  const to = 5 + Math.floor(random() * 3)
  const away = Math.floor(random() * DAYS)
  return Int16Array.from({ length: TICKS_A_DAY * DAYS * 3 }, (_, tick) => {
    const day = Math.floor(tick / TICKS_A_DAY)
    const hour = tick % TICKS_A_DAY
    return Number(hour >= from && hour < to && day % 7 < 5 && (day < away || day > away + 4))
  })
}
