import type { BarsDrawing, DrawnRow, Span } from '../../web/schedule/barsData.ts'
import { weekdayOf } from '../calc/calendar.ts'
import { labelledDays, toTimeAxis, type AxisDay, type TimeAxis } from '../calc/schedule/timeAxis.ts'
import { writeDay } from '../../web/shared/day.ts'
import type { Barred } from './barsStore.ts'
import type { WorkGroup } from './barRows.ts'
import { waitAfterMs, type BuildInPlan } from './buildInPlan.ts'
import { momentWords } from '../schedule/planWords.ts'

const [WIDTH, LEFT] = [1122, 300]
const [HEAD, ROW, MARK, FOOT] = [30, 24, 18, 28]
const LONGEST_LABEL = 38
/** Lines that fit on a sheet lying across, with their axis: the first stands under the head of the page. */
const [FIRST_LINES, MOST_LINES] = [13, 26]
const [DAY_LABEL, WEEK_LABEL] = [62, 56]

export interface Mark {
  readonly ms: number
  readonly kind: 'promise' | 'chance'
  readonly text: string
}

export interface DrawnPlan {
  readonly plan: BuildInPlan
  readonly barred: Barred
  readonly days: readonly AxisDay[]
  readonly marks: readonly Mark[]
  readonly nowMs: number
  readonly timeZone: string
  /** Over each sheet, so that it stands by itself. */
  readonly title: string
}

/** The rows on sheets, each short enough for a page. */
export function drawBars(groups: readonly WorkGroup[], drawn: DrawnPlan): BarsDrawing[] {
  const axis = toTimeAxis(drawn.days, LEFT, WIDTH - 2)
  const sheets = sheetsOf(groups, FIRST_LINES - Math.ceil(drawn.marks.length * MARK / ROW))
  return sheets.map((sheet, place) => ({ ...drawSheet(sheet, axis, drawn, place === 0), name: `${drawn.title} · ${place + 1} of ${sheets.length}` }))
}

/** A group goes on on the next sheet under its name again; no name stands alone at the foot. */
function sheetsOf(groups: readonly WorkGroup[], first: number): WorkGroup[][] {
  const sheets: WorkGroup[][] = [[]]
  let lines = MOST_LINES - first
  for (const { zone, rows } of groups) {
    for (let from = 0; from < rows.length;) {
      if (lines + 2 > MOST_LINES) {
        sheets.push([])
        lines = 0
      }
      const own = rows.slice(from, from + MOST_LINES - lines - 1)
      sheets.at(-1)!.push({ zone, rows: own })
      lines += own.length + 1
      from += own.length
    }
  }
  return sheets
}

function drawSheet(groups: readonly WorkGroup[], axis: TimeAxis, { plan, barred, days, marks, nowMs, timeZone }: DrawnPlan, isFirst: boolean): Omit<BarsDrawing, 'name'> {
  const shown = isFirst ? marks : marks.map((mark) => ({ ...mark, text: '' }))
  let y = HEAD + (isFirst ? marks.length * MARK : 0)
  const heads: { y: number, text: string }[] = []
  const rows: DrawnRow[] = []
  const span = (fromMs: number, toMs: number, least = 2.5): Span => {
    const from = axis.x(fromMs)
    return [from, Math.max(least, Math.round((axis.x(toMs) - from) * 10) / 10)]
  }
  for (const group of groups) {
    heads.push({ y, text: group.zone })
    y += ROW
    for (const { number, work } of group.rows) {
      const [start, end] = [Date.parse(work.startsAt), Date.parse(work.endsAt)]
      const waitMs = waitAfterMs(work, barred.operations.get(work.operationId)?.wait ?? 0)
      const logged = loggedSpans(work.operationId, barred, days, nowMs)
      const isOut = work.dueBackAt !== null
      rows.push({
        number, y, label: labelOf(work.shortName), bar: span(start, end), isOnChain: plan.chain.has(work.operationId),
        logged: logged.filter(({ kind }) => kind === 'work').map(({ from, to }) => span(from, to, 1)), rework: logged.filter(({ kind }) => kind === 'rework').map(({ from, to }) => span(from, to, 1)),
        wait: waitMs > 0 && !isOut ? span(end, end + waitMs) : null, outside: waitMs > 0 && isOut ? span(end, end + waitMs) : null,
      })
      y += ROW
    }
  }
  const isByDay = axis.days.filter(({ isOpen }) => isOpen).every(({ width }) => width >= DAY_LABEL)
  const labels = labelledDays(axis.days, isByDay ? DAY_LABEL : WEEK_LABEL, (date) => isByDay || weekdayOf(date) === 1)
  return {
    width: WIDTH, height: y + FOOT, left: LEFT, heads, rows,
    days: axis.days.map(({ left, width, isOpen }) => ({ x: left, width, isOpen })),
    labels: labels.map(({ left, date }) => ({ x: left, text: writeDay(date).split(' ').slice(isByDay ? 0 : 1, 3).join(' ') })),
    marks: shown.map(({ ms, kind, text }, line) => ({ x: axis.x(ms), kind, text, line, isLeft: axis.x(ms) > WIDTH - 240 })),
    now: nowMs < days[0]!.fromMs || nowMs > days.at(-1)!.toMs ? null : { x: axis.x(nowMs), text: `now, ${momentWords(timeZone, nowMs)}` },
  }
}

interface Logged {
  readonly kind: string
  readonly from: number
  readonly to: number
}

/** Hours noted after the fact have no time of day: they stand from the opening of their day on. */
function loggedSpans(operationId: string, { entries, timers }: Barred, days: readonly AxisDay[], nowMs: number): Logged[] {
  const openingOf = new Map(days.flatMap(({ fromMs, open }) => (open === null ? [] : [[fromMs, open.fromMs] as const])))
  const running = timers.filter((timer) => timer.operationId === operationId).map(({ kind, startedAt }) => ({ kind, from: startedAt.getTime(), to: Math.max(nowMs, startedAt.getTime()) }))
  return [...entries.filter((entry) => entry.operationId === operationId).map(({ kind, startedAt, seconds }) => {
    const from = openingOf.get(startedAt.getTime()) ?? startedAt.getTime()
    return { kind, from, to: from + seconds * 1000 }
  }), ...running]
}

/** Where it is too long, the item is cut and not what is done to it. */
function labelOf(shortName: string): string {
  if (shortName.length <= LONGEST_LABEL) return shortName
  const [item = shortName, kind = ''] = shortName.split(/, (?=[^,]*$)/)
  return `${item.slice(0, Math.max(LONGEST_LABEL - kind.length - 3, 8)).trimEnd()}…, ${kind}`
}
