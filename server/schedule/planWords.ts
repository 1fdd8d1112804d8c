import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { writeDay } from '../../web/shared/day.ts'

/** "Mon 30 Nov" of an instant. */
export function dayWords(timeZone: string, at: number): string {
  return writeDay(calendarDateIn(timeZone, new Date(at))).split(' ').slice(0, 3).join(' ')
}

/** "Mon 30 Nov 08:00". */
export const momentWords = (timeZone: string, at: number): string => `${dayWords(timeZone, at)} ${clockTimeIn(timeZone, new Date(at))}`

/** "Mon 30 Nov 08:00 to 11:30", or over days "Mon 30 Nov 14:00 to Tue 1 Dec 09:15". */
export function spanWords(timeZone: string, from: number, to: number): string {
  if (to === from) return momentWords(timeZone, from)
  const isOneDay = calendarDateIn(timeZone, new Date(from)) === calendarDateIn(timeZone, new Date(to))
  return `${momentWords(timeZone, from)} to ${isOneDay ? clockTimeIn(timeZone, new Date(to)) : momentWords(timeZone, to)}`
}

/** The whole day on which something ends; what ends at midnight belongs to the day before. */
export const endDay = (timeZone: string, at: number): string => writeDay(calendarDateIn(timeZone, new Date(at - 1)))

/** "83 in 100", of cases in 100; so few cases do not show that something is certain. */
export const chanceWords = (count: number): string => (count <= 0 ? 'less than 1 in 100' : count >= 100 ? 'more than 99 in 100' : `${count} in 100`)
