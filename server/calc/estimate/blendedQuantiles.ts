import { Refusal } from '../refusal.ts'

/** With so many values of its own a group counts as much as all groups together. */
export const EVEN_COUNT = 30

/** Values that a share of all cases does not exceed: one, or what is made of those in the middle of so many equal parts of all cases. */
export interface Quantiles {
  at(share: number): number
  evenly(count: number, made: (value: number) => number): Float64Array
}

/** The smallest first. */
type Sorted = readonly number[] | Float64Array

/**
 * The value that a share of all cases does not exceed, where cases fall like a group's own values and, as far as those are
 * few, like the values of all groups: own weight n ÷ (n + 30). Both sorted, the own ones among all. In the unit of
 * the values. A case equal to the value counts as inside. One case is still to come, so n values cut the line into
 * n + 1 parts; beyond the last of them the largest value stands.
 *
 * Refuses no values at all and values that are not sorted.
 * Source: empirical distribution functions, mixed; the 30 is ours, no source, checked by replaying a published log.
 * @example blendQuantiles([], [1, 2, 3, 4]).at(0.5) // 3
 */
export function blendQuantiles(own: Sorted, all: Sorted): Quantiles {
  const largest = all.at(-1)
  if (largest === undefined) throw new Refusal('Without any values there is no telling how they fall.')
  const weight = own.length / (own.length + EVEN_COUNT)
  const below = new Float64Array(all.length)
  let ownBelow = 0
  for (const [index, value] of all.entries()) {
    if (value < (all[index - 1] ?? value)) throw new Refusal('Values are sorted, the smallest first.')
    while ((own[ownBelow] ?? Infinity) <= value) ownBelow++
    below[index] = weight * ownBelow / (own.length + 1) + (1 - weight) * (index + 1) / (all.length + 1)
  }
  return {
    at: (share) => all[firstReaching(below, share)] ?? largest,
    evenly: (count, made) => {
      const found = new Float64Array(count)
      for (let place = 0, index = 0, value = made(all[0] ?? largest); place < count; place++) {
        const before = index
        while ((below[index] ?? 1) < middleOf(place, count) - CLOSE) index++
        if (index !== before) value = made(all[index] ?? largest)
        found[place] = value
      }
      return found
    },
  }
}

/** The middle of the place-th of so many equal parts of all cases. */
export const middleOf = (place: number, count: number): number => (place + 0.5) / count

// What is reached but for the last digits of a sum is reached.
const CLOSE = 1e-12

function firstReaching(below: Float64Array, share: number): number {
  let [low, high] = [0, below.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if ((below[middle] ?? 1) >= share - CLOSE) high = middle
    else low = middle + 1
  }
  return low
}
