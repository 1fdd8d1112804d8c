import type { Placing } from './placing.ts'
import type { End } from './problem.ts'

/** Weighted ticks of delay, and the ticks at which all that is waited for ends: the smaller is better, in this order. */
export interface Worth {
  readonly delay: number
  readonly ends: number
}

/**
 * What a plan is worth: for all that is waited for, the ticks after its due tick by weight, and the sum of the ticks at
 * which it ends; coming early earns nothing. Source: total weighted tardiness, from memory; the second measure is ours.
 *
 * @example due at 10 with weight 2, done at 13: a delay of 6
 */
export function worthOf(ends: readonly End[], { end }: Placing): Worth {
  let delay = 0
  let sum = 0
  for (const { activity, dueTick, weight } of ends) {
    delay += weight * Math.max(0, end[activity]! - dueTick)
    sum += end[activity]!
  }
  return { delay, ends: sum }
}

/** Less delay is better; where it is the same, the earlier ends. Source: ours, no source. */
export const isBetter = (one: Worth, other: Worth): boolean => one.delay < other.delay || (one.delay === other.delay && one.ends < other.ends)
