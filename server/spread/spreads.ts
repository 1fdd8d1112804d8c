import type { BuildFigures } from '../builds/figures.ts'
import { drawCases, toSpread, type Spread } from '../calc/estimate/spread.ts'
import type { HourHistory } from '../calc/estimate/hourHistory.ts'
import { toQuestion, toUnsureLabor, type LearnedOf, type UnsureLabor } from '../calc/estimate/unsureLabor.ts'

/**
 * Operations of one build have people, material and customer in common: an assumption of ours, no source, where the shop has
 * set nothing else; to be changed on the page.
 */
export const USUAL_TOGETHER_THOUSANDTHS = 300

export interface Sized {
  readonly labor: UnsureLabor
  readonly spread: Spread
}

/** One build three times: person-seconds with and without rework, and minor units of price. */
export interface Spreads {
  readonly togetherThousandths: number
  readonly withRework: Sized
  readonly withoutRework: Sized
  readonly price: Sized
  readonly estimatedS: number
  readonly operationCount: number
}

/** The spread of what has no three values comes from the shop's hours, where it has closed operations of the kind. */
export function spreadsOf({ costing }: BuildFigures, togetherThousandths: number, history: HourHistory): Spreads {
  const { operations, total } = costing.estimate
  const learnedOf: LearnedOf = ({ operation: { kind, departmentId } }) => history.of(kind, departmentId)
  const cases = drawCases(togetherThousandths)
  const sized = (labor: UnsureLabor): Sized => ({ labor, spread: toSpread(toQuestion(labor, togetherThousandths), cases) })
  return {
    togetherThousandths,
    withRework: sized(toUnsureLabor(operations, 'with rework', { learnedOf })), withoutRework: sized(toUnsureLabor(operations, 'without rework', { learnedOf })),
    price: sized(toUnsureLabor(operations, 'price', { learnedOf, beyond: costing.build.priceMinor - total.sums.sellMinor })),
    estimatedS: total.sums.laborS, operationCount: operations.length,
  }
}
