import type { Stretch } from './shopTicks.ts'

/** Open time of a shop, counted from the beginning of the first stretch: its hours as one line without nights and days off. */
export interface OpenTime {
  /** Milliseconds of open time before an instant. */
  before(ms: number): number
  /** The last instant with no more open time before it than this: of a closed night, its morning. */
  lastWith(openMs: number): number
}

/**
 * Counts in the hours a shop is open. Stretches are in order and do not overlap; times are milliseconds. What lies beyond
 * the last stretch counts as open, so that far dates stay apart.
 *
 * Source: common practice, no source.
 *
 * @example toOpenTime([{ fromMs: 0, toMs: 8 }, { fromMs: 24, toMs: 32 }]).before(26) // 10
 */
export function toOpenTime(stretches: readonly Stretch[]): OpenTime {
  const sums: number[] = []
  let sum = 0
  for (const { fromMs, toMs } of stretches) {
    sums.push(sum)
    sum += toMs - fromMs
  }
  const lastEnd = stretches.at(-1)?.toMs ?? 0
  const place = (isAtOrBefore: (index: number) => boolean): number => {
    let [low, high] = [0, stretches.length]
    while (low < high) {
      const middle = (low + high) >> 1
      if (isAtOrBefore(middle)) low = middle + 1
      else high = middle
    }
    return low - 1
  }
  return {
    before(ms) {
      if (ms >= lastEnd) return sum + ms - lastEnd
      const index = place((at) => stretches[at]!.fromMs <= ms)
      // Before the first stretch time runs as it does behind the last.
      if (index < 0) return ms - stretches[0]!.fromMs
      const { fromMs, toMs } = stretches[index]!
      return sums[index]! + Math.min(ms, toMs) - fromMs
    },
    lastWith(openMs) {
      if (openMs >= sum) return lastEnd + openMs - sum
      const index = place((at) => sums[at]! <= openMs)
      return index < 0 ? stretches[0]!.fromMs + openMs : stretches[index]!.fromMs + openMs - sums[index]!
    },
  }
}
