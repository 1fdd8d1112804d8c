import type { Amount, Working } from '../calc/amounts.ts'
import { FORM_KIND } from '../calc/parts/billInput.ts'
import type { EquipmentBillLine, SingleUseLine } from '../calc/parts/billOfMaterials.ts'
import { sumOf } from '../calc/grouping.ts'
import type { MaterialLine } from '../calc/parts/materialLines.ts'
import type { BillLine, BillOfMaterialsData, NestedPart } from '../../web/materials/billOfMaterials.tsx'
import { writeAmount } from '../../web/shared/amount.ts'
import { counted } from '../../web/shared/text.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { listTree } from '../builds/estimateTree.ts'
import { seesMoney } from '../builds/figures.ts'
import type { BuildFigures } from '../builds/figures.ts'
import type { StoredBuild } from '../builds/store.ts'
import { label } from '../shared/records/kind.ts'
import { groupSingleUse, singleUseKey } from './singleUse.ts'

interface Writer {
  readonly stored: StoredBuild
  readonly viewer: Viewer
  readonly showsMoney: boolean
  zoneOf(zoneId: string | null): string
}

/** The bill of materials as a sheet for this viewer. */
export function toBillPage(stored: StoredBuild, figures: BuildFigures, viewer: Viewer): BillOfMaterialsData {
  const { bill } = figures
  const zones = new Map(stored.zones.map(({ id, number }) => [id, `zone ${number}`]))
  const writer: Writer = { stored, viewer, showsMoney: seesMoney(viewer), zoneOf: (zoneId) => zones.get(zoneId ?? '') ?? '' }
  return {
    titleBlock: titleBlockOf(stored, viewer),
    materials: bill.materials.map((line) => toMaterialLine(line, writer)),
    equipment: bill.equipment.map((line) => toEquipmentLine(line, writer)),
    singleUse: toSingleUseLines(bill.singleUse, writer),
    zones: stored.zones.filter(({ removedAt }) => removedAt === null).map(({ number, name }) => `${number} ${name}`),
    parts: toNested(figures),
    totals: writer.showsMoney ? { cost: bill.cost.working, sell: bill.sell.working, buy: bill.buy.working } : undefined,
    backHref: `/builds/${stored.head.id}`,
  }
}

function titleBlockOf({ head, shop }: StoredBuild, viewer: Viewer): BillOfMaterialsData['titleBlock'] {
  const number = label('B', head.number)
  return {
    owner: viewer.shopName, ownerMore: shop?.address.replaceAll('\n', ', ') ?? '',
    title: 'Bill of materials', subtitle: `${head.title}, ${head.vehicle.make} ${head.vehicle.model}`,
    documentType: 'Parts list', number: number.replace('B', 'L'), revision: '–', dateOfIssue: viewer.today, language: 'en',
    createdBy: viewer.name, approvedBy: '', build: number, replaces: '',
  }
}

const money = ({ showsMoney }: Writer, cost: number, price: number): Pick<BillLine, 'cost' | 'price'> =>
  showsMoney ? { cost: { kind: 'money', value: cost }, price: { kind: 'money', value: price } } : {}

function toMaterialLine(line: MaterialLine, writer: Writer): BillLine {
  const { material, pegs, need, packs, fromStock } = line
  const amount = (value: number): Amount => ({ kind: FORM_KIND[material.form], value })
  const needs = writer.stored.needs.filter(({ materialId }) => materialId === material.id)
  return {
    key: material.number, name: `${material.number} ${material.name}`, href: `/materials/${material.id}`, boughtAs: material.packName, need: amount(need),
    toTake: `${packs} ×`, fromStock: fromStock === 0 ? '' : writeAmount(amount(fromStock), writer.viewer),
    expectedOn: line.latestExpectedOn ?? '', isReceived: needs.length > 0 && needs.every(({ receivedOn }) => receivedOn !== null),
    suppliedBy: 'shop', ...money(writer, line.costMinor, line.sellMinor),
    pegs: toPegs(pegs, amount, writer),
    working: withoutPegs(line),
  }
}

