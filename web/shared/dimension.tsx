import { writeHours } from './amount.ts'

/** Seconds; the consent is left out where the customer's consent names no hours. */
export interface HoursDrawn {
  readonly estimate: number
  readonly logged: number
  readonly forecast: number
  readonly consent?: number | undefined
}

interface Ruler {
  readonly left: number
  readonly width: number
  /** Seconds at the right end. */
  readonly end: number
  readonly base: number
}

const HOUR_S = 3600

/** Hours as a dimension of a drawing: estimate full, forecast dashed, consent chained, logged by hand. */
export function Dimension({ hours }: { hours: HoursDrawn }): JSX.Element {
  const most = Math.max(hours.estimate, hours.logged, hours.forecast, hours.consent ?? 0, HOUR_S)
  const label = [
    `Hours: logged ${writeHours(hours.logged)}`, `estimate ${writeHours(hours.estimate)}`, `forecast ${writeHours(hours.forecast)}`,
    ...(hours.consent === undefined ? [] : [`consent ${writeHours(hours.consent)}`]),
  ].join(', ')
  return (
    <>
      <svg class="dimension for-bench" viewBox="0 0 900 124" width="100%" role="img" aria-label={label}>
        <Drawing hours={hours} ruler={{ left: 20, width: 780, end: most * 1.02, base: 90 }} ticks={10} />
      </svg>
      <svg class="dimension for-hand" viewBox="0 0 352 118" width="100%" role="img" aria-label={label}>
        <Drawing hours={hours} ruler={{ left: 10, width: 322, end: most * 1.04, base: 84 }} ticks={4} />
      </svg>
    </>
  )
}

function Drawing({ hours, ruler, ticks }: { hours: HoursDrawn, ruler: Ruler, ticks: number }): JSX.Element {
  const { left, base } = ruler
  const [estimate, forecast, logged] = [hours.estimate, hours.forecast, hours.logged].map((seconds) => place(seconds, ruler)) as [number, number, number]
  return (
    <>
      <Scale ruler={ruler} ticks={ticks} />
      <rect class="logged" x={left} y={base - 15} width={Math.max(logged - left, 0)} height="11" />
      {logged < left + ruler.width * 0.7 ? <text class="logged" x={logged + 8} y={base - 5} safe>{`logged ${writeHours(hours.logged)}`}</text> : ''}
      <path class="ink" d={`M${left} ${base}V14M${estimate} ${base}V38M${forecast} ${base}V14`} />
      <path class="ink" d={`M${left} ${base - 42}H${estimate}`} />
      <path class="dash" d={`M${left} ${base - 68}H${forecast}`} />
      <path class="tip" d={tips(left, estimate, base - 42) + tips(left, forecast, base - 68)} />
      <text class="middle" x={middle(left, estimate)} y={base - 47} safe>{`estimate ${writeHours(hours.estimate)}`}</text>
      <text class="middle" x={middle(left, forecast)} y={base - 73} safe>{`forecast ${writeHours(hours.forecast)}`}</text>
      {hours.consent === undefined ? '' : <path class="chain" d={`M${place(hours.consent, ruler)} ${base + 6}V4`} />}
      {hours.consent === undefined || ruler.width < 400 ? '' : <text x={place(hours.consent, ruler) + 8} y="17" safe>{`consent ${writeHours(hours.consent)}`}</text>}
    </>
  )
}

function Scale({ ruler, ticks }: { ruler: Ruler, ticks: number }): JSX.Element {
  const { left, width, end, base } = ruler
  const step = roundStep(end / HOUR_S / ticks)
  const hours = Array.from({ length: Math.floor(end / HOUR_S / step) + 1 }, (_, index) => index * step)
  return (
    <>
      <path class="base" d={`M${left} ${base}H${left + width}`} />
      <path class="ink" d={hours.map((hour) => `M${place(hour * HOUR_S, ruler)} ${base}v7`).join('')} />
      {hours.map((hour) => <text class="scale middle" x={place(hour * HOUR_S, ruler)} y={base + 24}>{hour}</text>)}
    </>
  )
}

const place = (seconds: number, { left, width, end }: Ruler): number => Math.round((left + width * seconds / end) * 10) / 10

// Half of a label's width, so that one over a line of no length is not cut off at the edge.
const HALF_LABEL = 52
const middle = (from: number, to: number): number => Math.max((from + to) / 2, from + HALF_LABEL)

/** Arrowheads at both ends; none where the line is too short for them. */
function tips(from: number, to: number, y: number): string {
  return to - from < 26 ? '' : `M${to} ${y}l-11-4v8zM${from} ${y}l11-4v8z`
}

/** The next of 1, 2, 4, 5, 10, 20 … hours, so that the scale reads easily. */
function roundStep(hours: number): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(hours, 1)))
  return ([1, 2, 4, 5].find((factor) => factor * power >= hours) ?? 10) * power
}
