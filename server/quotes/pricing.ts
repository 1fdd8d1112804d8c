import { listBought } from '../calc/parts/bought.ts'
import { explodeParts } from '../calc/parts/partTree.ts'
import { placePrices, type PlacedPrice, type PricedRow } from '../calc/quotes/placedPrices.ts'
import { toLines, type DraftLine, type LineGroup } from '../calc/quotes/quoteLines.ts'
import { addExactly } from '../calc/rounding.ts'
import { label } from '../shared/records/kind.ts'
import type { BuildFigures } from '../builds/figures.ts'
import type { StoredQuote } from './store.ts'

const MOST_NAMES = 6

export interface EstimatePrices {
  readonly prices: readonly PlacedPrice[]
  /** Price of the estimate: labor and all that is bought, options included. */
  readonly totalMinor: number
  /** Of the labor that is in no option. */
  readonly baseLaborMinor: number
}

/** The prices of the estimate at the things that the customer gets, each with its tax code and option. */
export function pricesOf({ inputs, bill, costing }: BuildFigures, { build, terms }: StoredQuote): EstimatePrices {
  const codeOfLine = new Map(build.lines.map(({ id, taxCodeId }) => [id, taxCodeId]))
  const labor = costing.estimate.operations.map(({ owner, sums }): PricedRow => ({
    partId: owner.kind === 'part' ? owner.id : null, equipmentLineId: owner.kind === 'equipment' ? owner.id : null,
    factoryPartId: owner.kind === 'factory part' ? owner.id : null, what: 'labor', taxCodeId: terms.laborTaxCodeId, sellMinor: sums.sellMinor,
  }))
  const toRow = (taxCodeIdOf: (lineId: string | null) => string | null) => ({ partId, equipmentLineId, factoryPartId, sellMinor }: ReturnType<typeof listBought>[number]): PricedRow =>
    ({ partId, equipmentLineId, factoryPartId, what: 'bought', taxCodeId: taxCodeIdOf(equipmentLineId), sellMinor })
  const bought = [
    ...listBought({ ...bill, equipment: [] }).map(toRow(() => terms.materialTaxCodeId)),
    ...listBought({ materials: [], equipment: bill.equipment, singleUse: [] }).map(toRow((lineId) => codeOfLine.get(lineId ?? '') ?? terms.materialTaxCodeId)),
  ]
  const numberOf = new Map(build.quoteOptions.map(({ id, number }) => [id, number]))
  const inOptions = (things: readonly { readonly id: string, readonly optionId: string | null }[]): Map<string, number> =>
    new Map(things.flatMap(({ id, optionId }) => { const number = numberOf.get(optionId ?? ''); return number === undefined ? [] : [[id, number] as const] }))
  const prices = placePrices([...labor, ...bought], explodeParts(inputs.labor.parts, inputs.labor.partUses), { parts: inOptions(build.parts), equipment: inOptions(build.lines) })
  return {
    prices, totalMinor: addExactly(prices.map(({ sellMinor }) => sellMinor)),
    baseLaborMinor: addExactly(prices.filter(({ what, option }) => what === 'labor' && option === null).map(({ sellMinor }) => sellMinor)),
  }
}

/** The estimate as lines of a quote: by zone, by part or all in one. */
export function linesOf({ prices }: EstimatePrices, stored: StoredQuote, { inputs }: BuildFigures): DraftLine[] {
  const codeOf = (id: string): string => stored.taxCodes.get(id)?.code ?? 'no tax code'
  return toLines(prices, GROUPINGS[stored.terms.linesBy]?.(stored, inputs) ?? GROUPINGS.zone(stored, inputs), codeOf)
}

type Grouping = (stored: StoredQuote, inputs: BuildFigures['inputs']) => (price: PlacedPrice) => LineGroup

const GROUPINGS: Readonly<Record<string, Grouping>> & { readonly zone: Grouping } = {
  'zone': ({ build }, { labor: { zones, factoryParts } }) => {
    const zoneOf = new Map([...build.parts, ...build.lines, ...factoryParts].map(({ id, zoneId }) => [id, zoneId]))
    const nameOf = new Map(zones.map(({ id, name }) => [id, name]))
    const numberOf = new Map(build.quoteOptions.map(({ id, number }) => [id, number]))
    return ({ partId, equipmentLineId, factoryPartId, option }) => {
      const zoneId = zoneOf.get(partId ?? equipmentLineId ?? factoryPartId ?? '') ?? null
      const names = [...build.parts.filter(({ quantity }) => quantity > 0), ...build.lines].filter((thing) => thing.zoneId === zoneId && (numberOf.get(thing.optionId ?? '') ?? null) === option).map(({ name }) => name)
      return { key: `zone:${zoneId ?? 'none'}`, heading: nameOf.get(zoneId ?? '') ?? 'The whole vehicle', detail: listed([...new Set(names)]) }
    }
  },
  'part': ({ build }) => {
    const parts = new Map(build.parts.map(({ id, number, name, quantity }) => [id, `${label('P', number)} ${name}${pieces(quantity)}`]))
    const lines = new Map(build.lines.map(({ id, number, name, quantity, suppliedBy }) => [id, `${label('E', number)} ${name}${pieces(quantity)}${suppliedBy === 'customer' ? ', supplied by you' : ''}`]))
    return ({ partId, equipmentLineId, factoryPartId }) => {
      if (partId !== null) return { key: `part:${partId}`, heading: parts.get(partId) ?? 'Made part', detail: '' }
      if (equipmentLineId !== null) return { key: `equipment:${equipmentLineId}`, heading: lines.get(equipmentLineId) ?? 'Equipment', detail: '' }
      return factoryPartId === null ? { key: 'build', heading: 'The whole vehicle', detail: '' } : { key: 'factory-parts', heading: 'Factory parts', detail: 'taking out, keeping and putting back' }
    }
  },
  'lump sum': ({ build }) => () => ({ key: 'all', heading: build.title, detail: 'all that is drawn up for this build' }),
}

const pieces = (quantity: number): string => (quantity === 1 ? '' : `, ${quantity} pieces`)

function listed(names: readonly string[]): string {
  const shown = names.slice(0, MOST_NAMES).join(', ')
  return names.length > MOST_NAMES ? `${shown} and ${names.length - MOST_NAMES} more` : shown
}
