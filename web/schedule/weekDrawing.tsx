import { Now } from './barsDrawing.tsx'
import type { Span } from './barsData.ts'
import type { WeekDrawing, WeekRowDrawn } from './weekData.ts'

const [HEAD, ROW, TOP, TALL] = [44, 48, 5, 32]

/** One sheet of the week: a row for each person or bay, the days across. */
export function DrawnWeek({ drawn }: { drawn: WeekDrawing }): JSX.Element {
  const { width, height, left, days, rows, now } = drawn
  const foot = height - 28
  const box = (spans: readonly (readonly [y: number, span: Span])[], tall = TALL): string => spans.map(([y, [x, wide]]) => `M${x} ${y}h${wide}v${tall}h${-wide}z`).join('')
  const of = (pick: (row: WeekRowDrawn) => readonly Span[], top = TOP) => rows.flatMap((row) => pick(row).map((span) => [row.y + top, span] as const))
  const bars = (kind: WeekRowDrawn['bars'][number]['kind']) => of((row) => row.bars.filter((bar) => bar.kind === kind).map(({ span }) => span))
  return (
    <svg class="bars" viewBox={`0 0 ${width} ${height}`} width="100%" role="img" aria-label={`${drawn.name}; the lists by day say the same`}>
      <path class="shut" d={days.filter(({ isOpen }) => !isOpen).map(({ x, width: wide }) => `M${x} ${HEAD}h${wide}V${foot}h${-wide}z`).join('')} />
      <path class="rule" d={[...days.map(({ x }) => `M${x} 8V${foot}`), ...rows.map(({ y }) => `M0 ${y + ROW}H${width}`)].join('')} />
      {days.map(({ x, text, isToday }) => text === '' ? '' : <text class={isToday ? 'today' : 'day'} x={x + 6} y="28" safe>{text}</text>)}
      <path class="off" d={box(of((row) => row.off.map(({ span }) => span)))} />
      <path class="bar other" d={box(bars('other'))} />
      <path class="bar" d={box(bars('plain'))} />
      <path class="bar thick" d={box(bars('own'))} />
      <path class="cures" d={of((row) => row.away.map(({ span }) => span), 33).map(([y, [x, wide]]) => `M${x} ${y}h${wide}`).join('')} />
      <path class="tick" d={of((row) => row.away.map(({ span }) => span), 26).map(([y, [x, wide]]) => `M${x} ${y}v14M${x + wide} ${y}v14`).join('')} />
      <path class="did" d={box(of((row) => row.logged, TOP + TALL), 5)} />
      <path class="again" d={box(of((row) => row.rework, TOP + TALL - 2), 8)} />
      {rows.map((row) => <Words row={row} />)}
      {now === null ? '' : <Now x={now.x} text={now.text} foot={foot} isLeft={now.x > width - 200} />}
      <path class="frame" d={`M0 ${HEAD}H${width}M0 ${foot}H${width}M${left} 8V${foot}`} />
    </svg>
  )
}

function Words({ row: { y, name, bars, off, away } }: { row: WeekRowDrawn }): JSX.Element {
  return (
    <>
      {name.map((line, place) => <text class={[place > 0 && 'sub-label']} x="2" y={y + 20 + 17 * place} safe>{line}</text>)}
      {bars.flatMap(({ span: [x], lines }) => lines.map((line, place) => line === '' ? '' : <text class={['halo', place > 0 && 'sub-label']} x={x + 5} y={y + TOP + 14 + 15 * place} safe>{line}</text>))}
      {off.map(({ span: [x], text }) => text === '' ? '' : <text class="halo sub-label" x={x + 8} y={y + 26} safe>{text}</text>)}
      {away.map(({ span: [x], text }) => <text class="halo" x={x + 6} y={y + 20} safe>{text}</text>)}
    </>
  )
}
