import { randomFrom } from '../../server/calc/random.ts'
import type { Activity, End, Need, PlacedActivity, Resource, Schedule, ScheduleProblem, Stay, Visit } from '../../server/calc/schedule/problem.ts'

const TICKS_A_DAY = 8
const DAYS = 60
const TICKS = TICKS_A_DAY * DAYS

export interface PlantedKind {
  /** Chances from 0 to 1. */
  readonly pinned: number
  readonly keptIn: number
  readonly inOnePiece: number
  readonly noWork: number
  readonly closed: number
  readonly people: number
  readonly bays: number
  readonly vehicles: number
  /** How much later than the end of the plan the horizon is, in parts of it. */
  readonly spare: number
}

/** A shop drawn around a plan: the plan comes first, and nothing is asked that it does not keep to. So a plan is known to exist. */
export function plantShop(seed: number, kind: PlantedKind): { readonly problem: ScheduleProblem, readonly plan: Schedule } {
  const random = randomFrom(seed)
  const upTo = (most: number): number => Math.floor(random() * (most + 1))
  const closings = (there: Int16Array): Int16Array => {
    while (random() < kind.closed) {
      const from = TICKS_A_DAY * upTo(DAYS - 1)
      there.fill(0, from, from + TICKS_A_DAY * (1 + upTo(3)))
    }
    return there
  }
  const hours = (): Int16Array => {
    const [from, to, dayOff] = [upTo(1), 4 + upTo(3), upTo(9)]
    return closings(Int16Array.from({ length: TICKS }, (_, tick) => Number(tick % TICKS_A_DAY >= from && tick % TICKS_A_DAY < to && Math.floor(tick / TICKS_A_DAY) % 7 < 5 && Math.floor(tick / TICKS_A_DAY) % 7 !== dayOff)))
  }
  const people = Array.from({ length: kind.people }, (_, place): Resource => ({ name: `person ${place + 1}`, capacity: hours() }))
  const bays = Array.from({ length: kind.bays }, (_, place): Resource => ({ name: `bay ${place + 1}`, capacity: closings(new Int16Array(TICKS).fill(1)) }))
  const machines = [{ name: 'oven', capacity: 1 }, { name: 'mill', capacity: Int16Array.from({ length: TICKS }, (_, tick) => 2 * Number(tick % TICKS_A_DAY < 6)) }]
  const resources = [...people, ...bays, ...machines]
  const there = (resource: number, tick: number): number => { const { capacity } = resources[resource]!; return typeof capacity === 'number' ? capacity : capacity[tick] ?? 0 }
  const left = resources.map((_, resource) => Int16Array.from({ length: TICKS }, (_, tick) => there(resource, tick)))
  const allBays = bays.map((_, place) => people.length + place)
  const stays: Stay[] = []
  const visits: Visit[] = []
  const activities: Activity[] = []
  const placed: PlacedActivity[] = []
  const ends: End[] = []

  for (let vehicle = 0; vehicle < kind.vehicles; vehicle += 1) {
    const roll = upTo(2)
    const own = drawVisits(vehicle, roll)
    const stands = own[0]?.fromTick === 0 && random() < 0.5
    const anyOf = stands ? [own[0]!.bay, ...allBays.filter((bay) => bay !== own[0]!.bay)] : random() < 0.7 ? allBays : [...new Set(own.map(({ bay }) => bay))]
    const first = activities.length
    const visitOf = new Map<number, Visit>()
    for (let at = 2 + upTo(6); at > 0; at -= 1) plantWork(first, own[upTo(own.length * 2)], { roll, stands, vehicle, own, visitOf })
    for (const [activity, visit] of visitOf) if (random() < kind.keptIn && movableFrom(activity, visitOf) <= visit.toTick - roll) activities[activity] = { ...activities[activity]!, keepsIn: true }
    const starts = [...visitOf.keys()].map((activity) => placed[activity]!.startTick)
    stays.push({ name: `vehicle ${vehicle + 1}`, anyOf: anyOf.length === 0 ? allBays : anyOf, isInAlready: stands, mayRollOutNow: stands && !starts.some((start) => start <= own[0]!.toTick - roll), rollTicks: roll })
    if (visitOf.size > 0) visits.push(...own)
    const done = Math.max(0, ...placed.slice(first).map(({ endTick }) => endTick))
    ends.push({ activity: activities.length, dueTick: Math.max(0, done - 12 + upTo(24)), weight: 1 + upTo(3) })
    placed.push({ startTick: done, endTick: done, resources: [] })
    activities.push({ name: `vehicle ${vehicle + 1}, end`, work: 0, after: activities.slice(first).map((_, place) => ({ activity: first + place, lagTicks: 0 })), needs: [], earliestTick: 0, mayPause: false, stay: null, keepsIn: false, fixed: null })
  }
  const endTick = Math.max(...placed.map((one) => one.endTick))
  const horizonTicks = Math.min(TICKS, Math.ceil(endTick * (1 + random() * kind.spare)) + TICKS_A_DAY)
  return {
    problem: { resources, activities, stays, ends, horizonTicks },
    plan: { placed, visits, endTick, delay: ends.reduce((sum, { activity, dueTick, weight }) => sum + weight * Math.max(0, placed[activity]!.endTick - dueTick), 0) },
  }

  /** One to three times in a bay, where nobody else is. */
  function drawVisits(stay: number, roll: number): Visit[] {
    const own: Visit[] = []
    for (let tries = 1 + upTo(8); tries > 0 && own.length < 3; tries -= 1) {
      const before = own.at(-1)?.toTick ?? 0
      const fromTick = before === 0 && stay < bays.length ? 0 : before + upTo(5 * TICKS_A_DAY)
      const [toTick, bay] = [fromTick + 2 * roll + TICKS_A_DAY * (1 + upTo(8)), allBays[stay < bays.length && before === 0 ? stay : upTo(bays.length - 1)]!]
      if (toTick > TICKS || visits.some((other) => other.bay === bay && other.fromTick < toTick && fromTick < other.toTick)) continue
      if (left[bay]!.subarray(fromTick, toTick).includes(0)) continue
      own.push({ stay, bay, fromTick, toTick })
    }
    return own
  }

  function plantWork(first: number, visit: Visit | undefined, { roll, stands, vehicle, own, visitOf }: { readonly roll: number, readonly stands: boolean, readonly vehicle: number, readonly own: readonly Visit[], readonly visitOf: Map<number, Visit> }): void {
    const after = activities.slice(first).flatMap((_, place) => (random() < 0.35 ? [{ activity: first + place, lagTicks: random() < 0.3 ? upTo(20) : 0 }] : []))
    const hasNoWork = random() < kind.noWork
    const mayPause = random() >= kind.inOnePiece
    const team = [...new Set([upTo(people.length - 1), ...(random() < 0.2 ? [upTo(people.length - 1)] : [])])]
    const machine = random() < 0.2 ? [people.length + bays.length + upTo(1)] : []
    const needs: Need[] = hasNoWork ? [] : [
      { anyOf: people.map((_, place) => place).filter((place) => team.includes(place) || random() < 0.4), units: team.length, isHeld: false },
      ...machine.map((one) => ({ anyOf: [one], units: 1, isHeld: random() < 0.6 })),
    ]
    const work = hasNoWork ? 0 : 1 + upTo(random() < 0.1 ? 2 * TICKS_A_DAY : 4)
    const from = Math.max(0, ...after.map(({ activity, lagTicks }) => placed[activity]!.endTick + lagTicks), visit === undefined ? 0 : visit.fromTick + (stands && visit === own[0] ? 0 : roll)) + (random() < 0.5 ? upTo(16) : 0)
    const by = visit === undefined ? TICKS : visit.toTick - roll
    const takes = needs.flatMap(({ isHeld }, place) => (place === 0 ? team : machine).map((resource) => ({ resource, isHeld })))
    for (let startTick = from; startTick + work <= by; startTick += 1) {
      const ticks = ticksFrom(startTick)
      if (ticks === null) continue
      for (const { resource, isHeld } of takes) ticks.forEach((isWorked, at) => { if (isWorked || (isHeld && there(resource, startTick + at) > 0)) left[resource]![startTick + at]! -= 1 })
      if (visit !== undefined) visitOf.set(activities.length, visit)
      activities.push({
        name: `vehicle ${vehicle + 1}, work ${activities.length - first + 1}`, work, after, needs, mayPause, keepsIn: false, stay: visit === undefined ? null : vehicle,
        earliestTick: random() < 0.15 ? Math.max(0, startTick - upTo(8)) : 0, fixed: work > 0 && random() < kind.pinned ? { startTick, resources: [] } : null,
      })
      placed.push({ startTick, endTick: startTick + ticks.length, resources: [...team.filter(() => !hasNoWork), ...(hasNoWork ? [] : machine), ...(visit === undefined ? [] : [visit.bay])] })
      return
    }

    /** For each tick from the first to the last whether it is worked; null where it cannot begin there. */
    function ticksFrom(startTick: number): boolean[] | null {
      const ticks: boolean[] = []
      for (let done = 0; done < work;) {
        const tick = startTick + ticks.length
        const isWorked = takes.every(({ resource }) => there(resource, tick) > 0)
        if (tick >= by || (!isWorked && (ticks.length === 0 || !mayPause))) return null
        if (takes.some(({ resource, isHeld }) => (isWorked || (isHeld && there(resource, tick) > 0)) && left[resource]![tick]! < 1)) return null
        ticks.push(isWorked)
        done += Number(isWorked)
      }
      return ticks
    }
  }

  function movableFrom(keeper: number, visitOf: ReadonlyMap<number, Visit>): number {
    const { endTick } = placed[keeper]!
    const next = [...visitOf.keys()].flatMap((one) => (one !== keeper && placed[one]!.startTick >= endTick ? [placed[one]!.startTick] : []))
    const waits = activities.flatMap(({ after }) => after.flatMap(({ activity, lagTicks }) => (activity === keeper ? [endTick + lagTicks] : [])))
    return Math.max(endTick, ...waits, next.length === 0 ? 0 : Math.min(...next))
  }
}
