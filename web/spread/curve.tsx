import { writeHours } from '../shared/amount.ts'

export interface CurvePoint {
  readonly percent: number
  readonly seconds: number
}

const [LEFT, RIGHT, TOP, BASE] = [44, 326, 14, 150]
const MARKED = [50, 80, 90]

/** How many in 100 cases end inside so many hours; hatched from even chance to 80. The table beside it says the same. */
export function ChanceCurve({ points, estimatedS }: { points: readonly CurvePoint[], estimatedS: number }): JSX.Element {
  const [first, last] = [points[0], points.at(-1)]
  if (!first || !last || last.seconds === first.seconds) return ''
  const from = Math.min(first.seconds, estimatedS)
  const width = Math.max(last.seconds, estimatedS) - from
  const x = (seconds: number): number => Math.round((LEFT + (RIGHT - LEFT) * (seconds - from) / width) * 10) / 10
  const y = (percent: number): number => Math.round((BASE - (BASE - TOP) * percent / 100) * 10) / 10
  const line = (some: readonly CurvePoint[]): string => some.map(({ percent, seconds }, index) => `${index === 0 ? 'M' : 'L'}${x(seconds)} ${y(percent)}`).join('')
  const band = points.filter(({ percent }) => percent >= 50 && percent <= 80)
  const marked = points.filter(({ percent }) => MARKED.includes(percent))
  return (
    <svg class="chances" viewBox="-8 0 360 196" width="100%" role="img" aria-label={`Chance of ending inside: ${marked.map(({ percent, seconds }) => `${percent} in 100 by ${writeHours(seconds)} h`).join(', ')}`}>
      <path class="band" d={`${line(band)}V${BASE}H${x(band[0]?.seconds ?? from)}z`} />
      <path class="base" d={`M${LEFT} ${TOP}V${BASE}H${RIGHT}`} />
      {marked.map(({ percent, seconds }) => <path class="dash" d={`M${LEFT} ${y(percent)}H${x(seconds)}V${BASE}`} />)}
      {marked.map(({ percent }) => <text class="end" x={LEFT - 6} y={y(percent) + 5}>{percent}</text>)}
      <path class="curve" d={line(points)} />
      {marked.map(({ seconds }, index) => <text class="middle" x={x(seconds)} y={BASE + 20 + 18 * (index % 2)} safe>{writeHours(seconds)}</text>)}
      <path class="chain" d={`M${x(estimatedS)} ${BASE}V${TOP}`} />
      <text class="scale end" x={LEFT - 6} y="12">in 100</text>
      <text class="scale" x={RIGHT + 6} y={BASE + 5}>h</text>
    </svg>
  )
}
