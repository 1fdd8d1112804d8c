import type { BarsData, BuildPlan } from '../../web/schedule/barsData.ts'
import { counted } from '../../web/shared/text.ts'
import { addDays, daysBetween } from '../calc/calendar.ts'
import { toOpenTime, type OpenTime } from '../calc/schedule/openTime.ts'
import type { Reads } from '../shared/database/database.ts'
import { shopOf } from '../shared/access.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import { loadShopFacts } from '../schedule/facts.ts'
import { printOf } from '../schedule/prints.ts'
import { loadOpenDays, type OpenDays } from '../schedule/openDays.ts'
import { loadPlanInForce, type PlanInForce } from '../schedule/planStore.ts'
import { drawBars, type Mark } from './barsDrawing.ts'
import { groupWork, toGroups, type NumberedWork, type WorkGroup } from './barRows.ts'
import { loadBarred, type Barred } from './barsStore.ts'
import { findInPlan, type BuildInPlan } from './buildInPlan.ts'
import { dayWords, endDay, momentWords } from '../schedule/planWords.ts'

/** More rows make another page. */
const MOST_ROWS = 110
/** So many days are drawn beyond the last work for a mark that comes later; one that comes later still is only said. */
const MOST_BEYOND_DAYS = 28
const DAYS_OF_OPEN_TIME = 400
/** What is too late by weeks is so in open hours before the plan as well. */
const DAYS_BEFORE = 120

export interface BuildOnPage {
  readonly inForce: PlanInForce
  readonly plan: BuildInPlan
  readonly barred: Barred
  readonly numbered: readonly NumberedWork[]
  readonly groups: readonly WorkGroup[]
  readonly open: OpenTime
  readonly openDays: OpenDays
}

/** One build in the plan in force; null where none is in force or nothing of the build is in it. */
export async function loadBuildOnPage(reads: Reads, buildId: string): Promise<BuildOnPage | null> {
  const inForce = await loadPlanInForce(reads)
  if (inForce === null) return null
  const { timeZone } = await shopOf(reads)
  const first = calendarDateIn(timeZone, new Date(inForce.content.fromAt))
  const around = await loadOpenDays(reads, addDays(first, -DAYS_BEFORE), addDays(first, DAYS_OF_OPEN_TIME))
  const openDays = { ...around, days: around.days.slice(DAYS_BEFORE) }
  const barred = await loadBarred(reads, buildId, new Date(openDays.days[0]!.fromMs))
  const open = toOpenTime(around.open)
  const plan = findInPlan(inForce.content, buildId, {
    waits: new Map([...barred.operations].map(([id, { wait }]) => [id, wait])), single: new Set(openDays.shopDay.machines.filter(({ count }) => count === 1).map(({ id }) => id)), open,
  })
  if (plan === null) return null
  const groups = groupWork(plan.work, barred)
  return { inForce, plan, barred, groups, numbered: groups.flatMap(({ rows }) => rows), open, openDays }
}

interface Asked {
  readonly now: Date
  readonly show: 'all' | 'chain'
  readonly page: number
}

export async function toBarsData(reads: Reads, build: { readonly id: string, readonly name: string }, { now, show, page }: Asked): Promise<BarsData> {
  const found = await loadBuildOnPage(reads, build.id)
  const head = { build: build.name, buildHref: `/builds/${build.id}`, title: 'The build by the plan' }
  if (found === null) {
    const isPlanned = await loadPlanInForce(reads) !== null
    return { ...head, plan: null, empty: isPlanned ? 'The plan the shop works by holds nothing of this build: all its work was done when it was made, or it was not in the shop then.' : 'No plan is in force yet. Once the shop is planned and the plan is taken, every operation of this build stands here with its day.' }
  }
  const { inForce, plan, barred, groups, numbered, open, openDays } = found
  const { content } = inForce
  const { timeZone } = openDays
  const own = content.builds.find(({ buildId }) => buildId === build.id)
  const chances = own?.chances ?? null
  const marks = marksOf(plan, chances, timeZone)
  const { days, beyond } = daysOf(openDays, plan, marks)
  const views = show === 'chain' ? [inOrder(groups, plan)] : pagesOf(groups)
  const shown = views[Math.min(page, views.length) - 1] ?? []
  const numbers = new Map(numbered.map(({ number, work }) => [work.operationId, number]))
  return {
    ...head, empty: '',
    plan: {
      takenAt: momentWords(timeZone, inForce.takenAt.getTime()), isStale: printOf(await loadShopFacts(reads, now)) !== inForce.print,
      endsOn: own?.endsAt ? endDay(timeZone, plan.endMs) : '', promisedOn: plan.dueMs === null ? '' : endDay(timeZone, plan.dueMs), ...againstPromise(plan, timeZone),
      chances: chances === null ? [] : [{ name: 'Even chance', day: dayOf(chances.even, timeZone) }, { name: '80 in 100', day: dayOf(chances.in80, timeZone) }, { name: '90 in 100', day: dayOf(chances.in90, timeZone) }],
      chain: chainWords(found, numbers), beyond,
      leftOut: content.leftOut.filter(({ buildId }) => buildId === build.id).map(({ why }) => why),
      drawn: drawBars(shown, { plan, barred, days, marks: marks.filter(({ ms }) => ms <= days.at(-1)!.toMs), nowMs: now.getTime(), timeZone, title: `${build.name} · ${rangeWords(shown, { show, count: numbered.length })} · plan taken ${momentWords(timeZone, inForce.takenAt.getTime())}` }),
      groups: toGroups(shown, { content, plan, barred, open, timeZone, numbers, machines: openDays.shopDay.machines }),
      views: viewsOf(build.id, { show, page, pages: pagesOf(groups) }), address: '',
    },
  }
}

