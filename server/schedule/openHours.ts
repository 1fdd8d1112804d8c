import { addDays, weekdayOf } from '../calc/calendar.ts'
import type { Stretch } from '../calc/schedule/shopTicks.ts'
import { calendarDateIn, instantOf } from '../shared/shopTime.ts'

interface ShopHours {
  readonly timeZone: string
  /** Seconds after midnight. */
  readonly opensAt: number
  readonly closesAt: number
  /** Monday is 1: "1,2,3,4,5". */
  readonly workdays: string
}

/** When a shop is open, day by day from the day of an instant on. */
export function openHours({ timeZone, opensAt, closesAt, workdays }: ShopHours, from: Date, days: number): Stretch[] {
  const open = new Set(workdays.split(',').map(Number))
  const today = calendarDateIn(timeZone, from)
  const dates = Array.from({ length: days }, (_, later) => addDays(today, later)).filter((date) => open.has(weekdayOf(date)))
  return dates.map((date) => ({ fromMs: instantOf(timeZone, date, clockOf(opensAt)).getTime(), toMs: instantOf(timeZone, date, clockOf(closesAt)).getTime() }))
}

/** The hours in one text, whatever day it is. */
export const ruleOf = ({ timeZone, opensAt, closesAt, workdays }: ShopHours): string => [timeZone, opensAt, closesAt, workdays].join(' ')

/** The instant a shop closes on a day. */
export const closingOn = ({ timeZone, closesAt }: ShopHours, date: string): number => instantOf(timeZone, date, clockOf(closesAt)).getTime()
export const openingOn = ({ timeZone, opensAt }: ShopHours, date: string): number => instantOf(timeZone, date, clockOf(opensAt)).getTime()

function clockOf(seconds: number): string {
  const minutes = Math.min(Math.floor(seconds / 60), 24 * 60 - 1)
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`
}
