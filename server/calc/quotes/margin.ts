import { scaleHalfAway } from '../rounding.ts'

/** Shares here are thousandths: 500 is 50 %. Markup is a share of the cost, margin a share of the price. */
const WHOLE = 1_000

/**
 * The margin that a markup gives: m ÷ (1 + m), in thousandths. Source: identity from the definitions, from memory.
 *
 * @example marginOfMarkup(500) // 333
 */
export function marginOfMarkup(markup: number): number {
  return scaleHalfAway(markup, WHOLE, WHOLE + markup)
}

/**
 * The markup that a margin takes: g ÷ (1 − g), in thousandths. Throws a RangeError for a margin of 100 % or more.
 *
 * @example markupOfMargin(250) // 333
 */
export function markupOfMargin(margin: number): number {
  return scaleHalfAway(margin, WHOLE, underWhole(margin))
}

/**
 * Price at a markup on the cost, in minor units.
 *
 * @example priceAtMarkup(10000, 500) // 15000
 */
export function priceAtMarkup(costMinor: number, markup: number): number {
  return scaleHalfAway(costMinor, WHOLE + markup, WHOLE)
}

/**
 * Price that leaves a margin, in minor units. Throws a RangeError for a margin of 100 % or more.
 *
 * @example priceAtMargin(10000, 500) // 20000
 */
export function priceAtMargin(costMinor: number, margin: number): number {
  return scaleHalfAway(costMinor, WHOLE, underWhole(margin))
}

/**
 * Margin in thousandths of the price; null when there is no price to be a share of.
 *
 * @example marginOf(10000, 15000) // 333
 */
export function marginOf(costMinor: number, priceMinor: number): number | null {
  return priceMinor === 0 ? null : scaleHalfAway(priceMinor - costMinor, WHOLE, priceMinor)
}

/**
 * Markup in thousandths of the cost; null when there is no cost to be a share of.
 *
 * @example markupOf(10000, 15000) // 500
 */
export function markupOf(costMinor: number, priceMinor: number): number | null {
  return costMinor === 0 ? null : scaleHalfAway(priceMinor - costMinor, WHOLE, costMinor)
}

function underWhole(margin: number): number {
  if (margin >= WHOLE) throw new RangeError('a margin is less than the whole price')
  return WHOLE - margin
}
