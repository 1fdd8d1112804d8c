import { z } from 'zod'
import type { BillOfMaterials, BillTotals, EquipmentBillLine, PartBillLine, SingleUseLine } from '../calc/parts/billOfMaterials.ts'
import type { MaterialLine } from '../calc/parts/materialLines.ts'

const id = z.string()
const count = z.int().min(0)
const measured = z.int().min(0).describe('pieces, µm, mm², mL or g by the form of the material')
const day = z.string().nullable()
const minor = z.int().min(0).optional().describe('minor units; only for those who see money')

const totals = z.object({ materials: z.int(), equipment: z.int(), singleUse: z.int(), total: z.int() })
  .optional().describe('minor units; only for those who see money')

/** The bill of materials as the API answers it. */
export const billSchema = z.object({
  buildId: id,
  assumptions: z.array(z.string()),
  parts: z.array(z.object({
    partId: id, number: z.string(), name: z.string(), zoneId: id.nullable(), level: count.describe('0 for what goes into nothing else'), quantity: count,
    from: z.array(z.object({ parentId: id.nullable().describe('null: straight onto the vehicle'), perParent: count, parents: count, quantity: count })),
  })),
  materials: z.array(z.object({
    materialId: id, number: z.string(), name: z.string(), form: z.string(), packName: z.string(), packQuantity: measured,
    gross: measured, waste: measured, need: measured, fromStock: measured, packs: count, packsToBuy: count, leadDays: count,
    earliestExpectedOn: day, latestExpectedOn: day, cost: minor, price: minor,
    from: z.array(z.object({
      source: z.enum(['part', 'equipment', 'factory part', 'build']), id: id.nullable(), label: z.string(), zoneId: id.nullable(),
      pieces: count, perPiece: measured, quantity: measured, spares: count, expectedOn: day,
    })),
  })),
  equipment: z.array(z.object({
    lineId: id, number: z.string(), name: z.string(), zoneId: id.nullable(), quantity: count, suppliedBy: z.enum(['shop', 'customer']),
    leadDays: count, expectedOn: day, cost: minor, price: minor,
  })),
  singleUse: z.array(z.object({
    fastenerId: id, name: z.string(), factoryPartId: id.nullable(), factoryPart: z.string(), zoneId: id.nullable(),
    count, spares: count, quantity: count, cost: minor, price: minor,
  })),
  cost: totals, price: totals, buy: totals,
}).meta({ id: 'BillOfMaterials' })

type Answer = z.infer<typeof billSchema>

export const ASSUMPTIONS = [
  'Area and length plus waste, until cut plans decide: how the pieces fall on sheets, bars and rolls is not looked at yet.',
  'Whole packs are charged. What the customer supplies is listed and not charged.',
] as const

/** The same figures as the page, in canonical units; money is left out of the answer, not only out of sight. */
export function toBillAnswer(buildId: string, bill: BillOfMaterials, seesMoney: boolean): Answer {
  const money = <T extends object>(fields: T): Partial<T> => (seesMoney ? fields : {})
  return {
    buildId,
    assumptions: [...ASSUMPTIONS],
    parts: bill.parts.map(toPart),
    materials: bill.materials.map((line) => ({ ...toMaterial(line), ...money({ cost: line.costMinor, price: line.sellMinor }) })),
    equipment: bill.equipment.map((line) => ({ ...toEquipment(line), ...money({ cost: line.costMinor, price: line.sellMinor }) })),
    singleUse: bill.singleUse.map((line) => ({ ...toSingleUse(line), ...money({ cost: line.costMinor, price: line.sellMinor }) })),
    ...money({ cost: toSums(bill.cost), price: toSums(bill.sell), buy: toSums(bill.buy) }),
  }
}

function toPart({ part, level, count: quantity, demands }: PartBillLine): Answer['parts'][number] {
  return {
    partId: part.id, number: part.number, name: part.name, zoneId: part.zoneId, level, quantity,
    from: demands.map((demand) => ({ parentId: demand.parentId, perParent: demand.perParent, parents: demand.parentCount, quantity: demand.count })),
  }
}

function toMaterial({ material, pegs, gross, waste, need, fromStock, packs, packsToBuy, earliestExpectedOn, latestExpectedOn }: MaterialLine): Answer['materials'][number] {
  const { id: materialId, number, name, form, packName, packQuantity, leadDays } = material
  return {
    materialId, number, name, form, packName, packQuantity, gross, waste, need, fromStock, packs, packsToBuy, leadDays, earliestExpectedOn, latestExpectedOn,
    from: pegs.map(({ source, id: ownerId, label, zoneId, pieces, perPiece, quantity, spares, expectedOn }) =>
      ({ source, id: ownerId, label, zoneId, pieces, perPiece, quantity, spares, expectedOn })),
  }
}

function toEquipment({ line: { id: lineId, number, name, zoneId, quantity, suppliedBy, leadDays, expectedOn } }: EquipmentBillLine): Answer['equipment'][number] {
  return { lineId, number, name, zoneId, quantity, suppliedBy, leadDays, expectedOn }
}

function toSingleUse({ item, factoryPart, zoneId, spares, quantity }: SingleUseLine): Answer['singleUse'][number] {
  return { fastenerId: item.id, name: item.name, factoryPartId: factoryPart.id, factoryPart: factoryPart.label, zoneId, count: item.count, spares, quantity }
}

function toSums({ materialsMinor, equipmentMinor, singleUseMinor, totalMinor }: BillTotals) {
  return { materials: materialsMinor, equipment: equipmentMinor, singleUse: singleUseMinor, total: totalMinor }
}
