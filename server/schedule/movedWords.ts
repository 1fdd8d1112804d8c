import type { MovedBuild } from '../../web/schedule/differences.tsx'
import { counted } from '../../web/shared/text.ts'
import { daysBetween } from '../calc/calendar.ts'
import type { BuildDifference, PlannedHere } from '../calc/schedule/planDifference.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import type { PlanContent } from './planContent.ts'
import { dayOf, dayWords } from './proposals.ts'
import { momentWords } from './standingData.ts'

export type PlaceWords = (one: Pick<PlannedHere, 'startsAt' | 'endsAt' | 'personIds' | 'bayId'>) => string

/** “Tue 3 Mar 2031, 08:00 to 12:00, Lee, Bay 2”, with the names as these plans have them. */
export function toPlaceWords(plans: readonly PlanContent[], timeZone: string): PlaceWords {
  const names = new Map(plans.flatMap(({ people, bays }) => [...people, ...bays]).map(({ id, name }) => [id, name]))
  return ({ startsAt, endsAt, personIds, bayId }) => {
    const [from, to] = [new Date(startsAt), new Date(endsAt)]
    const isOneDay = dayOf(endsAt, timeZone) === calendarDateIn(timeZone, from)
    const ends = isOneDay ? clockTimeIn(timeZone, to) : `${dayWords(endsAt, timeZone)}, ${clockTimeIn(timeZone, to)}`
    return [`${momentWords(from, timeZone)} to ${ends}`, ...personIds.map((id) => names.get(id) ?? ''), ...(bayId === null ? [] : [names.get(bayId) ?? ''])].filter((part) => part !== '').join(', ')
  }
}

/** A build whose end is another, and what it means for its date. */
export function toMovedBuild({ buildId, name, before, after, dueAt, wasDueAt = dueAt }: BuildDifference, timeZone: string): MovedBuild {
  const day = (instant: string | null): string => (instant === null ? 'not known' : dayWords(instant, timeZone))
  const isLate = after !== null && dueAt !== null && after > dueAt
  const wasLate = before !== null && wasDueAt !== null && before > wasDueAt
  const days = after === null || dueAt === null ? 0 : daysBetween(dayOf(dueAt, timeZone), dayOf(after, timeZone))
  const words = dueAt === null ? 'no date promised' : after === null ? 'part of it cannot be planned' : isLate ? `${counted(days, 'day', 'days')} late${wasLate ? ', late before as well' : ''}` : wasLate ? 'kept again' : 'kept'
  const another = wasDueAt === dueAt || before === null ? '' : wasDueAt === null ? '; nothing was promised before' : `; was promised for ${dayWords(wasDueAt, timeZone)}`
  return { name, href: `/builds/${buildId}`, was: before === null ? 'not planned' : day(before), is: day(after), promised: dueAt === null ? 'no date' : dayWords(dueAt, timeZone), words: `${words}${another}`, isLate }
}
