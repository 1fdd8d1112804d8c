import { unreadable } from './numerals.ts'
import type { Unreadable } from './numerals.ts'

/** A day of the civil calendar, 'YYYY-MM-DD', without a clock or zone. */
export type CalendarDate = string

/** Monday is 1, Sunday is 7 (ISO 8601). */
export type Weekday = 1 | 2 | 3 | 4 | 5 | 6 | 7

export interface WorkingCalendar {
  readonly workdays: readonly Weekday[]
  readonly holidays: readonly CalendarDate[]
}

const DAY_MS = 86_400_000
const WEEKDAY_NAMES = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const
const MONTH_NAMES = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const

/** Whether a text is a day that exists, written 'YYYY-MM-DD', in the years 0001 to 9999. */
export function isCalendarDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text) || text.startsWith('0000')) return false
  const instant = Date.parse(`${text}T00:00:00Z`)
  return !Number.isNaN(instant) && new Date(instant).toISOString().startsWith(text)
}

/**
 * Reads a day as a date field sends it. Refuses days that do not exist, with words for the person.
 *
 * @example parseDate('2027-02-12') // { ok: true, date: '2027-02-12' }
 */
export function parseDate(text: string): { readonly ok: true, readonly date: CalendarDate } | Unreadable {
  const date = text.trim()
  if (isCalendarDate(date)) return { ok: true, date }
  const isWellWritten = /^\d{4}-\d{2}-\d{2}$/.test(date)
  return unreadable(isWellWritten ? `The calendar has no day ${date}.` : 'Write a day as year-month-day, as 2027-02-12.')
}

/**
 * The day a number of calendar days later, or earlier if negative.
 *
 * @example addDays('2028-02-28', 1) // '2028-02-29'
 */
export function addDays(date: CalendarDate, days: number): CalendarDate {
  return toDate(dayNumber(date) + days)
}

/**
 * The same day some months later, or the month's last day where it has no such day. For warranties and leases.
 *
 * @example addMonths('2028-02-29', 12) // '2029-02-28'
 */
export function addMonths(date: CalendarDate, months: number): CalendarDate {
  const { year, month, day } = partsOf(date)
  const target = year * 12 + month - 1 + months
  const first = `${pad(Math.floor(target / 12), 4)}-${pad(((target % 12) + 12) % 12 + 1, 2)}-01`
  return addDays(first, Math.min(day, daysInMonth(first)) - 1)
}

/**
 * Calendar days from one day to another; negative if the other is earlier.
 *
 * @example daysBetween('2026-12-31', '2027-01-01') // 1
 */
export function daysBetween(from: CalendarDate, to: CalendarDate): number {
  return dayNumber(to) - dayNumber(from)
}

/** The day of the week, Monday 1 to Sunday 7. */
export function weekdayOf(date: CalendarDate): Weekday {
  const sinceMonday = (((dayNumber(date) + 3) % 7) + 7) % 7
  return sinceMonday + 1 as Weekday
}

/** The Monday of the week a day lies in. */
export function startOfWeek(date: CalendarDate): CalendarDate {
  return addDays(date, 1 - weekdayOf(date))
}

export function isWorkingDay(date: CalendarDate, { workdays, holidays }: WorkingCalendar): boolean {
  return workdays.includes(weekdayOf(date)) && !holidays.includes(date)
}

/**
 * The n-th working day after a day (before it, if negative). Zero gives the day itself,
 * or the next working day if it is none. Throws a RangeError when the week has no workday.
 *
 * @example addWorkingDays('2027-02-12', 1, { workdays: [1, 2, 3, 4, 5], holidays: [] }) // '2027-02-15'
 */
export function addWorkingDays(date: CalendarDate, days: number, calendar: WorkingCalendar): CalendarDate {
  if (calendar.workdays.length === 0) throw new RangeError('the week has no workday')
  if (days === 0) return isWorkingDay(date, calendar) ? date : addWorkingDays(date, 1, calendar)
  const step = Math.sign(days)
  let reached = date
  for (let left = Math.abs(days); left > 0;) {
    reached = addDays(reached, step)
    if (isWorkingDay(reached, calendar)) left -= 1
  }
  return reached
}

/**
 * Working days after the first day up to and with the second; negative if the second is earlier.
 *
 * @example workingDaysBetween('2027-02-12', '2027-02-16', { workdays: [1, 2, 3, 4, 5], holidays: ['2027-02-15'] }) // 1
 */
export function workingDaysBetween(from: CalendarDate, to: CalendarDate, calendar: WorkingCalendar): number {
  const span = daysBetween(from, to)
  if (span < 0) return -workingDaysBetween(to, from, calendar) + 0
  const days = Array.from({ length: span }, (_, index) => addDays(from, index + 1))
  return days.filter(day => isWorkingDay(day, calendar)).length
}

/**
 * A day as people read it.
 *
 * @example formatDate('2027-02-12') // 'Fri 12 Feb 2027'
 */
export function formatDate(date: CalendarDate): string {
  const { year, month, day } = partsOf(date)
  return `${WEEKDAY_NAMES[weekdayOf(date) - 1]} ${day} ${MONTH_NAMES[month - 1]} ${year}`
}

/**
 * The calendar day on which an instant falls in a time zone by its IANA name.
 *
 * @example dateInZone(Date.UTC(2027, 0, 1, 2), 'America/Chicago') // '2026-12-31'
 */
export function dateInZone(epochMs: number, zone: string): CalendarDate {
  const format = new Intl.DateTimeFormat('en-US', { timeZone: zone, year: 'numeric', month: '2-digit', day: '2-digit' })
  const parts = format.formatToParts(epochMs)
  const [year, month, day] = (['year', 'month', 'day'] as const).map(type => parts.find(part => part.type === type)?.value ?? '')
  return `${year?.padStart(4, '0')}-${month}-${day}`
}

/** Days since 1970-01-01. Throws a RangeError for a text that is no day. */
function dayNumber(date: CalendarDate): number {
  if (!isCalendarDate(date)) throw new RangeError(`${date} is not a day of the calendar`)
  return Date.parse(`${date}T00:00:00Z`) / DAY_MS
}

function toDate(days: number): CalendarDate {
  const date = new Date(days * DAY_MS).toISOString().slice(0, 10)
  if (!isCalendarDate(date)) throw new RangeError('beyond the years 0001 to 9999')
  return date
}

function daysInMonth(first: CalendarDate): number {
  const { year, month } = partsOf(first)
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0)
  return month === 2 ? (isLeap ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31
}

function partsOf(date: CalendarDate) {
  dayNumber(date)
  return { year: Number(date.slice(0, 4)), month: Number(date.slice(5, 7)), day: Number(date.slice(8)) }
}

function pad(value: number, width: number): string {
  return String(value).padStart(width, '0')
}
