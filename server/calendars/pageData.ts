import { randomUUID } from 'node:crypto'
import type { CalendarsData } from '../../web/calendars/calendars.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { stateOf } from '../links/pageData.ts'
import { listMakers } from '../links/store.ts'
import { loadPlanInForce } from '../schedule/planStore.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { MANAGERS } from '../shared/roles.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { LONGEST_DAYS, USUAL_DAYS, valueOf, type Given } from './orders.ts'
import { listCalendarLinks, listSubjectNames, listSubjects, type CalendarSubject } from './store.ts'

export const nameOfSubject = ({ kind, name }: Pick<CalendarSubject, 'kind' | 'name'>): string => (kind === 'person' ? `Days of ${name}` : name)

type State = Pick<CalendarsData, 'made' | 'problems' | 'isWithdrawn'> & { readonly typed?: Given }

/** The calendars this person may hand out, and those that are handed out already. */
export async function calendarsData(reads: Reads, viewer: Viewer, now: Date, { typed, ...state }: State = {}): Promise<CalendarsData> {
  const [subjects, links, { timeZone }, plan] = await Promise.all([listSubjects(reads, viewer), listCalendarLinks(reads, viewer), shopOf(reads), loadPlanInForce(reads)])
  const [makers, names] = await Promise.all([listMakers(reads, links), listSubjectNames(reads, links)])
  const dayOf = (at: Date): string => writeDay(calendarDateIn(timeZone, at))
  return {
    ...state, isManager: MANAGERS.includes(viewer.role), action: '/calendars', key: randomUUID(), usualDays: USUAL_DAYS, longestDays: LONGEST_DAYS,
    planned: plan && `${dayOf(plan.takenAt)}, ${clockTimeIn(timeZone, plan.takenAt)}`,
    subjects: subjects.map((one) => ({ value: valueOf(one), label: nameOfSubject(one) })),
    typed: { subject: typed?.subject ?? '', note: typed?.note ?? '', days: String(typed?.days ?? USUAL_DAYS) },
    links: links.map((link) => ({
      id: link.id, to: names.has(link.subjectId) ? nameOfSubject({ kind: link.subjectKind, name: names.get(link.subjectId)! }) : `${link.subjectKind}, no longer there`, forWhom: link.note,
      made: `${dayOf(link.createdAt)}, ${makers.get(link.createdById) ?? 'somebody'}`, until: dayOf(link.expiresAt), state: stateOf(link, now),
      key: stateOf(link, now) === 'open' ? randomUUID() : null,
    })),
  }
}
