import type { Children } from '@kitajs/html'
import { writeHours } from './amount.ts'

/** Seconds. */
export interface BarHours {
  readonly setUp: number
  readonly run: number
  /** For rework, on top of set-up and run. */
  readonly allowance: number
  readonly logged: number
  /** Part of what is logged. */
  readonly rework: number
  /** Cure and outside work: drawn as a dashed line where nobody works. */
  readonly wait: number
}

const WIDTH = 170

export const estimateOf = ({ setUp, run, allowance }: BarHours): number => setUp + run + allowance

/** The longest operation fills the bar, so that all bars of a part share one scale. */
export function barScale(operations: readonly BarHours[]): number {
  return Math.max(...operations.map((hours) => Math.max(estimateOf(hours), hours.logged)), 3600)
}

/** Ink outline split at the set-up, pencil inside; what runs over sticks out, rework is hatched. */
export function OperationBar({ hours, scale }: { hours: BarHours, scale: number }): JSX.Element {
  const to = (seconds: number): number => Math.round(seconds / scale * (WIDTH - 4) * 10) / 10
  const [setUp, all, work, rework] = [to(hours.setUp), to(estimateOf(hours)), to(hours.logged - hours.rework), to(hours.rework)]
  return (
    <svg class="operation-bar" viewBox={`0 0 ${WIDTH} 26`} preserveAspectRatio="xMinYMid" role="img"
      aria-label={`${writeHours(hours.logged)} of ${writeHours(estimateOf(hours))} hours`}>
      {all > 0 ? <path class="plan-line" d={`M1 4h${all}v18h${-all}z`} /> : ''}
      {setUp > 0 && hours.run > 0 ? <path class="set-up" d={`M${1 + setUp} 4v18`} /> : ''}
      {all === 0 && hours.wait > 0 ? <path class="wait" d={`M1 13h${Math.min(to(hours.wait), WIDTH - 2)}`} /> : ''}
      {work > 0 ? <rect class="did" x="1" y="9" width={work} height="8" /> : ''}
      {rework > 0 ? <rect class="again" x={1 + work} y="9" width={rework} height="8" /> : ''}
    </svg>
  )
}

/** What the strokes of the bars mean. */
export function BarKey(): JSX.Element {
  return (
    <p class="key">
      <span><Sample><path class="plan-line" d="M1 1h44v12H1z" /><path class="set-up" d="M13 1v12" /></Sample> estimate: set-up, run</span>
      <span><Sample><path class="did" d="M1 3h44v8H1z" /></Sample> logged</span>
      <span><Sample><path class="again" d="M1 3h44v8H1z" /></Sample> of it rework</span>
    </p>
  )
}

function Sample({ children }: { children: Children }): JSX.Element {
  return <svg class="operation-bar sample" viewBox="0 0 46 14" aria-hidden="true">{children}</svg>
}

interface HourBarProps {
  readonly logged: number
  readonly forecast: number
  /** Seconds at the right end: one for all bars of a table. */
  readonly scale?: number
  /** The same figures stand beside it, so that nobody has to hear them twice. */
  readonly isBeside?: boolean
}

/** The longest bar of a table fills its column. */
export function hourScale(all: readonly { readonly logged: number | null, readonly forecast: number | null }[]): number {
  return Math.max(1, ...all.flatMap(({ logged, forecast }) => [logged ?? 0, forecast ?? 0]))
}

/** Logged against estimate in one line, for lists. */
export function HourBar({ logged, forecast, scale = Math.max(logged, forecast, 1), isBeside = false }: HourBarProps): JSX.Element {
  const to = (seconds: number): number => Math.round(seconds / scale * 116)
  const heard = isBeside ? { 'aria-hidden': 'true' as const } : { 'role': 'img', 'aria-label': `${writeHours(logged)} logged of ${writeHours(forecast)} hours` }
  return (
    <svg class="hour-bar" viewBox="0 0 120 14" preserveAspectRatio="none" {...heard}>
      <path class="plan-line" d={`M1 2h${to(forecast)}v10h${-to(forecast)}z`} />
      <rect class="did" x="1" y="5" width={to(logged)} height="4" />
    </svg>
  )
}
