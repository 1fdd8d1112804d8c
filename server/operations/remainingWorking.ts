import type { Working, WorkingInput } from '../calc/amounts.ts'
import type { OperationCosting } from '../calc/costing/costRows.ts'

const SAYS = {
  'done': 'nothing: it is done', 'technician': 'the technician’s own figure', 'estimate less logged': 'estimate − logged, never below 0',
} as const satisfies Record<OperationCosting['remainingSource'], string>

/** What remains of one operation, and where that comes from. */
export function remainingOfOperation({ label, figures, remainingSource }: Pick<OperationCosting, 'label' | 'figures' | 'remainingSource'>): Working {
  const time = (name: string, source: string, value: number): WorkingInput => ({ label: name, source, amount: { kind: 'time', value } })
  return {
    title: `${label}: person-hours remaining`,
    inputs: remainingSource === 'technician' ? [time('Remaining', 'technician’s own figure', figures.remainingS)]
      : [time('Estimate', 'operation', figures.estimatedS), time('Logged', 'time entries, work and rework', figures.loggedS)],
    result: { kind: 'time', value: figures.remainingS }, formula: SAYS[remainingSource],
    assumed: 'Nobody is faster or slower than estimated from here on.', source: 'common practice, no source',
  }
}
