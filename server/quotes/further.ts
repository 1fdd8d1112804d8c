import { suppliesOf } from '../calc/quotes/quoteLines.ts'
import { priceTimes } from '../calc/money.ts'
import { addExactly } from '../calc/rounding.ts'
import type { BuildFigures } from '../builds/figures.ts'
import { pricesOf } from './pricing.ts'
import type { StoredQuote } from './store.ts'

/** What a quote asks beside the estimate, in minor units without tax; lines of all options count. */
export interface Further {
  readonly suppliesMinor: number
  readonly linesMinor: number
}

const isBegun = ({ build: { quote } }: StoredQuote): boolean => quote !== null && quote.removedAt === null

/** Whether there is a quote, or a line of one. */
export const hasFurther = (stored: StoredQuote): boolean => isBegun(stored) || stored.build.quoteLines.length > 0

export function furtherOf(stored: StoredQuote, figures: BuildFigures): Further {
  const { build, terms } = stored
  return {
    suppliesMinor: isBegun(stored) ? suppliesOf(pricesOf(figures, stored).baseLaborMinor, { shareThousandths: terms.suppliesShare, mostMinor: terms.suppliesMost }) : 0,
    linesMinor: addExactly(build.quoteLines.map(({ price, quantity }) => priceTimes(price, quantity))),
  }
}
