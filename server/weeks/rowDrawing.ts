import type { Span } from '../../web/schedule/barsData.ts'
import type { WeekLineDrawn, WeekRowDrawn } from '../../web/schedule/weekData.ts'
import type { Stretch } from '../calc/schedule/shopTicks.ts'
import type { TimeAxis } from '../calc/schedule/timeAxis.ts'
import type { OpenDays } from '../schedule/openDays.ts'
import { clockTimeIn } from '../shared/shopTime.ts'
import { fitNarrow, narrowWidth } from './narrowText.ts'
import type { RowItem, ShopRow } from './weekRows.ts'
import { untilWords } from './weekWords.ts'

export const [LEFT, RIGHT] = [150, 1120]
/** Of the lettering, of the room above the bars, from one lane of them to the next, from one line of words to the next. */
const [SIZE, NAME_SIZE, TOP, LANE, LINE] = [14, 16, 6, 20, 15.5]
/** What is away needs a line of words over its dots. */
const AWAY = 34
const NARROWEST = 60

export interface DrawnOn {
  readonly axis: TimeAxis
  readonly openDays: OpenDays
  /** The build in thick ink; empty for none. */
  readonly build: string
}

/** A row at the head of a sheet, and how tall it is. */
export function drawRow(row: ShopRow, on: DrawnOn): { readonly drawn: WeekRowDrawn, readonly height: number } {
  const name = inLines(row.name)
  const lanes = lanesOf(row)
  const isAway = row.kind === 'outside'
  const laneHeight = isAway ? AWAY : LANE
  const wordsFrom = isAway ? 0 : TOP + LANE * lanes.length + 14
  const lines = isAway ? awayLines(row, on) : row.kind === 'bay' ? stackedLines(row, on, wordsFrom) : dayLines(row, on, wordsFrom)
  const lowest = Math.max(TOP + laneHeight * lanes.length, ...lines.map(({ y }) => y))
  const span = toSpan(on.axis)
  const bars = lanes.flatMap((items, lane) => items.map((item) => ({ span: span(item), top: TOP + laneHeight * lane, kind: kindOf(item, on.build) })))
  return {
    height: Math.max(lowest + 7, 26 + 17 * (name.length - 1)),
    drawn: {
      y: 0, name, lines, bars: isAway ? [] : bars.map(({ top, ...rest }) => ({ ...rest, y: top })), away: isAway ? bars.map(({ span: own, top }) => ({ span: own, y: top + 18 })) : [],
      logged: row.logged.filter(({ kind }) => kind === 'work').map((one) => span(one, 1)), rework: row.logged.filter(({ kind }) => kind === 'rework').map((one) => span(one, 1)),
      off: row.off.map((one) => ({ span: span(one), text: row.kind === 'person' || span(one)[1] < NARROWEST ? '' : 'closed' })),
    },
  }
}

const toSpan = (axis: TimeAxis) => ({ fromMs, toMs }: Stretch, least = 2): Span => {
  const from = axis.x(fromMs)
  return [from, Math.max(least, Math.round((axis.x(toMs) - from) * 10) / 10)]
}

const kindOf = ({ buildId }: RowItem, build: string): 'own' | 'plain' | 'other' => (build === '' ? 'plain' : buildId === build ? 'own' : 'other')

/** What runs at once stands in lanes, as two printers do; each thing that is away in one of its own. */
function lanesOf({ kind, items }: ShopRow): (readonly RowItem[])[] {
  if (kind === 'outside') return items.map((item) => [item])
  const lanes: RowItem[][] = [[]]
  for (const item of items) {
    const free = lanes.find((lane) => (lane.at(-1)?.toMs ?? -Infinity) <= item.fromMs)
    if (free === undefined) lanes.push([item])
    else free.push(item)
  }
  return lanes
}

/** Under each day what begins or goes on on it, in order. */
function dayLines({ kind, items, off }: ShopRow, { axis, openDays: { days, timeZone }, build }: DrawnOn, from: number): WeekLineDrawn[] {
  return axis.days.flatMap(({ left, width }, place) => {
    const day = days[place]!
    if (width < NARROWEST) return []
    const words = [
      ...items.filter((one) => one.fromMs < day.toMs && one.toMs > day.fromMs).map((item) => ({ at: item.fromMs, text: `${item.fromMs < day.fromMs ? 'still' : clockTimeIn(timeZone, new Date(item.fromMs))} ${item.build} ${item.short}`, kind: kindOf(item, build) })),
      ...(kind === 'person' ? off : []).filter((one) => one.fromMs < day.toMs && one.toMs > day.fromMs).map(({ fromMs, toMs }) => {
        const isAllDay = day.open !== null && fromMs <= day.open.fromMs && toMs >= day.open.toMs
        return { at: isAllDay ? day.fromMs : fromMs, text: isAllDay ? 'not there' : `${clockTimeIn(timeZone, new Date(fromMs))} not there`, kind: 'other' as const }
      }),
    ].toSorted((one, other) => one.at - other.at)
    return words.map(({ text, kind: of }, line) => ({ x: left + 6, y: from + LINE * line, text: fitNarrow(text, width - 8, SIZE), kind: of, isEnd: false }))
  })
}

/** Under the bars of a bay, each with its own line of words. */
const stackedLines = ({ items }: ShopRow, on: DrawnOn, from: number): WeekLineDrawn[] => items.map((item, place) => wordsAt(item, 'bay', on, from + LINE * place))

const awayLines = ({ items }: ShopRow, on: DrawnOn): WeekLineDrawn[] => items.map((item, place) => wordsAt(item, 'outside', on, TOP + AWAY * place + 10))

/** From where it begins, or where that leaves too little room up to the edge. */
function wordsAt(item: RowItem, kind: 'bay' | 'outside', { axis, openDays: { timeZone }, build }: DrawnOn, y: number): WeekLineDrawn {
  const text = `${item.build} ${item.what}, ${untilWords(item, kind, timeZone)}`
  const x = axis.x(item.fromMs) + 5
  const isEnd = x + narrowWidth(text, SIZE) > RIGHT
  return { x: isEnd ? RIGHT - 4 : x, y, text: fitNarrow(text, RIGHT - LEFT - 12, SIZE), kind: kindOf(item, build), isEnd }
}

function inLines(name: string): string[] {
  const room = LEFT - 8
  if (narrowWidth(name, NAME_SIZE) <= room) return [name]
  const words = name.split(' ')
  const fitting = words.findLastIndex((_, place) => narrowWidth(words.slice(0, place + 1).join(' '), NAME_SIZE) <= room) + 1
  if (fitting === 0) return [fitNarrow(name, room, NAME_SIZE)]
  return [words.slice(0, fitting).join(' '), fitNarrow(words.slice(fitting).join(' '), room, NAME_SIZE)]
}
