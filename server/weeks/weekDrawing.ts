import type { Span } from '../../web/schedule/barsData.ts'
import type { WeekDrawing } from '../../web/schedule/weekData.ts'
import { writeDay } from '../../web/shared/day.ts'
import type { Stretch } from '../calc/schedule/shopTicks.ts'
import { toTimeAxis } from '../calc/schedule/timeAxis.ts'
import type { OpenDays } from '../schedule/openDays.ts'
import { momentWords } from '../schedule/planWords.ts'
import type { ShopRow } from './weekRows.ts'

const [WIDTH, LEFT] = [1122, 150]
const [HEAD, ROW, FOOT] = [44, 48, 28]
/** Of the narrow lettering, on the wide side. */
const LETTER = 8.4
const NARROWEST_WITH_WORDS = 54
const NAME_LETTERS = 19

interface Given {
  readonly openDays: OpenDays
  readonly today: string
  readonly nowMs: number
  readonly build: string
}

/** People on one sheet, bays and outside finishers on the next, each under its own days. */
export function drawWeek(rows: readonly ShopRow[], given: Given): WeekDrawing[] {
  const sheets = [['People', rows.filter(({ kind }) => kind === 'person')], ['Bays and outside', rows.filter(({ kind }) => kind !== 'person')]] as const
  return sheets.filter(([, own]) => own.length > 0).map(([name, own]) => drawSheet(name, own, given))
}

function drawSheet(name: string, rows: readonly ShopRow[], { openDays: { days, timeZone }, today, nowMs, build }: Given): WeekDrawing {
  const axis = toTimeAxis(days, LEFT, WIDTH - 2)
  const span = ({ fromMs, toMs }: Stretch, least = 2): Span => {
    const from = axis.x(fromMs)
    return [from, Math.max(least, Math.round((axis.x(toMs) - from) * 10) / 10)]
  }
  return {
    name, width: WIDTH, height: HEAD + rows.length * ROW + FOOT, left: LEFT,
    days: axis.days.map(({ date, left, width, isOpen }) => ({ x: left, width, isOpen, isToday: date === today, text: isOpen ? `${writeDay(date).split(' ').slice(0, 2).join(' ')}${date === today ? ', today' : ''}` : '' })),
    rows: rows.map((row, place) => ({
      y: HEAD + place * ROW, name: inLines(row.name),
      bars: row.kind === 'outside' ? [] : row.items.map((item) => ({ span: span(item), lines: wordsIn(item.lines, span(item)[1]), kind: build === '' ? 'plain' as const : item.buildId === build ? 'own' as const : 'other' as const })),
      logged: row.logged.filter(({ kind }) => kind === 'work').map((one) => span(one, 1)), rework: row.logged.filter(({ kind }) => kind === 'rework').map((one) => span(one, 1)),
      off: row.off.map((one) => ({ span: span(one), text: span(one)[1] < 60 ? '' : row.kind === 'bay' ? 'closed' : 'not there' })),
      away: row.kind === 'outside' ? row.items.map((item) => ({ span: span(item), text: item.lines[0] })) : [],
    })),
    now: nowMs < days[0]!.fromMs || nowMs >= days.at(-1)!.toMs ? null : { x: axis.x(nowMs), text: `now, ${momentWords(timeZone, nowMs)}` },
  }
}

function inLines(name: string): string[] {
  if (name.length <= NAME_LETTERS) return [name]
  const at = name.lastIndexOf(' ', NAME_LETTERS)
  const [first, rest] = at < 1 ? [name.slice(0, NAME_LETTERS), name.slice(NAME_LETTERS)] : [name.slice(0, at), name.slice(at + 1)]
  return [first, cut(rest, NAME_LETTERS)]
}

function wordsIn(lines: readonly string[], width: number): string[] {
  if (width < NARROWEST_WITH_WORDS) return []
  const letters = Math.floor((width - 8) / LETTER)
  const number = /^[A-Z]-\d+/.exec(lines[0] ?? '')?.[0] ?? ''
  return lines.map((line, place) => (line.length > letters && place === 0 && number !== '' && letters < 12 ? number : cut(line, letters)))
}

const cut = (text: string, letters: number): string => (text.length <= letters ? text : `${text.slice(0, Math.max(letters - 1, 1)).trimEnd()}…`)
