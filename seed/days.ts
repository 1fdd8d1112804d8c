import { addDays, addWorkingDays, type CalendarDate } from '../server/calc/calendar.ts'
import { calendarDateIn, instantOf } from '../server/shared/shopTime.ts'

export const TIME_ZONE = 'America/Denver'
const WEEK = { workdays: [1, 2, 3, 4, 5], holidays: [] } as const

/** The demo's calendar: everything in it is so many days before or after `now`. */
export interface Days {
  readonly now: Date
  /** Calendar days from today. */
  on(days: number): CalendarDate
  /** Working days from today; -1 is the last one before it. */
  workday(days: number): CalendarDate
  at(date: CalendarDate, clock: string): Date
  minutesAgo(minutes: number): Date
}

export function daysAround(now: Date): Days {
  const today = calendarDateIn(TIME_ZONE, now)
  const workdays = new Map<number, CalendarDate>()
  const workday = (days: number): CalendarDate => {
    const date = workdays.get(days) ?? (days < 0 ? addWorkingDays(workday(days + 1), -1, WEEK) : addWorkingDays(today, days, WEEK))
    workdays.set(days, date)
    return date
  }
  return {
    now,
    on: (days) => addDays(today, days),
    workday,
    at: (date, clock) => instantOf(TIME_ZONE, date, clock),
    minutesAgo: (minutes) => new Date(now.getTime() - minutes * 60_000),
  }
}
