import type { RequiredParts } from './partTree.ts'
import { addSums, shareSums } from '../shares.ts'
import type { Sums } from '../shares.ts'

/**
 * What each part takes with all that goes into it. A shared piece is shared over its uses by the pieces
 * each takes, in whole units without a rest, so the parts that go straight onto the vehicle sum to all
 * the parts' own: nothing counts twice. What a part that is needed nowhere has taken stays its own.
 *
 * @example a takes 10 itself; b takes 9 and goes twice into a, once onto the vehicle: a with b is 16, b is 9
 */
export function rollUp<K extends string>(
  keys: readonly K[], parts: RequiredParts, ownOf: (partId: string) => Sums<K>,
): Map<string, Sums<K>> {
  const received = new Map([...parts.keys()].map((id): [string, Sums<K>[]] => [id, []]))
  const totals = new Map<string, Sums<K>>()
  for (const { part, demands } of [...parts.values()].reverse()) {
    const total = addSums(keys, [ownOf(part.id), ...(received.get(part.id) ?? [])])
    totals.set(part.id, total)
    const shares = demands.length === 0 ? [] : shareSums(keys, total, demands.map(({ count }) => count))
    demands.forEach(({ parentId }, index) => {
      const share = shares[index]
      if (parentId !== null && share) received.get(parentId)?.push(share)
    })
  }
  return totals
}
