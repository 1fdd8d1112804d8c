import type { Placing } from './placing.ts'
import type { End } from './problem.ts'

/** Weighted ticks of delay, and the ticks at which all that is waited for ends: the smaller is better, in this order. */
export interface Worth {
  readonly delay: number
  readonly ends: number
}

export function worthOf(ends: readonly End[], { end }: Placing): Worth {
  let delay = 0
  let sum = 0
  for (const { activity, dueTick, weight } of ends) {
    delay += weight * Math.max(0, end[activity]! - dueTick)
    sum += end[activity]!
  }
  return { delay, ends: sum }
}

export const isBetter = (one: Worth, other: Worth): boolean => one.delay < other.delay || (one.delay === other.delay && one.ends < other.ends)
