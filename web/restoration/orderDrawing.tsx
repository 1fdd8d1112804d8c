import { counted, escapeHtml } from '../shared/text.ts'

export interface DrawnThing {
  /** Left upper corner. */
  readonly x: number
  readonly y: number
  readonly number: string
  readonly name: string
  /** The name as it fits into the box. */
  readonly lines: readonly string[]
  /** Its place in the list beside the drawing. */
  readonly step: number | undefined
  /** Must come out for what was chosen, stands as it is, or lies outside of what is looked at. */
  readonly emphasis: 'on' | 'plain' | 'off'
  readonly isBuilt: boolean
  readonly isChosen: boolean
  /** Out of the vehicle: only its place is there. */
  readonly isOut: boolean
}

export interface DrawnLine {
  readonly points: readonly { readonly x: number, readonly y: number }[]
  readonly isOn: boolean
  readonly isLoose: boolean
}

export interface PlacedDrawing {
  readonly width: number
  readonly height: number
  readonly boxWidth: number
  readonly boxHeight: number
  readonly things: readonly DrawnThing[]
  readonly lines: readonly DrawnLine[]
}

export type OrderDrawingData =
  | { readonly kind: 'too large', readonly count: number }
  | {
    readonly kind: 'drawn'
    /** With names, and for narrow windows with numbers only. */
    readonly big: PlacedDrawing
    readonly small: PlacedDrawing
    /** Numbers of what no rule is about. */
    readonly free: readonly string[]
    /** Things of other zones that stand in front and would make it too large. */
    readonly hidden: number
  }

/** An order of removal drawn, first out on top; the list beside it says the same. */
export function OrderDrawing({ name, drawing }: { name: string, drawing: OrderDrawingData }): JSX.Element {
  if (drawing.kind === 'too large') {
    return <p>{drawing.count} things with rules between them: too many to be read in one drawing. Choose a zone, or a part in the list.</p>
  }
  const { big, small, free, hidden } = drawing
  return (
    <>
      <Drawn name={name} placed={big} isBig />
      <Drawn name={name} placed={small} />
      <p class="quiet on-screen narrow-only">Numbers only in a narrow window; the list has the names.</p>
      {hidden === 0 ? '' : <p class="quiet">{escapeHtml(counted(hidden, 'thing', 'things'))} of other zones in front of these: in the list, not in the drawing.</p>}
      {free.length === 0 ? '' : <p class="quiet">No rule is about {escapeHtml(free.join(', '))}.</p>}
    </>
  )
}

function Drawn({ name, placed, isBig = false }: { name: string, placed: PlacedDrawing, isBig?: boolean }): JSX.Element {
  const { width, height, things } = placed
  const of = (emphasis: DrawnThing['emphasis']): DrawnThing[] => things.filter((thing) => thing.emphasis === emphasis)
  return (
    <svg class={['order', isBig ? 'big-order' : 'small-order']} viewBox={`-8 -10 ${width + 20} ${height + 22}`} width={String(width + 20)} role="group" aria-label={`${name}, drawn: first out on top`}>
      <Lines lines={placed.lines} isBig={isBig} />
      {(['off', 'plain', 'on'] as const).map((emphasis) => of(emphasis).length === 0 ? '' : (
        <g class={emphasis}>{of(emphasis).map((thing) => <Box thing={thing} placed={placed} isBig={isBig} />)}</g>
      ))}
      {things.filter(({ isChosen }) => isChosen).map(({ x, y }) => <path class="ring" d={ringAround(x, y, placed.boxWidth, placed.boxHeight)} />)}
    </svg>
  )
}

function Lines({ lines, isBig }: { lines: readonly DrawnLine[], isBig: boolean }): JSX.Element {
  const kinds = [[false, false], [false, true], [true, false], [true, true]] as const
  return (
    <>
      {kinds.map(([isOn, isLoose]) => {
        const own = lines.filter((line) => line.isOn === isOn && line.isLoose === isLoose)
        return own.length === 0 ? '' : <path class={['edge', isOn && 'thick', isLoose && 'loose']} d={own.map(({ points }) => corners(points, isBig)).join('')} />
      })}
      {[false, true].map((isOn) => {
        const own = lines.filter((line) => line.isOn === isOn)
        return own.length === 0 ? '' : <path class={['tip', isOn && 'thick']} d={own.map(({ points }) => tip(points, isBig)).join('')} />
      })}
    </>
  )
}