// Two hundred clips are named by the parts they hold, in one line.
function toPegs(pegs: MaterialLine['pegs'], amount: (value: number) => Amount, { zoneOf }: Writer): BillLine['pegs'] {
  const fasteners = pegs.filter(({ isFastener }) => isFastener)
  const held = fasteners.map(({ label: of, quantity }) => ({ number: numberIn(of), quantity }))
  return [
    ...pegs.filter(({ isFastener }) => !isFastener).map((peg) => ({ from: peg.label, zone: zoneOf(peg.zoneId), quantity: amount(peg.quantity) })),
    ...(held.length === 0 ? [] : [{ from: fastenersOf(held), zone: '', quantity: amount(sumOf(held, ({ quantity }) => quantity)) }]),
  ]
}

const numberIn = (of: string): string => of.split(' ')[0] ?? of
const fastenersOf = (held: readonly { number: string, quantity: number }[]): string =>
  `fasteners of ${held.map(({ number, quantity }) => `${number} (${quantity})`).join(', ')}`

// The pegs stand beside it already.
function withoutPegs({ working, pegs, material, gross }: MaterialLine): Working {
  const net = { label: 'Net need', source: 'sum of what it is for', amount: { kind: FORM_KIND[material.form], value: gross } } as const
  return { ...working, inputs: [net, ...working.inputs.slice(pegs.length)] }
}

function toEquipmentLine({ line, costMinor, sellMinor }: EquipmentBillLine, writer: Writer): BillLine {
  const amount: Amount = { kind: 'count', value: line.quantity }
  const isReceived = writer.stored.lines.some(({ id, receivedOn }) => id === line.id && receivedOn !== null)
  return {
    key: line.number, isEntered: true, name: `${line.number} ${line.name}`, href: `/equipment-lines/${line.id}`, boughtAs: '', need: amount, toTake: String(line.quantity),
    fromStock: '', expectedOn: line.expectedOn ?? '', isReceived, suppliedBy: line.suppliedBy, ...money(writer, costMinor, sellMinor),
    pegs: [{ from: zoneName(line.zoneId, writer), zone: '', quantity: amount }],
  }
}

function zoneName(zoneId: string | null, { stored }: Writer): string {
  const zone = stored.zones.find(({ id }) => id === zoneId)
  return zone ? `zone ${zone.number} ${zone.name}` : 'the vehicle'
}

function toSingleUseLines(lines: readonly SingleUseLine[], writer: Writer): BillLine[] {
  return groupSingleUse(lines).flatMap((group) => group.slice(0, 1).map(({ item, working }): BillLine => {
    const quantity = sumOf(group, (line) => line.quantity)
    const only = group.length === 1
    return {
      key: singleUseKey(item), name: item.name, href: only ? `/fasteners/${item.id}` : undefined, boughtAs: '', need: { kind: 'count', value: quantity },
      toTake: counted(quantity, 'piece', 'pieces'), fromStock: '', expectedOn: '', isReceived: false, suppliedBy: 'shop',
      ...money(writer, sumOf(group, (line) => line.costMinor), sumOf(group, (line) => line.sellMinor)),
      pegs: [{ from: fastenersOf(group.map((line) => ({ number: numberIn(line.factoryPart.label), quantity: line.quantity }))), zone: '', quantity: { kind: 'count', value: quantity } }],
      working: only && group.some(({ spares }) => spares > 0) ? working : undefined,
    }
  }))
}

function toNested(figures: BuildFigures): NestedPart[] {
  const required = new Map(figures.bill.parts.map((line) => [line.part.id, line]))
  const path: string[] = []
  return listTree(figures).flatMap(({ partId, level }) => {
    const line = required.get(partId)
    path[level] = partId
    const parentId = level === 0 ? null : path[level - 1]
    // The tree of hours tells an assembly's own once more; here it is one part.
    if (!line || parentId === partId) return []
    const { perParent = 0 } = line.demands.find((demand) => demand.parentId === parentId) ?? {}
    return [{ number: line.part.number, name: line.part.name, href: `/parts/${partId}`, level, each: perParent, count: line.count }]
  })
}
