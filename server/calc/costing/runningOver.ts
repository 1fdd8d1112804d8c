import type { OperationCosting } from './costRows.ts'

/** From more than this share of the estimate on somebody has to say what is still to do; for the whole shop. */
export const NEARLY_USED_THOUSANDTHS = 800

/** Person-seconds: over by so much, or so much left of an estimate that is nearly used. */
export type RunningOver =
  | { readonly state: 'over', readonly overS: number }
  | { readonly state: 'nearly used', readonly leftS: number }

interface Judged extends Pick<OperationCosting, 'remainingSource'> {
  readonly operation: { readonly state: string }
  readonly figures: Pick<OperationCosting['figures'], 'estimatedS' | 'loggedS' | 'forecastS'>
}

/**
 * Whether an operation that is not done runs over its estimate, or is about to and nobody has said what is left.
 * Null where there is nothing to say. The estimate includes the allowance for rework.
 *
 * Source: common practice, no source.
 * @example estimate 4 h, logged 3.5 h, no figure of the technician's: nearly used, 0.5 h left
 */
export function findRunningOver({ operation, remainingSource, figures }: Judged): RunningOver | null {
  const { estimatedS, loggedS, forecastS } = figures
  if (operation.state === 'done') return null
  if (forecastS > estimatedS) return { state: 'over', overS: forecastS - estimatedS }
  const isNearlyUsed = loggedS * 1000 > estimatedS * NEARLY_USED_THOUSANDTHS
  return isNearlyUsed && remainingSource === 'estimate less logged' ? { state: 'nearly used', leftS: estimatedS - loggedS } : null
}
