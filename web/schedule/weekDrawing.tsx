import { Now } from './barsDrawing.tsx'
import type { Span } from './barsData.ts'
import type { WeekDrawing, WeekRowDrawn } from './weekData.ts'

/** As the rows are laid out: where days end, the top of the bars and how tall they are. */
const [HEAD, FOOT, TOP, TALL] = [44, 28, 6, 16]

/** One sheet of the week: a row for each person, bay, machine or finisher, the days across, what is done in words under its bars. */
export function DrawnWeek({ drawn }: { drawn: WeekDrawing }): JSX.Element {
  const { name, width, height, left, days, rows, now } = drawn
  const foot = height - FOOT
  const box = (spans: readonly (readonly [y: number, span: Span])[], tall = TALL): string => spans.map(([y, [x, wide]]) => `M${x} ${y}h${wide}v${tall}h${-wide}z`).join('')
  const of = (pick: (row: WeekRowDrawn) => readonly Span[], top = TOP) => rows.flatMap((row) => pick(row).map((span) => [row.y + top, span] as const))
  const bars = (kind: WeekRowDrawn['bars'][number]['kind']) => rows.flatMap((row) => row.bars.filter((bar) => bar.kind === kind).map(({ span, y }) => [row.y + y, span] as const))
  const away = rows.flatMap((row) => row.away.map(({ span, y }) => [row.y + y, span] as const))
  return (
    <figure class="bar-sheet">
      <figcaption safe>{name}</figcaption>
      <svg class="bars" viewBox={`0 0 ${width} ${height}`} width="100%" role="img" aria-label={`${name}; the lists by day say the same`}>
        <path class="shut" d={days.filter(({ isOpen }) => !isOpen).map(({ x, width: wide }) => `M${x} ${HEAD}h${wide}V${foot}h${-wide}z`).join('')} />
        <path class="rule" d={[...days.map(({ x }) => `M${x} 8V${foot}`), ...rows.slice(1).map(({ y }) => `M0 ${y}H${width}`)].join('')} />
        <path class="bar other" d={box(bars('other'))} />
        <path class="bar" d={box(bars('plain'))} />
        <path class="bar thick" d={box(bars('own'))} />
        <path class="off" d={box(of((row) => row.off.map(({ span }) => span)))} />
        <path class="cures" d={away.map(([y, [x, wide]]) => `M${x} ${y}h${wide}`).join('')} />
        <path class="tick" d={away.map(([y, [x, wide]]) => `M${x} ${y - 6}v12M${x + wide} ${y - 6}v12`).join('')} />
        <path class="did" d={box(of((row) => row.logged, TOP + TALL), 4)} />
        <path class="again" d={box(of((row) => row.rework, TOP + TALL - 1), 6)} />
        {now === null ? '' : <Now x={now.x} text={now.text} foot={foot} isLeft={now.x > width - 200} />}
        {days.map(({ x, text, isToday, isOpen }) => <text class={isToday ? 'today' : isOpen ? 'day' : 'day sub-label'} x={x + 6} y="28" safe>{text}</text>)}
        {rows.map((row) => <Words row={row} />)}
        <path class="frame" d={`M0 ${HEAD}H${width}M0 ${foot}H${width}M${left} 8V${foot}`} />
      </svg>
    </figure>
  )
}

function Words({ row: { y, name, lines, off } }: { row: WeekRowDrawn }): JSX.Element {
  return (
    <>
      {name.map((line, place) => <text x="2" y={y + 20 + 17 * place} safe>{line}</text>)}
      {lines.map(({ x, y: under, text, kind, isEnd }) => <text class={['line', kind === 'other' && 'sub-label', isEnd && 'end']} x={x} y={y + under} safe>{text}</text>)}
      {off.map(({ span: [x], text }) => text === '' ? '' : <text class="line sub-label" x={x + 8} y={y + 19} safe>{text}</text>)}
    </>
  )
}
