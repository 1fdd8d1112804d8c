import { createHash } from 'node:crypto'
import { writeDay } from '../../web/shared/day.ts'
import { addDays } from '../calc/calendar.ts'
import { groupBy } from '../calc/grouping.ts'
import type { PlanContent, PlannedWork } from '../schedule/planContent.ts'
import { calendarDateIn } from '../shared/shopTime.ts'

export const SUBJECT_KINDS = ['person', 'bay', 'build'] as const
export type SubjectKind = (typeof SUBJECT_KINDS)[number]

/** Whose or of what a calendar is. */
export interface CalendarOf {
  readonly kind: SubjectKind
  readonly id: string
}

/** One entry of a calendar: between two instants, or on whole days. */
export interface CalendarEvent {
  /** The same for the same thing in every plan, so that what moves is moved and not doubled. */
  readonly uid: string
  readonly summary: string
  readonly description: string
  readonly location: string | null
  readonly at: { readonly fromAt: string, readonly toAt: string } | { readonly firstDay: string, readonly lastDay: string }
}

/**
 * What a plan holds for one person, bay or build. A person’s days and a build’s operations: one entry for each day on
 * which an operation is worked on; the bay’s: one for each time a vehicle stands in it. Build numbers and the names of
 * parts and operations only: no customer, no vehicle, no title, no money, nobody else’s name.
 */
export function listEvents(content: PlanContent, of: CalendarOf, timeZone: string): CalendarEvent[] {
  const own: Around = { content, of, timeZone, numbers: new Map(content.builds.map(({ buildId, name }) => [buildId, name.split(' ')[0] ?? name])), bays: new Map(content.bays.map(({ id, name }) => [id, name])) }
  if (of.kind === 'person') return content.work.filter(({ personIds }) => personIds.includes(of.id)).flatMap((work) => workEvents(work, own))
  if (of.kind === 'bay') return visitEvents(own, ({ bayId }) => bayId === of.id)
  return [
    ...content.work.filter(({ buildId }) => buildId === of.id).flatMap((work) => workEvents(work, own)),
    ...visitEvents(own, ({ buildId }) => buildId === of.id), ...content.builds.filter(({ buildId }) => buildId === of.id).flatMap((build) => endEvents(build, own)),
  ]
}

interface Around {
  readonly content: PlanContent
  readonly of: CalendarOf
  readonly timeZone: string
  readonly numbers: ReadonlyMap<string, string>
  readonly bays: ReadonlyMap<string, string>
}

function workEvents({ operationId, buildId, name, shortName, endsAt, hours, bayId, leavesAt = null, dueBackAt }: PlannedWork, { of, timeZone, numbers, bays }: Around): CalendarEvent[] {
  const summary = `${numbers.get(buildId) ?? ''} ${shortName}`.trim()
  const location = bayId === null ? null : bays.get(bayId) ?? null
  // The first day of an operation stays its first, whichever day that is.
  const worked = [...groupBy(hours, ({ fromAt }) => dayOf(timeZone, fromAt)).values()].map((some, day): CalendarEvent =>
    ({ uid: uidOf(of, 'work', operationId, day), summary, description: name, location, at: { fromAt: some[0]!.fromAt, toAt: some.at(-1)!.toAt } }))
  if (dueBackAt === null || of.kind === 'person') return worked
  const days = { firstDay: dayOf(timeZone, leavesAt ?? endsAt), lastDay: dayOf(timeZone, dueBackAt) }
  return [...worked, { uid: uidOf(of, 'away', operationId), summary: `${summary}: away`, description: `${name}: ${leavesAt === null ? 'at' : `leaves on ${writeDay(days.firstDay)} for`} an outside finisher, back on ${writeDay(days.lastDay)}`, location: null, at: days }]
}

function visitEvents({ content, of, numbers, bays }: Around, isWanted: (visit: PlanContent['visits'][number]) => boolean): CalendarEvent[] {
  const seen = new Map<string, number>()
  return content.visits.flatMap((visit) => {
    const count = seen.get(visit.buildId) ?? 0
    seen.set(visit.buildId, count + 1)
    if (!isWanted(visit)) return []
    const [number, bay] = [numbers.get(visit.buildId) ?? '', bays.get(visit.bayId) ?? '']
    return [{ uid: uidOf(of, 'visit', visit.buildId, count), summary: `${number} in ${bay}`, description: `The vehicle of ${number} stands in ${bay}.`, location: bay, at: { fromAt: visit.fromAt, toAt: visit.toAt } }]
  })
}

function endEvents({ buildId, endsAt, dueAt, chances }: PlanContent['builds'][number], { of, timeZone, numbers }: Around): CalendarEvent[] {
  const number = numbers.get(buildId) ?? ''
  // What ends as the shop closes at midnight has ended on that day.
  const lastDay = (instant: string): string => calendarDateIn(timeZone, new Date(Date.parse(instant) - 1))
  const on = (instant: string) => ({ firstDay: lastDay(instant), lastDay: lastDay(instant) })
  const by = (instant: string): string => writeDay(lastDay(instant))
  return [
    ...(endsAt === null ? [] : [{
      uid: uidOf(of, 'end', buildId), summary: `${number}: last work as planned`, location: null, at: on(endsAt),
      description: chances === null ? 'The last work on it by the plan.' : `The last work on it by the plan. Even chance by ${by(chances.even)}, 80 in 100 by ${by(chances.in80)}, 90 in 100 by ${by(chances.in90)}.`,
    }]),
    ...(dueAt === null ? [] : [{ uid: uidOf(of, 'due', buildId), summary: `${number}: due`, description: 'Promised for this day, or wished for it where nothing is promised.', location: null, at: on(dueAt) }]),
  ]
}

const dayOf = (timeZone: string, instant: string): string => calendarDateIn(timeZone, new Date(instant))

/** The day after the last, with which whole days end in a calendar. Source: RFC 5545, 3.6.1: DTEND is not inclusive. */
export const dayAfter = (lastDay: string): string => addDays(lastDay, 1)

/** A UUID made of what an entry is about (RFC 9562, version 8), so that it tells nothing of it (RFC 7986, 5.3). */
function uidOf({ kind, id }: CalendarOf, what: string, of: string, count = 0): string {
  const bytes = createHash('sha256').update(JSON.stringify([kind, id, what, of, count])).digest().subarray(0, 16)
  bytes[6] = (bytes[6]! & 0x0f) | 0x80
  bytes[8] = (bytes[8]! & 0x3f) | 0x80
  return bytes.toString('hex').replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5')
}