const dayOf = (instant: string, timeZone: string): string => endDay(timeZone, Date.parse(instant))

function marksOf({ dueMs }: BuildInPlan, chances: PlanInForce['content']['builds'][number]['chances'], timeZone: string): Mark[] {
  const mark = (kind: Mark['kind'], words: string, ms: number): Mark => ({ kind, ms, text: `${words}, ${dayWords(timeZone, ms - 1)}` })
  return [
    ...(chances === null ? [] : [mark('chance', 'even chance', Date.parse(chances.even)), mark('chance', '80 in 100', Date.parse(chances.in80)), mark('chance', '90 in 100', Date.parse(chances.in90))]),
    ...(dueMs === null ? [] : [mark('promise', 'promised', dueMs)]),
  ]
}

/** The days from the plan's beginning to the last work and, where they are not far, the marks. */
function daysOf({ days, timeZone }: OpenDays, { endMs }: BuildInPlan, marks: readonly Mark[]): { days: OpenDays['days'], beyond: string } {
  const last = calendarDateIn(timeZone, new Date(endMs - 1))
  const dated = marks.map((mark) => ({ ...mark, date: calendarDateIn(timeZone, new Date(mark.ms - 1)) }))
  const near = dated.filter(({ date }) => daysBetween(last, date) <= Math.min(MOST_BEYOND_DAYS, Math.max(7, daysBetween(days[0]!.date, last))))
  const to = [last, ...near.map(({ date }) => date)].reduce((one, other) => (one > other ? one : other))
  const far = dated.filter((mark) => !near.some(({ ms, text }) => ms === mark.ms && text === mark.text))
  return { days: days.slice(0, daysBetween(days[0]!.date, to) + 1), beyond: far.map(({ text }) => text).join('; ') }
}

function againstPromise({ endMs, dueMs }: BuildInPlan, timeZone: string): { against: string, isLate: boolean } {
  if (dueMs === null) return { against: 'no date promised', isLate: false }
  const spare = daysBetween(calendarDateIn(timeZone, new Date(endMs - 1)), calendarDateIn(timeZone, new Date(dueMs - 1)))
  if (spare < 0) return { against: `${counted(-spare, 'day', 'days')} late by the plan`, isLate: true }
  return { against: spare === 0 ? 'on the day by the plan' : `${counted(spare, 'day', 'days')} to spare by the plan`, isLate: false }
}

function chainWords({ plan: { work, chain, endMs }, open, openDays: { timeZone }, inForce }: BuildOnPage, numbers: ReadonlyMap<string, number>): string {
  const own = work.filter(({ operationId }) => chain.has(operationId))
  const elsewhere = chain.size - own.length
  const first = own[0]
  if (first === undefined) return ''
  const startMs = Date.parse(first.startsAt)
  const waited = open.before(startMs) > Math.max(open.before(Date.parse(inForce.content.fromAt)), 0)
  return [
    `${counted(own.length, 'operation has', 'operations have')} no slack: ${own.map(({ operationId }) => numbers.get(operationId)).join(' → ')}, from ${momentWords(timeZone, startMs)} to the end on ${dayWords(timeZone, endMs - 1)}.`,
    waited ? 'Before that something cures, is away, comes later, or somebody is not there, which leaves those before it some slack.' : '',
    elsewhere === 0 ? '' : `${counted(elsewhere, 'operation', 'operations')} of other builds belong to it, because somebody or a bay only comes free after them.`,
  ].filter((words) => words !== '').join(' ')
}

function pagesOf(groups: readonly WorkGroup[]): WorkGroup[][] {
  const pages: WorkGroup[][] = [[]]
  let count = 0
  for (const group of groups) {
    for (let from = 0; from < group.rows.length; from += MOST_ROWS) {
      const rows = group.rows.slice(from, from + MOST_ROWS)
      if (count > 0 && count + rows.length > MOST_ROWS) {
        pages.push([])
        count = 0
      }
      pages.at(-1)!.push({ zone: group.zone, rows })
      count += rows.length
    }
  }
  return pages
}

/** Which of the operations are on these sheets: on paper nothing else says that there are more. */
function rangeWords(groups: readonly WorkGroup[], { show, count }: { readonly show: Asked['show'], readonly count: number }): string {
  const rows = groups.flatMap((group) => group.rows)
  if (show === 'chain') return 'only the chain'
  return rows.length === count ? 'all operations' : `operations ${rows[0]?.number ?? 1} to ${rows.at(-1)?.number ?? 1} of ${count}`
}

function inOrder(groups: readonly WorkGroup[], { chain }: BuildInPlan): WorkGroup[] {
  const rows = groups.flatMap((group) => group.rows).filter(({ work }) => chain.has(work.operationId))
  return [{ zone: 'The chain, in order', rows: rows.toSorted((one, other) => Date.parse(one.work.startsAt) - Date.parse(other.work.startsAt)) }]
}

function viewsOf(buildId: string, { show, page, pages }: { show: Asked['show'], page: number, pages: readonly (readonly WorkGroup[])[] }): BuildPlan['views'] {
  const own = (query: string): string => `/builds/${buildId}/schedule${query}`
  const all = pages.map((groups, place) => {
    const rows = groups.flatMap((group) => group.rows)
    return { name: pages.length === 1 ? 'All operations' : `Operations ${rows[0]?.number ?? 1} to ${rows.at(-1)?.number ?? 1}`, href: own(place === 0 ? '' : `?page=${place + 1}`), isShown: show === 'all' && Math.min(page, pages.length) === place + 1 }
  })
  return [...all, { name: 'Only the chain', href: own('?show=chain'), isShown: show === 'chain' }]
}
