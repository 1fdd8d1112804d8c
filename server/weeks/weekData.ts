import type { ShopWeekData, WeekDay, WeekGroup } from '../../web/schedule/weekData.ts'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { addDays } from '../calc/calendar.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import type { Stretch } from '../calc/schedule/shopTicks.ts'
import { dayWords, momentWords } from '../schedule/planWords.ts'
import { listHolidays } from '../settings/holidays.ts'
import type { Reads } from '../shared/database/database.ts'
import { DAYS_A_WEEK, loadShopWeek, mondayOf, type ShopWeek } from './shopWeek.ts'
import { drawWeek } from './weekDrawing.ts'
import type { RowItem, ShopRow } from './weekRows.ts'
import { timesOn, untilWords } from './weekWords.ts'

interface Asked {
  readonly week: string | undefined
  readonly build: string | undefined
  readonly now: Date
}

type Day = ShopWeek['openDays']['days'][number]

export async function shopWeekData(reads: Reads, viewer: Viewer, { week, build = '', now }: Asked): Promise<ShopWeekData> {
  const monday = await mondayOf(reads, { week, today: viewer.today, now })
  const own = (date: string): string => `/schedule/week?${new URLSearchParams({ week: date, ...(build === '' ? {} : { build }) }).toString()}`
  const head = {
    title: `Week of ${writeDay(monday)}`, week: monday, earlierHref: own(addDays(monday, -DAYS_A_WEEK)), laterHref: own(addDays(monday, DAYS_A_WEEK)),
    links: [{ name: 'Schedule', href: '/schedule' }, { name: 'Load by department', href: '/schedule/load' }],
  }
  const found = await loadShopWeek(reads, monday, now)
  if (found === null) return { ...head, empty: 'No plan is in force yet. Plan the shop and take the plan; the week stands here then, by person, bay, machine and outside finisher.', takenAt: '', isStale: false, build: '', builds: [], notes: [], broken: [], drawn: [], days: [] }
  const { inForce: { content, takenAt }, openDays, rows, isStale } = found
  const { timeZone, days } = openDays
  const chosen = content.builds.some(({ buildId }) => buildId === build) ? build : ''
  return {
    ...head, empty: '', takenAt: momentWords(timeZone, takenAt.getTime()), isStale, notes: notesOn(found), broken: brokenBy(found),
    build: chosen, builds: content.builds.map(({ buildId, name }) => ({ id: buildId, name })),
    drawn: drawWeek(rows, { openDays, today: viewer.today, nowMs: now.getTime(), build: chosen, title: `${head.title}, plan taken ${momentWords(timeZone, takenAt.getTime())}` }),
    days: days.filter((day) => day.open !== null || rows.some(({ kind, items }) => kind === 'person' && items.some((item) => isOn(item, day)))).map((day) => toDay(day, rows, timeZone, viewer.today)),
  }
}

/** What a week that looks empty hides: where the plan begins and ends, and which days are off. */
function notesOn({ from, inForce: { content }, openDays: { days, timeZone, shopDay } }: ShopWeek): string[] {
  const starts = Date.parse(content.fromAt)
  const ends = Math.max(starts, ...content.work.map(({ endsAt, dueBackAt }) => Date.parse(dueBackAt ?? endsAt)), ...content.visits.map(({ toAt }) => Date.parse(toAt)))
  const off = days.filter(({ open }) => open === null)
  return [
    ...(days[0]!.fromMs >= ends ? [`The plan ends ${dayWords(timeZone, ends)}: nothing of it is in this week.`] : []),
    ...(calendarDateIn(timeZone, new Date(starts)) > from ? [`The plan begins ${momentWords(timeZone, starts)}; before that only logged hours stand here.`] : []),
    ...(off.length === 0 ? [] : off.length === DAYS_A_WEEK ? ['The shop is closed all week.'] : [`The shop is closed ${off.map(({ date, fromMs }) => `${dayWords(timeZone, fromMs)}${holidayOn(date, shopDay.shop?.holidays ?? '')}`).join(', ')}.`]),
  ]
}

/** What is planned where nobody is there or it is closed by now. */
function brokenBy({ rows, openDays: { days, timeZone } }: ShopWeek): string[] {
  return rows.flatMap(({ kind, name, items, off }) => {
    const hit = days.filter((day) => off.some((away) => isOn(away, day) && items.some((item) => isOn(item, day) && item.fromMs < away.toMs && item.toMs > away.fromMs)))
    return hit.length === 0 ? [] : [`${name} is ${kind === 'person' ? 'not there' : 'closed'}, and has something planned: ${hit.map(({ fromMs }) => dayWords(timeZone, fromMs)).join(', ')}.`]
  })
}

function holidayOn(date: string, region: string): string {
  const holiday = listHolidays(region, Number(date.slice(0, 4))).find(({ on }) => on === date)
  return holiday === undefined ? '' : ` (${holiday.name})`
}

const isOn = (one: Stretch, { fromMs, toMs }: Day): boolean => one.fromMs < toMs && one.toMs > fromMs

function toDay(day: Day, rows: readonly ShopRow[], timeZone: string, today: string): WeekDay {
  const toGroup = ({ kind, name, items, off }: ShopRow): WeekGroup => ({
    name,
    lines: [
      ...items.filter((item) => isOn(item, day)).map((item) => ({ fromMs: item.fromMs, times: timesOn(item, day, timeZone), what: wordsOf(item, kind, timeZone), href: item.operationId === null ? `/builds/${item.buildId}/schedule` : `/operations/${item.operationId}` })),
      ...off.filter((one) => isOn(one, day)).map((one) => ({ fromMs: one.fromMs, times: timesOn(one, day, timeZone), what: kind === 'person' ? 'not there' : 'closed', href: '' })),
    ].toSorted((one, other) => one.fromMs - other.fromMs),
  })
  const groups = rows.map(toGroup).filter(({ lines }) => lines.length > 0)
  return { date: day.date, name: `${writeDay(day.date)}${day.date === today ? ', today' : ''}`, groups, empty: 'Nothing is planned.' }
}

const wordsOf = (item: RowItem, kind: ShopRow['kind'], timeZone: string): string => `${item.build} ${item.what}${kind === 'bay' || kind === 'outside' ? `, ${untilWords(item, kind, timeZone)}` : ''}`
