import type { Working } from '../amounts.ts'
import type { OperationState } from '../estimate/operations.ts'
import { scaleHalfAway } from '../rounding.ts'

/** When the estimate of an operation counts as earned. */
export const EARNING_RULES = ['nothing until done', 'half at the start'] as const
export type EarningRule = typeof EARNING_RULES[number]

export interface EarnedValueInput {
  /** Value of what should be done by now; null when nothing was scheduled. */
  readonly plannedMinor: number | null
  readonly earnedMinor: number
  readonly actualMinor: number
  readonly budgetMinor: number
}

/** Null stands for "not defined": a division by zero has no answer. */
export interface EarnedValue extends EarnedValueInput {
  readonly costVarianceMinor: number
  readonly scheduleVarianceMinor: number | null
  readonly costIndexThousandths: number | null
  readonly scheduleIndexThousandths: number | null
  readonly atCompletionMinor: number | null
  readonly toCompleteMinor: number | null
  readonly varianceAtCompletionMinor: number | null
  /** Of the cost at completion; null when that is not defined. */
  readonly working: Working | null
}

/**
 * What an operation has earned of its estimate: all when done; before that nothing, or half once it has
 * been started (rounded half away from zero). @example earnedOf('running', 101, 'half at the start') // 51
 */
export function earnedOf(state: OperationState, estimatedMinor: number, rule: EarningRule): number {
  if (state === 'done') return estimatedMinor
  if (state === 'not started' || rule === 'nothing until done') return 0
  return scaleHalfAway(estimatedMinor, 1, 2)
}

/**
 * Earned value in minor units, indexes in thousandths. The cost at completion is budget × actual ÷ earned,
 * not budget ÷ the rounded index.
 *
 * Source: a published project-management teaching case (a fence of four sides).
 * @example earnedValue({ plannedMinor: 3000, earnedMinor: 2500, actualMinor: 2800, budgetMinor: 4000 }).atCompletionMinor // 4480
 */
export function earnedValue(input: EarnedValueInput, rule: EarningRule = 'nothing until done'): EarnedValue {
  const { plannedMinor, earnedMinor, actualMinor, budgetMinor } = input
  const costIndexThousandths = ratio(earnedMinor, 1000, actualMinor)
  const atCompletionMinor = costIndexThousandths === null ? null : ratio(budgetMinor, actualMinor, earnedMinor)
  return {
    ...input,
    costVarianceMinor: earnedMinor - actualMinor,
    scheduleVarianceMinor: plannedMinor === null ? null : earnedMinor - plannedMinor,
    costIndexThousandths,
    scheduleIndexThousandths: plannedMinor === null ? null : ratio(earnedMinor, 1000, plannedMinor),
    atCompletionMinor,
    toCompleteMinor: atCompletionMinor === null ? null : atCompletionMinor - actualMinor,
    varianceAtCompletionMinor: atCompletionMinor === null ? null : budgetMinor - atCompletionMinor,
    working: atCompletionMinor === null ? null : atCompletionWorking(input, rule, atCompletionMinor),
  }
}

const EARNED_IN_WORDS: Readonly<Record<EarningRule, string>> = {
  'nothing until done': 'estimate of what is done, nothing of the rest',
  'half at the start': 'estimate of what is done, half of what is started',
}

function ratio(value: number, times: number, by: number): number | null {
  return by === 0 ? null : scaleHalfAway(value, times, by)
}

function atCompletionWorking({ budgetMinor, actualMinor, earnedMinor }: EarnedValueInput, rule: EarningRule, result: number): Working {
  return {
    title: 'Cost at completion by earned value',
    inputs: [
      { label: 'Budget', source: 'estimate', amount: { kind: 'money', value: budgetMinor } },
      { label: 'Actual cost so far', source: 'logged hours', amount: { kind: 'money', value: actualMinor } },
      { label: 'Earned so far', source: EARNED_IN_WORDS[rule], amount: { kind: 'money', value: earnedMinor } },
    ],
    result: { kind: 'money', value: result },
    formula: 'budget × actual cost ÷ earned',
    assumed: 'What is left costs as much above or below its estimate as what is done.',
    source: 'a published project-management teaching case (a fence of four sides)',
  }
}
