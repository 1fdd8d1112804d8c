import type { PlannedBuild, ScheduleData, WeekData, WeekRow } from '../../web/schedule/scheduleData.ts'
import { writeDay } from '../../web/shared/day.ts'
import { counted } from '../../web/shared/text.ts'
import { addDays, daysBetween, startOfWeek } from '../calc/calendar.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import type { PlanContent } from './planContent.ts'
import { dayOf, dayWords } from './proposals.ts'
import { toStanding, type Stands } from './standingData.ts'

const DAYS_A_WEEK = 7

export function toScheduleData(stands: Stands, { today, week }: { readonly today: string, readonly week: string | undefined }): ScheduleData {
  const { inForce, timeZone, facts } = stands
  const content = inForce?.content ?? null
  return {
    standing: toStanding(stands),
    builds: content === null ? [] : content.builds.map((build) => toPlannedBuild(build, timeZone)),
    leftOut: (content ?? stands.drawn[0]?.content)?.leftOut.map(({ buildId, why }) => ({ build: facts.builds.find(({ id }) => id === buildId)?.name ?? '', why })) ?? [],
    week: content === null ? null : toWeek(content, timeZone, startOfWeek(week ?? (stands.facts.builds.length > 0 ? firstDay(content, timeZone, today) : today))),
  }
}

/** Today where anybody works today, or the next day on which anybody does: on a Saturday, Monday. */
function firstDay({ work }: PlanContent, timeZone: string, today: string): string {
  const days = work.flatMap(({ hours }) => hours.map(({ toAt }) => dayOf(toAt, timeZone))).filter((day) => day >= today).sort()
  return days[0] ?? today
}

export function toPlannedBuild({ buildId, name, endsAt, dueAt, chances }: PlanContent['builds'][number], timeZone: string): PlannedBuild {
  const dueOn = dueAt === null ? '' : calendarDateIn(timeZone, new Date(dueAt))
  const named = { name, href: `/builds/${buildId}`, dueOn: dueOn === '' ? '' : writeDay(dueOn), chances: null, kept: '' }
  if (endsAt === null) return { ...named, endsOn: '', state: 'no end', words: 'part of it cannot be planned' }
  const endsOn = dayOf(endsAt, timeZone)
  const likely = {
    ...named, endsOn: writeDay(endsOn), chances: chances && [chances.even, chances.in80, chances.in90].map((instant) => dayWords(instant, timeZone)),
    kept: chances === null || chances.kept === null ? '' : `${chances.kept} in 100`,
  }
  if (dueOn === '') return { ...likely, state: 'no date promised', words: 'no date promised' }
  const spare = daysBetween(endsOn, dueOn)
  return spare < 0
    ? { ...likely, state: 'late', words: `${counted(-spare, 'day', 'days')} late` }
    : { ...likely, state: 'in time', words: spare === 0 ? 'on the day' : `${counted(spare, 'day', 'days')} before` }
}

function toWeek(content: PlanContent, timeZone: string, monday: string): WeekData {
  const worked = workByDay(content, timeZone)
  const dates = Array.from({ length: DAYS_A_WEEK }, (_, later) => addDays(monday, later))
  const isWorked = (date: string): boolean => content.people.some(({ id }) => worked.has(`${id} ${date}`))
  const days = dates.filter((date, place) => place < 5 || isWorked(date))
  const row = ({ id, name }: { readonly id: string, readonly name: string }): WeekRow => ({ name, days: days.map((date) => worked.get(`${id} ${date}`) ?? []) })
  return {
    title: `Week of ${writeDay(monday)}`, days: days.map((date) => ({ date, name: writeDay(date).split(' ').slice(0, 3).join(' ') })),
    people: content.people.map(row), bays: content.bays.map(row),
    earlierHref: `/schedule?week=${addDays(monday, -DAYS_A_WEEK)}`, laterHref: `/schedule?week=${addDays(monday, DAYS_A_WEEK)}`,
  }
}

/** What each person works on and which build each bay holds, by their id and the day. */
function workByDay({ work, visits, builds }: PlanContent, timeZone: string): Map<string, WeekRow['days'][number][number][]> {
  const found = new Map<string, WeekRow['days'][number][number][]>()
  const note = (key: string, planned: WeekRow['days'][number][number]): void => void found.set(key, [...(found.get(key) ?? []), planned])
  const names = new Map(builds.map(({ buildId, name }) => [buildId, name]))
  const clock = (instant: string): string => clockTimeIn(timeZone, new Date(instant))
  const inOrder = [...work].sort((one, other) => (one.startsAt < other.startsAt ? -1 : 1))
  for (const { operationId, buildId, shortName, hours, personIds } of inOrder) {
    for (const { fromAt, toAt } of hours) {
      for (const person of personIds) {
        note(`${person} ${calendarDateIn(timeZone, new Date(fromAt))}`, { what: `${names.get(buildId)?.split(' ')[0] ?? ''} ${shortName}`, href: `/operations/${operationId}`, times: `${clock(fromAt)} to ${clock(toAt)}` })
      }
    }
  }
  for (const { buildId, bayId, fromAt, toAt } of visits) {
    const last = dayOf(toAt, timeZone)
    for (let date = calendarDateIn(timeZone, new Date(fromAt)); date <= last; date = addDays(date, 1)) note(`${bayId} ${date}`, { what: names.get(buildId) ?? '', href: `/builds/${buildId}`, times: '' })
  }
  return found
}
