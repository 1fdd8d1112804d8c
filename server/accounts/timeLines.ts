import type { BuildFigures } from '../builds/figures.ts'
import { hoursToInvoice, type HoursToInvoice } from '../calc/hours/hoursToInvoice.ts'
import { priceTimes } from '../calc/money.ts'
import type { Held, InvoiceLine } from './content.ts'
import { heldKey } from './standing.ts'
import type { Code, Codes } from './taxCodes.ts'

/** A line that could be invoiced, by a short key of its own: h1 hours, r1 rework, e2 equipment, m3 material, s4 fasteners. */
export interface OfferedLine extends Omit<InvoiceLine, 'key'> {
  readonly offer: string
}

const GROUPS = { work: 'Hours', rework: 'Hours of rework', equipment: 'Equipment', material: 'Material', fasteners: 'Fasteners of the way back' } as const

/** Logged hours at the departments' prices, equipment and material at theirs, as far as no invoice holds them. */
export function timeAndMaterial({ costing, bill, inputs }: BuildFigures, held: ReadonlyMap<string, number>, codes: Codes): OfferedLine[] {
  const heldOf = (kind: Held['kind'], id: string): number => held.get(heldKey({ kind, id })) ?? 0
  const invoicedS = new Map(costing.chains.flatMap(({ history }) => history.slice(0, 1).map(({ id }): [string, number] => [id, heldOf('hours', id)])))
  const { departments } = inputs.labor
  const hours = hoursToInvoice(costing.chains, departments, invoicedS)
  const placeOf = (id: string): number => departments.findIndex((one) => one.id === id) + 1
  return [
    ...hours.filter(({ kind }) => kind === 'work').map((one) => hoursLine(one, `h${placeOf(one.departmentId)}`, codes.labor)),
    ...hours.filter(({ kind }) => kind === 'rework').map((one) => hoursLine(one, `r${placeOf(one.departmentId)}`, codes.labor)),
    ...bill.equipment.filter(({ line }) => line.suppliedBy === 'shop').flatMap(({ line: { id, number, name, quantity, priceMinor } }) =>
      counted({ offer: `e${digits(number)}`, group: GROUPS.equipment, text: `${number} ${name}`, kind: 'equipment', id, count: quantity - heldOf('equipment', id), unit: '', priceMinor, code: codes.ofEquipment(id) })),
    ...bill.materials.flatMap(({ material: { id, number, name, packName, packPriceMinor }, packs }) =>
      counted({ offer: `m${digits(number)}`, group: GROUPS.material, text: `${number} ${name}`, kind: 'material', id, count: packs - heldOf('material', id), unit: packName, priceMinor: packPriceMinor, code: codes.material })),
    ...bill.singleUse.flatMap(({ item, factoryPart, quantity }, index) =>
      counted({ offer: `s${index + 1}`, group: GROUPS.fasteners, text: `${item.name}, ${factoryPart.label}`, kind: 'single-use', id: item.id, count: quantity - heldOf('single-use', item.id), unit: '', priceMinor: item.priceMinor, code: codes.material })),
  ]
}

const digits = (number: string): string => String(Number(/\d+$/.exec(number)?.[0] ?? 0))

function hoursLine({ department, kind, seconds, rateMinor, netMinor, entries }: HoursToInvoice, offer: string, code: Code): OfferedLine {
  return {
    offer, group: GROUPS[kind], text: kind === 'rework' ? `${department}, rework` : department, quantity: { of: 'time', seconds }, eachMinor: rateMinor, amountMinor: netMinor, ...code,
    holds: entries.map(({ id, seconds: held }) => ({ kind: 'hours', id, seconds: held })),
  }
}

interface CountedThing {
  readonly offer: string
  readonly group: string
  readonly text: string
  readonly kind: 'equipment' | 'material' | 'single-use'
  readonly id: string
  readonly count: number
  readonly unit: string
  readonly priceMinor: number
  readonly code: Code
}

// What costs nothing needs no line; what was taken out of the build after it was invoiced comes off again.
function counted({ offer, group, text, kind, id, count, unit, priceMinor, code }: CountedThing): OfferedLine[] {
  if (count === 0 || priceMinor === 0) return []
  const thousandths = count * 1_000
  return [{ offer, group, text, quantity: { of: 'count', thousandths, unit }, eachMinor: priceMinor, amountMinor: priceTimes(priceMinor, thousandths), ...code, holds: [{ kind, id, count }] }]
}
