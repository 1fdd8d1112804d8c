/** An accepted change order, and how the build stood when it was frozen. Minor units, without tax. */
export interface MeasuredOrder {
  /** Below zero where it leaves something out. */
  readonly netMinor: number
  /** Price of the whole estimate. */
  readonly estimateMinor: number
  /** What the forecast lacked then, 0 or more. */
  readonly missingMinor: number
}

/**
 * What accepted change orders bring and the estimate does not hold, so that it has to be counted beside it. Of each,
 * as much is in the estimate as this had grown by, or the forecast lacked, when the order was frozen; the rest waits
 * until the estimate grows by as much. What is left out works the same way below zero. `quotedMinor` is the price of
 * the estimate on the accepted quote. Minor units; the orders in the order they were frozen.
 *
 * Source: common practice, no source: what makes the estimate grow is not known, only by how much.
 * @example besideEstimate(1000, [{ netMinor: 300, estimateMinor: 1000, missingMinor: 0 }], 1120) // 180
 */
export function besideEstimate(quotedMinor: number, orders: readonly MeasuredOrder[], estimateNowMinor: number): number {
  let beside = 0
  let before = quotedMinor
  for (const { netMinor, estimateMinor, missingMinor } of orders) {
    const grown = estimateMinor - before
    const left = towardZero(beside, grown)
    const unclaimed = grown - (beside - left)
    beside = left + towardZero(netMinor, netMinor > 0 ? Math.max(unclaimed, missingMinor) : unclaimed)
    before = estimateMinor
  }
  return towardZero(beside, estimateNowMinor - before)
}

/** An amount less what comes against it in the same direction, never past zero. */
function towardZero(amount: number, by: number): number {
  if (Math.sign(amount) !== Math.sign(by)) return amount
  return amount - Math.sign(amount) * Math.min(Math.abs(amount), Math.abs(by))
}
