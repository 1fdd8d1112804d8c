import { addDays } from '../calc/calendar.ts'
import { calendarDateIn, clockTimeIn, instantOf } from '../shared/shopTime.ts'

/** The instants between which a calendar day lies in the shop. */
export function dayIn(timeZone: string, date: string): { from: Date; to: Date } {
  return { from: instantOf(timeZone, date, '00:00'), to: instantOf(timeZone, addDays(date, 1), '00:00') }
}

interface Span {
  readonly startedAt: Date
  readonly seconds: number
}

/** "08:20 to 09:35" of a timer; hours after the fact begin as their day does and have no time of day. */
export function whenIn(timeZone: string, { startedAt, seconds }: Span): string {
  const midnight = dayIn(timeZone, calendarDateIn(timeZone, startedAt)).from
  if (startedAt.getTime() === midnight.getTime()) return 'afterward'
  return `${clockTimeIn(timeZone, startedAt)} to ${clockTimeIn(timeZone, new Date(startedAt.getTime() + seconds * 1000))}`
}
