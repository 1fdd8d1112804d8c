import { sumOf } from '../grouping.ts'
import { levelParts } from './partTree.ts'
import type { PartUse } from './partTree.ts'
import { toExact, toWhole } from '../refusal.ts'

/** How much is made or bought at once when something is short. */
export type LotRule =
  | { readonly kind: 'lot-for-lot' }
  | { readonly kind: 'multiple', readonly of: number }
  | { readonly kind: 'minimum', readonly quantity: number }

export interface NettedItem {
  readonly id: string
  readonly number: string
  /** Needed outright, not through another item. */
  readonly demand: number
  readonly onHand: number
  readonly lot?: LotRule
}

export interface NetRequirement {
  readonly id: string
  readonly level: number
  readonly gross: number
  readonly fromStock: number
  readonly net: number
  /** Net, raised by the lot rule: what is made or bought, and what the next level is needed for. */
  readonly planned: number
}

/** Whole division rounded up. @example divideUp(7, 2) // 4 */
export function divideUp(numerator: number, denominator: number): number {
  const [n, d] = [BigInt(numerator), BigInt(denominator)]
  return toExact(Number((n + d - 1n) / d), 'The quantity')
}

/**
 * The quantity to make or buy for a net need: the need itself, the next multiple, or a least quantity.
 * Nothing is needed, nothing is planned. @example lotSize(7, { kind: 'multiple', of: 5 }) // 10
 */
export function lotSize(net: number, rule: LotRule = { kind: 'lot-for-lot' }): number {
  if (net === 0) return 0
  switch (rule.kind) {
    case 'lot-for-lot': return net
    case 'multiple': return divideUp(net, toWhole(rule.of, 1, 'The lot multiple')) * rule.of
    case 'minimum': return Math.max(net, toWhole(rule.quantity, 0, 'The least lot'))
  }
}

/**
 * Nets needs against stock level by level in low-level order, so that an item used on several levels
 * takes its stock once, after all its needs are known.
 *
 * Source: Heizer and Render, Operations Management, ch. 14. Refuses rings and quantities below one.
 * @example netRequirements([{ id: 'a', number: 'A', demand: 5, onHand: 2 }], []) // gross 5, fromStock 2, net 3
 */
export function netRequirements(items: readonly NettedItem[], uses: readonly PartUse[]): NetRequirement[] {
  const planned = new Map<string, number>()
  return levelParts(items, uses).map(({ part: item, level, uses: usesOfItem }) => {
    const dependent = sumOf(usesOfItem, use => (planned.get(use.parentId) ?? 0) * use.quantity)
    const gross = toExact(toWhole(item.demand, 0, `The demand for ${item.number}`) + dependent, `The need for ${item.number}`)
    const fromStock = Math.min(gross, toWhole(item.onHand, 0, `The stock of ${item.number}`))
    const requirement = { id: item.id, level, gross, fromStock, net: gross - fromStock, planned: lotSize(gross - fromStock, item.lot) }
    planned.set(item.id, requirement.planned)
    return requirement
  })
}
