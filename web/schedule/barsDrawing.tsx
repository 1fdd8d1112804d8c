import type { BarsDrawing, DrawnRow, Span } from './barsData.ts'

const [ROW, HEAD, MARK] = [24, 30, 18]

/** Bars of one sheet: ink is planned, thick without slack, pencil is logged, dots cure, hatching is away or done again. */
export function DrawnBars({ drawn }: { drawn: BarsDrawing }): JSX.Element {
  const { name, width, height, left, rows, now } = drawn
  const foot = height - 28
  const box = (spans: readonly { readonly y: number, readonly span: Span }[], top: number, tall: number): string => spans.map(({ y, span: [x, wide] }) => `M${x} ${y + top}h${wide}v${tall}h${-wide}z`).join('')
  const of = (pick: (row: DrawnRow) => readonly Span[]): { y: number, span: Span }[] => rows.flatMap((row) => pick(row).map((span) => ({ y: row.y, span })))
  return (
    <figure class="bar-sheet">
      <figcaption safe>{name}</figcaption>
      <svg class="bars" viewBox={`0 0 ${width} ${height}`} width="100%" role="group" aria-label={`${name}; the table below says the same`}>
        <Days drawn={drawn} foot={foot} />
        {drawn.heads.map(({ y, text }) => <text class="head" x="2" y={y + 17} safe>{text}</text>)}
        <path class="rule" d={rows.map(({ y }) => `M0 ${y + ROW}H${width}`).join('')} />
        <path class="bar" d={box(of(({ isOnChain, bar }) => (isOnChain ? [] : [bar])), 5, 14)} />
        <path class="bar thick" d={box(of(({ isOnChain, bar }) => (isOnChain ? [bar] : [])), 5, 14)} />
        <path class="away" d={box(of(({ outside }) => (outside === null ? [] : [outside])), 5, 14)} />
        <path class="cures" d={of(({ wait }) => (wait === null ? [] : [wait])).map(({ y, span: [x, wide] }) => `M${x} ${y + 12}h${wide}`).join('')} />
        <path class="did" d={box(of(({ logged }) => logged), 15, 4)} />
        <path class="again" d={box(of(({ rework }) => rework), 11, 8)} />
        {rows.map(({ number, y, label }) => <a href={`#r${number}`}><text class="no" x="30" y={y + 17}>{number}</text><text x="40" y={y + 17} safe>{label}</text></a>)}
        <Marks drawn={drawn} foot={foot} />
        {now === null ? '' : <Now x={now.x} text={now.text} foot={foot} isLeft={now.x > width - 200} />}
        <path class="frame" d={`M0 ${HEAD}H${width}M0 ${foot}H${width}M${left} 8V${foot}`} />
      </svg>
    </figure>
  )
}

function Days({ drawn: { days, labels }, foot }: { drawn: BarsDrawing, foot: number }): JSX.Element {
  return (
    <>
      <path class="shut" d={days.filter(({ isOpen }) => !isOpen).map(({ x, width }) => `M${x} ${HEAD}h${width}V${foot}h${-width}z`).join('')} />
      <path class="rule" d={days.map(({ x }) => `M${x} ${HEAD}V${foot}`).join('')} />
      {labels.map(({ x, text }) => <text class="day" x={x + 4} y="22" safe>{text}</text>)}
    </>
  )
}

function Marks({ drawn: { marks }, foot }: { drawn: BarsDrawing, foot: number }): JSX.Element {
  return (
    <>
      {marks.map(({ x, kind, text, line, isLeft }) => (
        <>
          <path class={kind} d={`M${x} ${HEAD}V${foot}`} />
          {text === '' ? '' : <text class={['halo', isLeft && 'end']} x={isLeft ? x - 6 : x + 6} y={HEAD + MARK * line + 15} safe>{text}</text>}
        </>
      ))}
    </>
  )
}

/** The plumb line: hung from the head, its bob at the foot. */
export function Now({ x, text, foot, isLeft }: { x: number, text: string, foot: number, isLeft: boolean }): JSX.Element {
  return (
    <>
      <path class="now" d={`M${x} ${HEAD - 6}V${foot + 4}`} />
      <path class="bob" d={`M${x} ${foot + 4}l-6 13h12z`} />
      <text class={['hand', isLeft && 'end']} x={isLeft ? x - 12 : x + 12} y={foot + 19} safe>{text}</text>
    </>
  )
}
