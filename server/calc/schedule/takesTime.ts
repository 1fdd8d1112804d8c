/** How far a build is agreed on and begun. */
export interface BuildStanding {
  readonly stage: string
  /** The customer has agreed to an amount. */
  readonly isAgreed: boolean
  /** Some operation of it is no longer “not started”. */
  readonly isBegun: boolean
  readonly hasQuote: boolean
}

const BEFORE_ORDER = ['intake', 'scope', 'quote']

/**
 * Whether the open work of a build takes people’s time, on the bench and in the plan of the shop. From the order on it
 * does until it is delivered: whoever moves the stage on says so. While a quote is out it does not, unless the customer
 * has agreed or work on it has begun; a day named in a quote is none that is kept free. Before any quote is written it
 * does: many small jobs are agreed by word.
 *
 * Source: ours, no source.
 *
 * @example takesTime({ stage: 'quote', isAgreed: false, isBegun: false, hasQuote: true }) // false
 */
export function takesTime({ stage, isAgreed, isBegun, hasQuote }: BuildStanding): boolean {
  if (stage === 'delivered') return false
  if (!BEFORE_ORDER.includes(stage) || isAgreed || isBegun) return true
  return stage !== 'quote' && !hasQuote
}