// The line ends under its arrow head, so that its end does not stick out of the point.
function corners(points: DrawnLine['points'], isBig: boolean): string {
  return points.map(({ x, y }, index) => {
    const before = points[index - 1]
    if (!before) return `M${x} ${y}`
    if (before.y === y) return `H${x}`
    return `V${index === points.length - 1 ? y - (isBig ? 5 : 4) : y}`
  }).join('')
}

function tip(points: DrawnLine['points'], isBig: boolean): string {
  const end = points.at(-1)
  if (!end) return ''
  return isBig ? `M${end.x} ${end.y}l-4-9h8z` : `M${end.x} ${end.y}l-3-7h6z`
}

function Box({ thing, placed: { boxWidth: width, boxHeight: height }, isBig }: { thing: DrawnThing, placed: PlacedDrawing, isBig: boolean }): JSX.Element {
  const { x, y, number, name, lines, step, isBuilt, isOut } = thing
  const edge = isBuilt ? (isBig ? 13 : 7) : 0
  const left = x + edge + (isBig ? 8 : isBuilt ? 3 : 6)
  return (
    <a href={`?of=${number}`} aria-label={isBig ? false : `${number} ${name}`}>
      <path class={isOut ? 'gone' : undefined} d={`M${x} ${y}h${width}v${height}h${-width}z`} />
      {isBuilt ? <path class="made" d={`M${x + 2} ${y + 2}h${edge}v${height - 4}h${-edge}z`} /> : ''}
      <text class="num" x={left} y={y + (isBig ? 18 : 21)} safe>{number}</text>
      {isBig ? <Words lines={lines} step={step} left={left} right={x + width - 7} top={y} /> : ''}
    </a>
  )
}

function Words({ lines, step, left, right, top }: { lines: readonly string[], step: number | undefined, left: number, right: number, top: number }): JSX.Element {
  return (
    <>
      {step === undefined ? '' : <text class="step" x={right} y={top + 18}>{step}</text>}
      {lines.map((line, index) => <text x={left} y={top + 36 + index * 17} safe>{line}</text>)}
    </>
  )
}

/** A ring as a pencil draws it: not quite closed, not quite round. */
function ringAround(x: number, y: number, width: number, height: number): string {
  const [middle, right, bottom] = [y + height / 2, x + width, y + height]
  const across = (share: number): number => Math.round(x + width * share)
  return `M${x - 5} ${middle}C${x - 7} ${y - 9} ${across(0.35)} ${y - 8} ${across(0.6)} ${y - 7}S${right + 9} ${y - 4} ${right + 6} ${middle}S${across(0.7)} ${bottom + 8} ${across(0.4)} ${bottom + 7}S${x - 8} ${bottom + 7} ${x - 6} ${middle - 5}`
}

/** What the lines and boxes mean. */
export function OrderKey(): JSX.Element {
  return (
    <p class="key">
      <span><svg class="order" width="30" height="14" aria-hidden="true"><path class="edge" d="M1 7H22" /><path class="tip" d="M30 7l-9-4v8z" /></svg> out before</span>
      <span><svg class="order" width="30" height="14" aria-hidden="true"><path class="edge loose" d="M1 7H22" /><path class="tip" d="M30 7l-9-4v8z" /></svg> loosened before</span>
      <span><svg class="order" width="30" height="16" aria-hidden="true"><g class="on"><path class="box" d="M1 1h27v14h-27z" /></g></svg> must come out</span>
      <span><svg class="order" width="30" height="16" aria-hidden="true"><path class="box" d="M1 1h27v14h-27z" /><path class="made" d="M2 2h9v12h-9z" /></svg> put in by the shop</span>
      <span><svg class="order" width="30" height="16" aria-hidden="true"><path class="box gone" d="M1 1h27v14h-27z" /></svg> out: only its place</span>
      <span><svg class="order" width="34" height="18" aria-hidden="true"><ellipse class="ring" cx="17" cy="9" rx="15" ry="7" /></svg> chosen</span>
    </p>
  )
}
