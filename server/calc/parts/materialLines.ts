import type { Amount, Working, WorkingInput } from '../amounts.ts'
import { FORM_KIND } from './billInput.ts'
import type { BillInput, Material, MaterialForm, Stock } from './billInput.ts'
import { groupBy, sumOf } from '../grouping.ts'
import { divideUp } from './netting.ts'
import type { Peg } from './pegs.ts'
import { Refusal, toExact, toWhole } from '../refusal.ts'

export interface MaterialLine {
  readonly material: Material
  readonly pegs: readonly Peg[]
  /** Sum of the pegs. */
  readonly gross: number
  readonly waste: number
  /** Gross and waste. */
  readonly need: number
  readonly fromStock: number
  /** Whole packs for the need; cost and price are for these, wherever they come from. */
  readonly packs: number
  /** Whole packs that the needs marked as received came in. */
  readonly packsReceived: number
  readonly packsToBuy: number
  readonly costMinor: number
  readonly sellMinor: number
  /** What has to be spent on the packs that are neither in stock nor received. */
  readonly buyMinor: number
  readonly earliestExpectedOn: string | null
  readonly latestExpectedOn: string | null
  readonly working: Working
  readonly buyWorking: Working
}

/** A line for each material that the build takes something of, in the order of the materials. */
export function toMaterialLines({ materials, stock = [] }: BillInput, pegs: readonly Peg[]): MaterialLine[] {
  const pegsOf = groupBy(pegs, peg => peg.materialId)
  const known = new Set(materials.map(({ id }) => id))
  for (const { materialId, label } of pegs) {
    if (!known.has(materialId)) throw new Refusal(`${label} needs a material that is not on the list of materials.`)
  }
  const stockOf = groupBy(stock, item => item.materialId)
  return materials
    .filter(({ id }) => pegsOf.has(id))
    .map(material => toLine(material, pegsOf.get(material.id) ?? [], availableOf(stockOf.get(material.id) ?? [])))
}

function toLine(material: Material, pegs: readonly Peg[], available: number): MaterialLine {
  const gross = toExact(sumOf(pegs, peg => peg.quantity), `The need for ${material.number}`)
  const waste = wasteOf(material, gross)
  const need = toExact(gross + waste, `The need for ${material.number}`)
  const packQuantity = toWhole(material.packQuantity, 1, `What a pack of ${material.number} holds`)
  const packs = divideUp(need, packQuantity)
  const fromStock = Math.min(need, available)
  const packsReceived = packsFor(material, toExact(sumOf(pegs.filter(peg => peg.isReceived), peg => peg.quantity), `What came of ${material.number}`))
  const packsToBuy = Math.max(0, divideUp(need - fromStock, packQuantity) - packsReceived)
  const dates = pegs.flatMap(peg => peg.expectedOn ?? []).sort()
  return {
    material, pegs, gross, waste, need, fromStock, packs, packsReceived, packsToBuy,
    costMinor: priceOf(material, packs, material.packCostMinor),
    sellMinor: priceOf(material, packs, material.packPriceMinor),
    buyMinor: priceOf(material, packsToBuy, material.packCostMinor),
    earliestExpectedOn: dates.at(0) ?? null, latestExpectedOn: dates.at(-1) ?? null,
    working: packsWorking(material, pegs, waste, packs),
    buyWorking: buyWorking(material, { need, fromStock, packsReceived, packsToBuy }),
  }
}

/** Packs for a net need, waste on top of it. */
function packsFor(material: Material, gross: number): number {
  return divideUp(gross + wasteOf(material, gross), toWhole(material.packQuantity, 1, `What a pack of ${material.number} holds`))
}

/** Waste on top of the need, rounded up to whole units; pieces bought each have none. */
function wasteOf(material: Material, gross: number): number {
  if (material.form === 'each') return 0
  const thousandths = BigInt(gross) * BigInt(toWhole(material.wasteThousandths, 0, `The waste of ${material.number}`))
  return toExact(Number((thousandths + 999n) / 1000n), `The waste of ${material.number}`)
}

function availableOf(stock: readonly Stock[]): number {
  return Math.max(0, sumOf(stock, ({ onHand, reserved }) => onHand - reserved))
}

function priceOf({ number }: Material, packs: number, minor: number): number {
  return toExact(packs * toWhole(minor, 0, `The price of ${number}`), `The price of ${number}`)
}

const WHOLE_PACKS = 'Whole packs are charged.'
const ASSUMED: Readonly<Record<MaterialForm, string>> = {
  each: `${WHOLE_PACKS} No waste on pieces.`,
  length: `Length and waste for now: how the pieces fall on the stock lengths is not looked at yet. ${WHOLE_PACKS}`,
  area: `Area and waste for now: how the pieces fall on the sheets or the roll is not looked at yet. ${WHOLE_PACKS}`,
  volume: WHOLE_PACKS,
  mass: WHOLE_PACKS,
}

function packsWorking(material: Material, pegs: readonly Peg[], waste: number, packs: number): Working {
  const amount = (value: number): Amount => ({ kind: FORM_KIND[material.form], value })
  const share: WorkingInput = {
    label: 'Waste on top', source: `material ${material.number}`, amount: { kind: 'share', value: material.wasteThousandths },
  }
  return {
    title: `${material.number} ${material.name}: ${material.packName}`,
    inputs: [
      ...pegs.map(peg => ({ label: peg.label, source: toPegSource(peg), amount: amount(peg.quantity) })),
      ...(material.form === 'each' ? [] : [share, { label: 'Waste', source: 'needs × waste', amount: amount(waste) }]),
      { label: 'In one pack', source: `material ${material.number}`, amount: amount(material.packQuantity) },
    ],
    result: { kind: 'count', value: packs },
    formula: material.form === 'each' ? 'sum of the needs ÷ pack, rounded up' : '(sum of the needs + waste) ÷ pack, rounded up',
    assumed: ASSUMED[material.form],
    source: 'common practice, no source',
  }
}

function buyWorking(material: Material, { need, fromStock, packsReceived, packsToBuy }: Pick<MaterialLine, 'need' | 'fromStock' | 'packsReceived' | 'packsToBuy'>): Working {
  const amount = (value: number): Amount => ({ kind: FORM_KIND[material.form], value })
  return {
    title: `${material.number} ${material.name}: to buy`,
    inputs: [
      { label: 'Need and waste', source: 'this line', amount: amount(need) },
      { label: 'From stock', source: 'on hand less what is held for other builds', amount: amount(fromStock) },
      { label: 'In one pack', source: `material ${material.number}`, amount: amount(material.packQuantity) },
      { label: 'Packs received', source: 'needs marked as received', amount: { kind: 'count', value: packsReceived } },
    ],
    result: { kind: 'count', value: packsToBuy },
    formula: '(need − from stock) ÷ pack, rounded up, less the packs received',
    assumed: 'What was received came in whole packs, and what is left of them serves the other needs.',
    source: 'common practice, no source',
  }
}

function toPegSource(peg: Peg): string {
  if (peg.source === 'part' || peg.source === 'equipment') return `${peg.source}, ${peg.pieces} × its need`
  return peg.spares > 0 ? `${peg.source}, spares for those that break included` : peg.source
}
