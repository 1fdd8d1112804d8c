import { sumOf } from './grouping.ts'

/** Named whole numbers that are summed and shared together. */
export type Sums<K extends string> = Readonly<Record<K, number>>

/**
 * Shares a whole amount by weights so that the shares add up to it: each gets the whole units it
 * is due, the left-over units go to the largest remainders, first listed first.
 *
 * Weights are whole and not negative; when all are zero the first share takes everything.
 * Source: largest-remainder (Hamilton) apportionment, from memory.
 * @example shareOut(100, [1, 1, 1]) // [34, 33, 33]
 */
export function shareOut(total: number, weights: readonly number[]): number[] {
  const sum = sumOf(weights, weight => weight)
  if (sum === 0) return weights.map((_, index) => (index === 0 ? total : 0))
  const due = weights.map((weight, index) => ({ index, ...divide(total, weight, sum) }))
  const shares = due.map(({ whole }) => whole)
  const left = total - sumOf(shares, share => share)
  due.sort((a, b) => b.rest - a.rest || a.index - b.index)
  for (const { index } of due.slice(0, left)) shares[index] = (shares[index] ?? 0) + 1
  return shares
}

/** Shares every number by the same weights; the shares of each add up to it. */
export function shareSums<K extends string>(
  keys: readonly K[], sums: Sums<K>, weights: readonly number[],
): Sums<K>[] {
  if (weights.length === 1) return [sums]
  const columns = keys.map(key => shareOut(sums[key], weights))
  return weights.map((_, row) => toSums(keys, (_key, column) => columns[column]?.[row] ?? 0))
}

export function addSums<K extends string>(keys: readonly K[], all: Iterable<Sums<K>>): Sums<K> {
  const totals = keys.map(() => 0)
  for (const sums of all) keys.forEach((key, column) => { totals[column] = (totals[column] ?? 0) + sums[key] })
  return toSums(keys, (_key, column) => totals[column] ?? 0)
}

export function subtractSums<K extends string>(keys: readonly K[], from: Sums<K>, less: Sums<K>): Sums<K> {
  return toSums(keys, key => from[key] - less[key])
}

function toSums<K extends string>(keys: readonly K[], valueOf: (key: K, column: number) => number): Sums<K> {
  return Object.fromEntries(keys.map((key, column) => [key, valueOf(key, column)])) as Sums<K>
}

// A product of two large whole numbers is exact only as a big integer.
function divide(total: number, weight: number, sum: number): { whole: number, rest: number } {
  const product = BigInt(total) * BigInt(weight)
  return { whole: Number(product / BigInt(sum)), rest: Number(product % BigInt(sum)) }
}
