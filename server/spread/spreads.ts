import type { BuildFigures } from '../builds/figures.ts'
import { toSpread, type Spread } from '../calc/spread.ts'
import { toQuestion, toUnsureLabor, type UnsureLabor } from '../calc/unsureLabor.ts'

/** Operations of one build have people, material and customer in common: an assumption of ours, no source, to be changed on the page. */
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

export function spreadsOf({ costing }: BuildFigures, togetherThousandths: number): Spreads {
  const { operations, total } = costing.estimate
  const sized = (labor: UnsureLabor): Sized => ({ labor, spread: toSpread(toQuestion(labor, togetherThousandths)) })
  return {
    togetherThousandths,
    withRework: sized(toUnsureLabor(operations, 'with rework')), withoutRework: sized(toUnsureLabor(operations, 'without rework')),
    price: sized(toUnsureLabor(operations, 'price', costing.build.priceMinor - total.sums.sellMinor)),
    estimatedS: total.sums.laborS, operationCount: operations.length,
  }
}
