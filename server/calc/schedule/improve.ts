import type { Compiled } from './compiled.ts'
import { isBetter, worthOf, type Worth } from './delay.ts'
import { newPlacing, type Placing } from './placing.ts'
import type { End } from './problem.ts'
import { placeInOrder } from './serial.ts'

/** A plan as it is looked for: the order it was made in, and what came of it. */
export interface Found {
  readonly order: Int32Array
  readonly worth: Worth
  /** Alike for plans that start everything alike. */
  readonly print: number
}

/** Makes a plan of an order and shifts it to and fro as long as it gets better. Null where it does not fit. */
export type Improve = (order: Int32Array) => Found | null

const MOST_PASSES = 3

/**
 * Forward-backward improvement (Li and Willis 1992; Valls, Ballestín and Quintanilla 2005, from memory): everything as
 * late as it can be, the last first, then as early as it can be, the first first. What does not make the plan better is
 * taken back. `placing` holds the plan afterwards.
 */
export function toImprove({ forward, backward, ends, placing }: { readonly forward: Compiled, readonly backward: Compiled, readonly ends: readonly End[], readonly placing: Placing }): Improve {
  const { count } = forward
  const late = newPlacing(backward)
  const order = new Int32Array(count)
  const kept = new Int32Array(count)
  const rank = rankOf(forward.topological)
  const lastFirst = rank.map((place) => -place)
  const key = new Float64Array(count)
  return (given) => {
    if (!placeInOrder(forward, given, placing)) return null
    let worth = worthOf(ends, placing)
    kept.set(given)
    for (let pass = 0; pass < MOST_PASSES; pass += 1) {
      for (let activity = 0; activity < count; activity += 1) key[activity] = -placing.end[activity]!
      sortInto(order, key, lastFirst)
      if (!placeInOrder(backward, order, late)) break
      for (let activity = 0; activity < count; activity += 1) key[activity] = -late.end[activity]!
      sortInto(order, key, rank)
      const next = placeInOrder(forward, order, placing) ? worthOf(ends, placing) : null
      if (next === null || isBetter(worth, next)) placeInOrder(forward, kept, placing)
      if (next === null || !isBetter(next, worth)) break
      worth = next
      kept.set(order)
    }
    for (let activity = 0; activity < count; activity += 1) key[activity] = placing.start[activity]!
    const found = new Int32Array(count)
    sortInto(found, key, rank)
    return { order: found, worth, print: printOf(placing.start) }
  }
}

export function rankOf(order: Int32Array): Float64Array {
  const rank = new Float64Array(order.length)
  order.forEach((activity, place) => { rank[activity] = place })
  return rank
}

/** All activities by a key, the smallest first; equal ones by the second. */
export function sortInto(order: Int32Array, key: Float64Array, second: Float64Array): void {
  for (let activity = 0; activity < order.length; activity += 1) order[activity] = activity
  order.sort((one, other) => key[one]! - key[other]! || second[one]! - second[other]!)
}

function printOf(starts: Int32Array): number {
  let print = 7
  for (const start of starts) print = (Math.imul(print, 31) + start) | 0
  return print
}
