import { groupBy } from '../grouping.ts'
import type { OwnerReference } from '../parts/owners.ts'
import type { RequiredParts } from '../parts/partTree.ts'
import { addExactly } from '../rounding.ts'
import { shareOut } from '../shares.ts'

export type PriceKind = 'labor' | 'bought'

/** A price from the estimate or the bill of materials, and the thing of the build that it is for. Minor units. */
export interface PricedRow extends OwnerReference {
  readonly what: PriceKind
  readonly taxCodeId: string | null
  readonly sellMinor: number
}

/** A price at the thing that stands in the vehicle in the end: a piece of an assembly is priced with the assembly. */
export interface PlacedPrice extends OwnerReference {
  readonly what: PriceKind
  readonly taxCodeId: string | null
  /** Number of the option it is offered in. */
  readonly option: number | null
  readonly sellMinor: number
}

export interface OptionNumbers {
  readonly parts: ReadonlyMap<string, number>
  readonly equipment: ReadonlyMap<string, number>
}

/**
 * Every price at what the customer gets: prices of made parts go up into the assemblies that take them, by pieces and
 * without a rest, so that all of them sum to the estimate exactly. What goes into a part that is offered as an option
 * belongs to that option, unless it is in one of its own.
 *
 * Minor units. Source: common practice, no source.
 * @example a ring of 9.00 goes twice into a pod and once onto the vehicle: 6.00 stand at the pod, 3.00 at the ring
 */
export function placePrices(rows: readonly PricedRow[], parts: RequiredParts, options: OptionNumbers): PlacedPrice[] {
  const [ofParts, others] = [rows.filter(({ partId }) => partId !== null), rows.filter(({ partId }) => partId === null)]
  const elsewhere = others.map((row): PlacedPrice => ({ ...row, option: row.equipmentLineId === null ? null : options.equipment.get(row.equipmentLineId) ?? null }))
  return gathered([...elsewhere, ...placeParts(ofParts, parts, options.parts)])
}

function placeParts(rows: readonly PricedRow[], parts: RequiredParts, options: ReadonlyMap<string, number>): PlacedPrice[] {
  const waiting = new Map<string, PlacedPrice[]>()
  const add = (partId: string, price: PlacedPrice): void => void waiting.set(partId, [...(waiting.get(partId) ?? []), price])
  for (const row of rows) if (row.partId !== null) add(row.partId, { ...row, option: null })
  const placed: PlacedPrice[] = []
  // Assemblies come before what goes into them; backwards, everything has arrived before it is passed on.
  for (const { part, demands } of [...parts.values()].reverse()) {
    const own = options.get(part.id) ?? null
    for (const price of gathered((waiting.get(part.id) ?? []).map((each) => ({ ...each, partId: part.id, option: each.option ?? own })))) {
      if (demands.length === 0) placed.push(price)
      const shares = shareOut(price.sellMinor, demands.map(({ count }) => count))
      demands.forEach(({ parentId }, index) => {
        const share = { ...price, sellMinor: shares[index] ?? 0 }
        if (parentId === null) placed.push(share)
        else add(parentId, share)
      })
    }
  }
  return placed
}

/** One price for each thing, option, tax code and kind. */
function gathered(prices: readonly PlacedPrice[]): PlacedPrice[] {
  const keyOf = ({ partId, equipmentLineId, factoryPartId, option, taxCodeId, what }: PlacedPrice): string => [partId, equipmentLineId, factoryPartId, option, taxCodeId, what].join(' ')
  return [...groupBy(prices, keyOf).values()].flatMap((group) =>
    group.slice(0, 1).map((first) => ({ ...first, sellMinor: addExactly(group.map(({ sellMinor }) => sellMinor)) })))
}
