import type { PlannedBuild, ScheduleData } from '../../web/schedule/scheduleData.ts'
import { writeDay } from '../../web/shared/day.ts'
import { counted } from '../../web/shared/text.ts'
import { daysBetween } from '../calc/calendar.ts'
import { listHolidays } from '../settings/holidays.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import type { PlanContent } from './planContent.ts'
import { chanceWords } from './planWords.ts'
import { dayOf, dayWords } from './proposals.ts'
import { toStanding, type Stands } from './standingData.ts'

export function toScheduleData(stands: Stands): ScheduleData {
  const { inForce, timeZone, facts } = stands
  const content = inForce?.content ?? null
  return {
    standing: toStanding(stands), holidays: { region: stands.region, days: holidayWords(stands) },
    builds: content === null ? [] : content.builds.map((build, place) => toPlannedBuild(build, place, timeZone)),
    leftOut: (content ?? stands.drawn[0]?.content)?.leftOut.map(({ buildId, why }) => ({ build: facts.builds.find(({ id }) => id === buildId)?.name ?? '', why })) ?? [],
  }
}

/** The public holidays within what plans look at: “Fri 25 Dec 2026, Christmas Day”. */
function holidayWords({ region, facts: { fromMs, tickMs, horizonTicks }, timeZone }: Stands): string[] {
  const [first, last] = [fromMs, fromMs + horizonTicks * tickMs].map((ms) => calendarDateIn(timeZone, new Date(ms))) as [string, string]
  return [...new Set([first, last].map((date) => Number(date.slice(0, 4))))].flatMap((year) => listHolidays(region, year))
    .filter(({ on }) => on >= first && on <= last).map(({ on, name }) => `${writeDay(on)}, ${name}`)
}

export function toPlannedBuild({ buildId, name, endsAt, dueAt, chances }: PlanContent['builds'][number], place: number, timeZone: string): PlannedBuild {
  const dueOn = dueAt === null ? '' : calendarDateIn(timeZone, new Date(dueAt))
  const named = { place, name, href: `/builds/${buildId}/schedule`, dueOn: dueOn === '' ? '' : writeDay(dueOn), chances: null, kept: '' }
  if (endsAt === null) return { ...named, endsOn: '', state: 'no end', words: 'part of it cannot be planned' }
  const endsOn = dayOf(endsAt, timeZone)
  const likely = {
    ...named, endsOn: writeDay(endsOn), chances: chances && [chances.even, chances.in80, chances.in90].map((instant) => dayWords(instant, timeZone)),
    kept: chances === null || chances.kept === null ? '' : chanceWords(chances.kept),
  }
  if (dueOn === '') return { ...likely, state: 'no date promised', words: 'no date promised' }
  const spare = daysBetween(endsOn, dueOn)
  return spare < 0
    ? { ...likely, state: 'late', words: `${counted(-spare, 'day', 'days')} late` }
    : { ...likely, state: 'in time', words: spare === 0 ? 'on the day' : `${counted(spare, 'day', 'days')} before` }
}
