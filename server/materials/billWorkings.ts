import type { Amount, AmountKind, Working, WorkingInput } from '../calc/amounts.ts'
import { FORM_KIND } from '../calc/parts/billInput.ts'
import type { EquipmentBillLine, SingleUseLine } from '../calc/parts/billOfMaterials.ts'
import { sumOf } from '../calc/grouping.ts'
import type { MaterialLine } from '../calc/parts/materialLines.ts'
import type { BuildFigures } from '../builds/figures.ts'
import type { Workings } from '../shared/workings.ts'
import { groupSingleUse, singleUseKey } from './singleUse.ts'

const SOURCE = 'common practice, no source'

type Shown = readonly [key: string, working: Working]

const input = (label: string, source: string, kind: AmountKind, value: number): WorkingInput => ({ label, source, amount: { kind, value } })

/** What the bill opens: the key of a line and n for its need, t for what to take, c for cost, p for price; a part by its number. */
export function billWorkings({ bill }: BuildFigures, showsMoney: boolean): Workings {
  const lines = [
    ...bill.materials.flatMap(materialWorkings), ...bill.equipment.flatMap(equipmentWorkings), ...groupSingleUse(bill.singleUse).flatMap(singleUseWorkings),
  ]
  return new Map([
    ...lines.filter(([, { result }]) => showsMoney || result.kind !== 'money'),
    ...bill.parts.map(({ part, working }): Shown => [part.number, working]),
  ])
}

function materialWorkings(line: MaterialLine): Shown[] {
  const { material, pegs, waste, need, packs } = line
  const { number, name, form, packName } = material
  const amount = (value: number): Amount => ({ kind: FORM_KIND[form], value })
  const price = (title: string, each: number, all: number): Working => priceWorking(`${number} ${name}: ${title}`, {
    label: 'Packs', source: 'to take, this line', count: packs, one: `${title} of a pack: ${packName}`, from: `material ${number}`, each, all, rule: 'packs × price of a pack',
  })
  return [
    [`${number}n`, {
      title: `${number} ${name}: need`,
      inputs: [
        ...pegs.map((peg) => ({ label: peg.label, source: `${peg.pieces} × its need`, amount: amount(peg.quantity) })),
        ...(form === 'each' ? [] : [{ label: 'Waste', source: `needs × ${material.wasteThousandths / 10} in 100, rounded up`, amount: amount(waste) }]),
      ],
      result: amount(need), formula: form === 'each' ? 'sum of the needs' : 'sum of the needs and the waste',
      assumed: form === 'each' ? '' : 'Waste is a share on top: no cut plan is made yet.', source: SOURCE,
    }],
    [`${number}t`, line.working],
    [`${number}c`, price('cost', material.packCostMinor, line.costMinor)], [`${number}p`, price('price', material.packPriceMinor, line.sellMinor)],
  ]
}

function equipmentWorkings({ line, costMinor, sellMinor }: EquipmentBillLine): Shown[] {
  const { number, name, quantity, suppliedBy } = line
  const price = (title: string, each: number, all: number): Working => priceWorking(`${number} ${name}: ${title}`, {
    label: 'Quantity', source: 'equipment line', count: quantity, one: `${title} of one`, from: `equipment line, supplied by the ${suppliedBy}`, each, all,
    rule: suppliedBy === 'shop' ? 'quantity × price of one' : 'nothing: the customer brings it',
  })
  return [[`${number}c`, price('cost', line.costMinor, costMinor)], [`${number}p`, price('price', line.priceMinor, sellMinor)]]
}

function singleUseWorkings(group: readonly SingleUseLine[]): Shown[] {
  const [first] = group
  if (!first) return []
  const { item } = first
  const key = singleUseKey(item)
  const quantity = sumOf(group, (line) => line.quantity)
  const price = (title: string, each: number, all: number): Working => priceWorking(`${item.name}: ${title}`, {
    label: 'Quantity', source: 'need, this line', count: quantity, one: `${title} of one`, from: 'fastener', each, all, rule: 'quantity × price of one',
  })
  return [
    [`${key}n`, {
      title: `${item.name}: need`, inputs: group.flatMap(shareInputs), result: { kind: 'count', value: quantity }, formula: 'sum over the factory parts they hold',
      assumed: 'What breaks is an expectation; the share is noted on the fastener, else the shop sets it.', source: SOURCE,
    }],
    [`${key}c`, price('cost', item.costMinor, sumOf(group, (line) => line.costMinor))],
    [`${key}p`, price('price', item.priceMinor, sumOf(group, (line) => line.sellMinor))],
  ]
}

function shareInputs({ item, factoryPart, quantity, spares }: SingleUseLine): WorkingInput[] {
  return [
    ...(quantity > spares ? [input(factoryPart.label, 'used once', 'count', quantity - spares)] : []),
    ...(spares > 0 ? [input(factoryPart.label, `of ${item.count}, ${item.breakThousandths / 10} in 100 break, rounded up`, 'count', spares)] : []),
  ]
}

interface Priced {
  readonly label: string
  readonly source: string
  readonly count: number
  readonly one: string
  readonly from: string
  readonly each: number
  readonly all: number
  readonly rule: string
}

function priceWorking(title: string, { label, source, count, one, from, each, all, rule }: Priced): Working {
  return {
    title, inputs: [input(label, source, 'count', count), input(one.charAt(0).toUpperCase() + one.slice(1), from, 'money', each)],
    result: { kind: 'money', value: all }, formula: rule, assumed: 'Tax is not in it.', source: SOURCE,
  }
}
