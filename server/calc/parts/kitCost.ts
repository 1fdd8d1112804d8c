import type { Working } from '../amounts.ts'
import { FORM_KIND } from './billInput.ts'
import type { MaterialForm } from './billInput.ts'
import { Refusal, toWhole } from '../refusal.ts'
import { addExactly, scaleHalfAway } from '../rounding.ts'

export interface KitPart {
  readonly name: string
  readonly form: MaterialForm
  /** For one kit, in the canonical unit of the form. */
  readonly quantity: number
  readonly packName: string
  readonly packQuantity: number
  readonly packCostMinor: number
  readonly packPriceMinor: number
}

export interface KitCost {
  /** Of each part, in their order. */
  readonly parts: readonly { readonly cost: Working, readonly sell: Working }[]
  readonly cost: Working
  readonly sell: Working
}

/**
 * What one kit costs and sells for, each part by its share of a pack, in minor units.
 *
 * Rounded half away from zero per part, so that the parts add up to the kit. Refuses a pack that holds nothing.
 * Source: common practice, no source.
 */
export function kitCost(parts: readonly KitPart[]): KitCost {
  const priced = parts.map((part) => ({ part, costMinor: shareOfPack(part, part.packCostMinor), sellMinor: shareOfPack(part, part.packPriceMinor) }))
  return {
    parts: priced.map(({ part, costMinor, sellMinor }) => ({
      cost: partWorking(`${part.name}: cost in the kit`, part, part.packCostMinor, costMinor), sell: partWorking(`${part.name}: price in the kit`, part, part.packPriceMinor, sellMinor),
    })),
    cost: workingOf('Cost of one kit', priced.map(({ part, costMinor }) => [part, costMinor])),
    sell: workingOf('Price of one kit', priced.map(({ part, sellMinor }) => [part, sellMinor])),
  }
}

/** A quantity's share of what a pack costs. @example shareOfPack({ quantity: 1500000, packQuantity: 50000000, name: 'wire' }, 6800) // 204 */
export function shareOfPack({ quantity, packQuantity, name }: Pick<KitPart, 'quantity' | 'packQuantity' | 'name'>, packMinor: number): number {
  if (packQuantity < 1) throw new Refusal(`A pack of ${name} holds nothing: give what is in one.`)
  return scaleHalfAway(toWhole(packMinor, 0, `The pack of ${name}`), toWhole(quantity, 0, `The quantity of ${name}`), packQuantity)
}

function partWorking(title: string, { form, quantity, packName, packQuantity }: KitPart, packMinor: number, value: number): Working {
  return {
    title,
    inputs: [
      { label: 'In one kit', source: 'kit part', amount: { kind: FORM_KIND[form], value: quantity } },
      { label: 'In one pack', source: packName, amount: { kind: FORM_KIND[form], value: packQuantity } },
      { label: 'One pack', source: 'material', amount: { kind: 'money', value: packMinor } },
    ],
    result: { kind: 'money', value }, formula: 'one pack × in one kit ÷ in one pack, half away from zero', assumed: '', source: 'common practice, no source',
  }
}

function workingOf(title: string, lines: readonly (readonly [part: KitPart, minor: number])[]): Working {
  return {
    title,
    inputs: lines.map(([{ name, packName }, value]) => ({ label: name, source: `share of ${packName}`, amount: { kind: 'money', value } })),
    result: { kind: 'money', value: addExactly(lines.map(([, minor]) => minor)) },
    formula: 'sum over its parts of quantity ÷ quantity in a pack × pack',
    assumed: 'Shares of packs, without waste. A build is charged whole packs, as its bill of materials shows.',
    source: 'common practice, no source',
  }
}

/** What of a kit's part is measured, for those who show its quantity. */
export const kindOfForm = (form: string): (typeof FORM_KIND)[MaterialForm] => FORM_KIND[form as MaterialForm]
