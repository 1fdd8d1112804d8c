import { writeHours } from '../shared/amount.ts'
import { FigureCell } from '../shared/table.tsx'

interface StepTimeProps {
  /** F-041, E-05, P-400. */
  readonly number: string
  readonly depth: 'out' | 'loosened'
  readonly seconds: number
}

/** What a step takes: as it was noted, or for loosening a share of that. */
export function StepTime({ number, depth, seconds }: StepTimeProps): JSX.Element {
  return <FigureCell is="hours" text={writeHours(seconds, 2)} how={depth === 'out' ? 'recorded' : number} />
}
