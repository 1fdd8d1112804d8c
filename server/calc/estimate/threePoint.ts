import { Refusal, toWhole } from '../refusal.ts'
import { scaleHalfAway } from '../rounding.ts'

/** Seconds of one piece: when all goes well, most likely, and when all goes wrong. */
export interface ThreePoint {
  readonly bestS: number
  readonly likelyS: number
  readonly worstS: number
}

/** The published lecture prints expected times and variances of nine activities. */
export const THREE_POINT_SOURCE = 'PERT, as in a published lecture (G. Chopra et al.)'

/**
 * Six times the expected time, (O + 4 M + P), whole so that it is divided and rounded only once. Seconds.
 * Refuses values that are not in order, best ≤ most likely ≤ worst.
 *
 * Source: PERT, as in a published lecture (G. Chopra et al.).
 * @example sixfoldMean({ bestS: 3, likelyS: 6, worstS: 15 }) // 42
 */
export function sixfoldMean({ bestS, likelyS, worstS }: ThreePoint): number {
  toWhole(bestS, 0, 'The time at best')
  if (!(bestS <= likelyS && likelyS <= worstS)) throw new Refusal('The time at best is no longer than the most likely one, and that no longer than the one at worst.')
  return bestS + 4 * likelyS + worstS
}

/**
 * The expected time (O + 4 M + P) ÷ 6, in seconds, rounded half away from zero.
 *
 * Source: PERT, as in a published lecture (G. Chopra et al.).
 * @example meanOf({ bestS: 21600, likelyS: 43200, worstS: 108000 }) // 50400
 */
export function meanOf(three: ThreePoint): number {
  return scaleHalfAway(sixfoldMean(three), 1, 6)
}

/**
 * One standard deviation of several operations together, in seconds, from the (P − O) of each (all pieces, all people):
 * √Σ ((P − O) ÷ 6)². Half of a second counts up.
 *
 * The operations are taken as independent; the deviation of a beta distribution through the same values is another.
 * Source: PERT, as in a published lecture (G. Chopra et al.).
 * @example deviationOf([12, 24, 12, 6]) // 5
 */
export function deviationOf(ranges: readonly number[]): number {
  const squares = ranges.reduce((sum, range) => sum + BigInt(range) * BigInt(range), 0n)
  return roundedRoot(squares)
}

/** √(squares ÷ 36) to the whole, exact at any size. */
function roundedRoot(squares: bigint): number {
  const isReached = (value: bigint): boolean => (2n * value - 1n) ** 2n * 9n <= squares
  let root = BigInt(Math.floor(Math.sqrt(Number(squares)) / 6))
  while (root > 0n && !isReached(root)) root -= 1n
  while (isReached(root + 1n)) root += 1n
  return Number(root)
}
