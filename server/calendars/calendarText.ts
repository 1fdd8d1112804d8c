import ical, { ICalCalendarMethod, ICalEventStatus, ICalEventTransparency } from 'ical-generator'
import { dayAfter, type CalendarEvent } from './events.ts'

export interface CalendarFacts {
  readonly name: string
  /** When the plan was taken: with another plan all entries are newer. */
  readonly takenAt: Date
  /** Whether what the plan was made from has changed since. */
  readonly isStale: boolean
  readonly events: readonly CalendarEvent[]
}

const REFRESH_S = 3600
const SEQUENCES_FROM_MS = Date.UTC(2020, 0, 1)
const STALE = 'Things have changed since this was planned.'

// A calendar without any component is none (RFC 5545, 3.6), so an empty one brings the zone its times would be in.
const UTC_ZONE = ['BEGIN:VTIMEZONE', 'TZID:Etc/UTC', 'BEGIN:STANDARD', 'DTSTART:19700101T000000', 'TZOFFSETFROM:+0000', 'TZOFFSETTO:+0000', 'TZNAME:UTC', 'END:STANDARD', 'END:VTIMEZONE', ''].join('\r\n')

/**
 * A calendar as text (RFC 5545). Times are written in UTC: each entry is one instant to another and none repeats, so no
 * rule of any zone can move it, and the reader’s program shows it in its own. Days are the shop’s own days. The same plan
 * gives the same bytes.
 */
export function writeCalendar({ name, takenAt, isStale, events }: CalendarFacts): string {
  const calendar = ical({ prodId: '//Putback//Schedule//EN', method: ICalCalendarMethod.PUBLISH, ttl: REFRESH_S, name: escaped(readable(name)) })
  // Rises with every plan that is taken, and fits the integers of calendars until 2088 (RFC 5545, 3.3.8).
  const sequence = Math.max(0, Math.floor((takenAt.getTime() - SEQUENCES_FROM_MS) / 1000))
  for (const { uid, summary, description, location, at } of events) {
    const isAllDay = 'firstDay' in at
    calendar.createEvent({
      id: uid, sequence, stamp: takenAt, summary: readable(summary), location: location === null ? null : readable(location),
      description: readable(isStale ? `${description}\n${STALE}` : description),
      status: isStale ? ICalEventStatus.TENTATIVE : ICalEventStatus.CONFIRMED,
      ...(isAllDay
        ? { allDay: true, start: midnight(at.firstDay), end: midnight(dayAfter(at.lastDay)), transparency: ICalEventTransparency.TRANSPARENT }
        : { start: new Date(at.fromAt), end: new Date(at.toAt) }),
    })
  }
  // The library leaves the last line open (each ends with CRLF: RFC 5545, 3.1).
  const text = `${calendar.toString()}\r\n`
  return events.length > 0 ? text : text.replace(/END:VCALENDAR\r\n$/, `${UTC_ZONE}END:VCALENDAR\r\n`)
}

const midnight = (day: string): Date => new Date(`${day}T00:00:00Z`)

/** Without the signs that no text of a calendar may hold (RFC 5545, 3.1: control characters). */
const readable = (text: string): string => text.replaceAll(/[^\P{Cc}\t\n]/gu, '')

/** The library writes a calendar’s own name as it is, other texts escaped (RFC 5545, 3.3.11). */
const escaped = (text: string): string => text.replaceAll(/[\\;,]/g, '\\$&').replaceAll('\n', '\\n')
