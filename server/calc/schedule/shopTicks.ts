import type { ShopFacts } from './shopProblem.ts'

/** From one instant to another, in milliseconds since 1970. */
export interface Stretch {
  readonly fromMs: number
  readonly toMs: number
}

/** 1 for each tick that lies wholly in somebody's hours, 0 for the others. Source: common practice, no source. */
export function hoursByTick(hours: readonly Stretch[], { fromMs, tickMs, horizonTicks }: Pick<ShopFacts, 'fromMs' | 'tickMs' | 'horizonTicks'>): Int16Array {
  const there = new Int16Array(horizonTicks)
  for (const stretch of hours) {
    const first = Math.max(0, Math.ceil((stretch.fromMs - fromMs) / tickMs))
    const end = Math.min(horizonTicks, Math.floor((stretch.toMs - fromMs) / tickMs))
    if (first < end) there.fill(1, first, end)
  }
  return there
}
