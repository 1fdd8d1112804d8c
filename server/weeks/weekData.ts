import type { ShopWeekData, WeekDay } from '../../web/schedule/weekData.ts'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { addDays, startOfWeek } from '../calc/calendar.ts'
import { loadShopFacts, printOf } from '../schedule/facts.ts'
import { loadOpenDays, type OpenDays } from '../schedule/openDays.ts'
import { loadPlanInForce } from '../schedule/planStore.ts'
import { momentWords } from '../schedule/planWords.ts'
import type { Reads } from '../shared/database/database.ts'
import { clockTimeIn } from '../shared/shopTime.ts'
import { drawWeek } from './weekDrawing.ts'
import { toShopRows, type ShopRow } from './weekRows.ts'
import { loadFinishersOf, loadWeekHours } from './weekStore.ts'

const DAYS_A_WEEK = 7

interface Asked {
  readonly week: string | undefined
  readonly build: string | undefined
  readonly now: Date
}

export async function shopWeekData(reads: Reads, viewer: Viewer, { week, build = '', now }: Asked): Promise<ShopWeekData> {
  const monday = startOfWeek(week ?? await firstDay(reads, viewer.today, now))
  const own = (date: string): string => `/schedule/week?${new URLSearchParams({ week: date, ...(build === '' ? {} : { build }) }).toString()}`
  const head = {
    title: `Week of ${writeDay(monday)}`, week: monday, earlierHref: own(addDays(monday, -DAYS_A_WEEK)), laterHref: own(addDays(monday, DAYS_A_WEEK)),
    links: [{ name: 'Schedule', href: '/schedule' }, { name: 'Load by department', href: '/schedule/load' }],
  }
  const inForce = await loadPlanInForce(reads)
  if (inForce === null) return { ...head, empty: 'No plan is in force yet. Plan the shop and take the plan; the week stands here then, by person, bay and outside finisher.', takenAt: '', isStale: false, build: '', builds: [], drawn: [], days: [] }
  const { content } = inForce
  const openDays = await loadOpenDays(reads, monday, addDays(monday, DAYS_A_WEEK - 1))
  const { timeZone, days } = openDays
  const hours = await loadWeekHours(reads, new Date(days[0]!.fromMs), new Date(days.at(-1)!.toMs))
  const finishers = await loadFinishersOf(reads, content.work.filter(({ dueBackAt }) => dueBackAt !== null).map(({ operationId }) => operationId))
  const rows = toShopRows({ content, openDays, hours, finishers, now })
  const chosen = content.builds.some(({ buildId }) => buildId === build) ? build : ''
  return {
    ...head, empty: '', takenAt: momentWords(timeZone, inForce.takenAt.getTime()), isStale: printOf(await loadShopFacts(reads, now)) !== inForce.print,
    build: chosen, builds: content.builds.map(({ buildId, name }) => ({ id: buildId, name })),
    drawn: drawWeek(rows, { openDays, today: viewer.today, nowMs: now.getTime(), build: chosen }),
    days: days.filter(({ open, fromMs, toMs }) => open !== null || rows.some(({ kind, items }) => kind === 'person' && items.some((item) => item.fromMs < toMs && item.toMs > fromMs))).map((day) => toDay(day, rows, openDays, viewer.today)),
  }
}

/** Today, or where the shop does not open again this week the day on which it does: on a Saturday, Monday. */
async function firstDay(reads: Reads, today: string, now: Date): Promise<string> {
  const { days } = await loadOpenDays(reads, today, addDays(today, DAYS_A_WEEK))
  return days.find(({ open }) => open !== null && open.toMs > now.getTime())?.date ?? today
}

function toDay({ date, fromMs, toMs }: OpenDays['days'][number], rows: readonly ShopRow[], { timeZone }: OpenDays, today: string): WeekDay {
  const clock = (at: number): string => clockTimeIn(timeZone, new Date(at))
  const on = (one: { readonly fromMs: number, readonly toMs: number }): boolean => one.fromMs < toMs && one.toMs > fromMs
  return {
    name: `${writeDay(date)}${date === today ? ', today' : ''}`, empty: 'Nothing is planned.',
    rows: rows.flatMap(({ kind, name, items, off }) => [
      ...items.filter(on).map((item) => ({ who: name, what: item.what, href: item.href, times: kind === 'person' ? `${clock(item.fromMs)} to ${clock(item.toMs)}` : '' })),
      ...off.filter(on).map((one) => ({ who: name, what: kind === 'bay' ? 'closed' : 'not there', href: '', times: kind === 'bay' ? '' : `${clock(Math.max(one.fromMs, fromMs))} to ${clock(Math.min(one.toMs, toMs))}` })),
    ]),
  }
}
