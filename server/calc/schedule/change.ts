import type { End } from './problem.ts'

/** What the plan in force says of an activity: its ticks (before 0 where they are past), who does it, and its bay. */
export interface Before {
  readonly startTick: number
  readonly endTick: number
  /** Ticks of work that were planned from now on. */
  readonly work: number
  /** Places among the resources, in rising order. */
  readonly people: readonly number[]
  readonly bay: number | null
}

/** The plan in force, seen from a problem that was drawn up later. */
export interface PlanBefore {
  /** In the order of the problem's activities: what it does not know is new, and null is what nobody is told of, as the end of a build. */
  readonly activities: readonly (Before | 'new' | null)[]
  /** The first so many resources are people. */
  readonly peopleCount: number
  /** The ticks at which a new day of the shop begins, the first the end of today. */
  readonly midnights: readonly number[]
  /** Its weighted ticks of delay. */
  readonly delay: number
  /** The tick at which each of the problem's ends comes by it; null where it does not know it. */
  readonly ends: readonly (number | null)[]
}

/**
 * What a change is worth, in weighted ticks of delay. With quarter hours, and a usual build of weight 2: sixteen operations
 * go to another day, or to somebody else, before its promise is missed by one day more. To take from somebody what was
 * planned for today costs two days of that, to add to it or to turn its hours about five hours.
 *
 * Source: ours, no source.
 */
export const CHANGE = { person: 12, day: 12, hour: 2, bay: 4, today: 400, withinToday: 40, intoToday: 40 } as const

/**
 * What it costs that something ends later than by the plan in force, though in time: an eighth of what the same delay
 * would. A usual build that ends a day later so weighs as much as two operations moved to another day.
 */
const LATER_IN_TIME = 1 / 8

/**
 * What later ends cost as long as they are in time; what comes after its due tick is delay, and no part of this.
 *
 * Source: ours, no source.
 *
 * @example costOfLater([{ activity: 0, dueTick: 100, weight: 2 }], [40], () => 56) // 4
 */
export const costOfLater = (ends: readonly End[], was: PlanBefore['ends'], endOf: (activity: number) => number): number =>
  ends.reduce((sum, { activity, dueTick, weight }, place) => sum + LATER_IN_TIME * weight * Math.max(0, Math.min(endOf(activity), dueTick) - (was[place] ?? Infinity)), 0)

export interface Placed {
  readonly startTick: number
  readonly endTick: number
  readonly people: readonly number[]
  readonly bay: number | null
}

/** How one activity stands to the plan in force. “longer” and the like is no move: it begins when it was to begin, by the same people. */
export interface Move {
  readonly isMoved: boolean
  readonly hasOtherPeople: boolean
  readonly hasOtherDay: boolean
  readonly hasOtherBay: boolean
  /** It was planned for today, for somebody who was told. */
  readonly wasToday: boolean
  readonly cost: number
}

/**
 * Compares where an activity stands with where it stood. What was to begin before now and goes on is not moved as long
 * as it ends when it was to end, or sooner; what was to be over already is, and costs nothing for being done today.
 *
 * Source: ours, no source.
 */
export function moveOf(before: Before | 'new', { startTick, endTick, people, bay }: Placed, midnights: readonly number[]): Move {
  const isToday = isOnDay(startTick, 0, midnights)
  if (before === 'new') return { isMoved: false, hasOtherPeople: false, hasOtherDay: false, hasOtherBay: false, wasToday: false, cost: isToday ? CHANGE.intoToday : 0 }
  const wasOver = before.endTick <= 0
  const hadBegun = before.startTick < 0
  const wasToday = !wasOver && isOnDay(Math.max(0, before.startTick), 0, midnights)
  const hasOtherPeople = people.length !== before.people.length || people.some((one, place) => one !== before.people[place])
  const hasOtherStart = wasOver || (hadBegun ? endTick > before.endTick : startTick !== before.startTick)
  const hasOtherDay = dayOf(startTick, midnights) !== dayOf(Math.max(0, before.startTick), midnights)
  const hasOtherBay = before.bay !== bay
  const cost = (hasOtherPeople ? CHANGE.person : 0) + (hasOtherDay ? CHANGE.day : hasOtherStart ? CHANGE.hour : 0) + (hasOtherBay ? CHANGE.bay : 0)
  const isTold = isToday && !wasOver && (hasOtherPeople || !wasToday)
  const ofToday = (wasToday && (hasOtherPeople || hasOtherDay) ? CHANGE.today : wasToday && hasOtherStart ? CHANGE.withinToday : 0) + (isTold ? CHANGE.intoToday : 0)
  return { isMoved: hasOtherPeople || hasOtherStart || hasOtherDay || hasOtherBay, hasOtherPeople, hasOtherDay, hasOtherBay, wasToday, cost: cost + ofToday }
}

/** The day of a tick, counted from today. @example dayOf(40, [36, 132]) // 1 */
export function dayOf(tick: number, midnights: readonly number[]): number {
  let low = 0
  let high = midnights.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (midnights[middle]! <= tick) low = middle + 1
    else high = middle
  }
  return low
}

const isOnDay = (tick: number, day: number, midnights: readonly number[]): boolean => dayOf(tick, midnights) === day
