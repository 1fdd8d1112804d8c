import type { WeekDrawing, WeekRowDrawn } from '../../web/schedule/weekData.ts'
import { writeDay } from '../../web/shared/day.ts'
import { toTimeAxis } from '../calc/schedule/timeAxis.ts'
import type { OpenDays } from '../schedule/openDays.ts'
import { momentWords } from '../schedule/planWords.ts'
import { drawRow, LEFT, RIGHT } from './rowDrawing.ts'
import type { ShopRow } from './weekRows.ts'

const WIDTH = 1122
const [HEAD, FOOT] = [44, 28]
/** Rows of one sheet lying across, the first under the head of the page. */
const [FIRST, NEXT] = [490, 650]

interface Given {
  readonly openDays: OpenDays
  readonly today: string
  readonly nowMs: number
  readonly build: string
  /** Over each sheet, so that it stands by itself on a wall. */
  readonly title: string
}

/** People first, then bays, machines and outside finishers, each on as many sheets as it takes, under its own days. */
export function drawWeek(rows: readonly ShopRow[], given: Given): WeekDrawing[] {
  const sheets: { name: string, rows: { drawn: WeekRowDrawn, height: number }[] }[] = []
  const on = { axis: toTimeAxis(given.openDays.days, LEFT, RIGHT), openDays: given.openDays, build: given.build }
  for (const [name, own] of [['People', rows.filter(({ kind }) => kind === 'person')], ['Bays, machines, outside', rows.filter(({ kind }) => kind !== 'person')]] as const) {
    let room = 0
    for (const row of own) {
      const placed = drawRow(row, on)
      if (room < placed.height) {
        sheets.push({ name, rows: [] })
        room = sheets.length === 1 ? FIRST : NEXT
      }
      sheets.at(-1)!.rows.push(placed)
      room -= placed.height
    }
  }
  return sheets.map(({ name, rows: own }, place) => drawSheet(`${name} · ${given.title} · ${place + 1} of ${sheets.length}`, own, given))
}

function drawSheet(name: string, placed: readonly { drawn: WeekRowDrawn, height: number }[], { openDays: { days, timeZone }, today, nowMs }: Given): WeekDrawing {
  const axis = toTimeAxis(days, LEFT, RIGHT)
  let y = HEAD
  const rows = placed.map(({ drawn, height }) => {
    const own = { ...drawn, y }
    y += height
    return own
  })
  return {
    name, width: WIDTH, height: y + FOOT, left: LEFT, rows,
    days: axis.days.map(({ date, left, width, isOpen }) => {
      const [weekday = '', day = ''] = writeDay(date).split(' ')
      return { x: left, width, isOpen, isToday: date === today, text: isOpen ? `${weekday} ${day}${date === today ? ', today' : ''}` : day }
    }),
    now: nowMs < days[0]!.fromMs || nowMs >= days.at(-1)!.toMs ? null : { x: axis.x(nowMs), text: `now, ${momentWords(timeZone, nowMs)}` },
  }
}
