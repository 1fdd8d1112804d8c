import { isWorkingDay, type CalendarDate, type WorkingCalendar } from '../calendar.ts'
import type { Stretch } from './shopTicks.ts'

/** Seconds after midnight. */
export interface DayHours {
  readonly fromS: number
  readonly toS: number
}

/** From one day to another, both included; of each day only some hours where they are named. */
export interface Away {
  readonly fromOn: CalendarDate
  readonly toOn: CalendarDate
  readonly hours: DayHours | null
}

/** When somebody works: on which days, from when to when, without the break and without being away. */
export interface HoursRule extends WorkingCalendar {
  readonly hours: DayHours
  readonly pause: DayHours | null
  readonly away: readonly Away[]
}

/**
 * The hours worked on one day, in order: none on a day off.
 *
 * Source: common practice, no source.
 *
 * @example hoursOnDay('2031-03-04', { hours: { fromS: 28800, toS: 61200 }, pause: { fromS: 43200, toS: 45000 }, … })
 * // 8:00 to 12:00 and 12:30 to 17:00
 */
export function hoursOnDay(date: CalendarDate, rule: HoursRule): DayHours[] {
  if (!isWorkingDay(date, rule)) return []
  const away = rule.away.filter(({ fromOn, toOn }) => fromOn <= date && date <= toOn)
  if (away.some(({ hours }) => hours === null)) return []
  const without = [...away.map(({ hours }) => hours), rule.pause]
  return without.reduce((left, one) => (one === null ? left : left.flatMap((each) => outside(each, one))), [rule.hours])
}

/** The same day by day, as instants; `instantOf` knows the shop’s zone and its changes of the clock. Source: as above. */
export function workedStretches(dates: readonly CalendarDate[], rule: HoursRule, instantOf: (date: CalendarDate, secondsAfterMidnight: number) => number): Stretch[] {
  return dates.flatMap((date) => hoursOnDay(date, rule).map(({ fromS, toS }) => ({ fromMs: instantOf(date, fromS), toMs: instantOf(date, toS) })))
}

function outside(own: DayHours, { fromS, toS }: DayHours): DayHours[] {
  return [{ fromS: own.fromS, toS: Math.min(own.toS, fromS) }, { fromS: Math.max(own.fromS, toS), toS: own.toS }].filter((part) => part.fromS < part.toS)
}
