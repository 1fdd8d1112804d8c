import type { Working, WorkingInput } from '../amounts.ts'
import type { BillInput, EquipmentLine, SingleUse } from './billInput.ts'
import { sumOf } from '../grouping.ts'
import { toMaterialLines } from './materialLines.ts'
import type { MaterialLine } from './materialLines.ts'
import { ownerFinder } from './owners.ts'
import type { Owner } from './owners.ts'
import { explodeParts } from './partTree.ts'
import type { RequiredPart, RequiredParts } from './partTree.ts'
import { factoryPartReference, pegNeeds, toRenew } from './pegs.ts'
import { toExact, toWhole } from '../refusal.ts'

export interface PartBillLine extends RequiredPart {
  readonly working: Working
}

export interface EquipmentBillLine {
  readonly line: EquipmentLine
  readonly costMinor: number
  readonly sellMinor: number
  /** Nothing once it was received. */
  readonly buyMinor: number
  readonly working: Working
}

/** Single-use parts that are bought by the piece, not taken from a material. */
export interface SingleUseLine {
  readonly item: SingleUse
  readonly factoryPart: Owner
  readonly zoneId: string | null
  readonly spares: number
  readonly quantity: number
  readonly costMinor: number
  readonly sellMinor: number
  readonly working: Working
}

export interface BillTotals {
  readonly materialsMinor: number
  readonly equipmentMinor: number
  readonly singleUseMinor: number
  readonly totalMinor: number
  readonly working: Working
}

export interface BillOfMaterials {
  /** Assemblies before what goes into them. */
  readonly parts: readonly PartBillLine[]
  readonly materials: readonly MaterialLine[]
  readonly equipment: readonly EquipmentBillLine[]
  readonly singleUse: readonly SingleUseLine[]
  readonly cost: BillTotals
  readonly sell: BillTotals
  /** What has still to be spent: cost less what stock covers and what was received. */
  readonly buy: BillTotals
}

/**
 * Everything a build takes: parts through all levels, materials with waste in whole packs and where each
 * need comes from, equipment, and the single-use parts of the way back.
 *
 * Canonical units. Money comes from whole packs and units, so totals are plain sums. What the customer
 * supplies is listed and costs nothing. Refuses a part that contains itself (the ring named) and unknown ids.
 * Source: explosion as in Heizer and Render, Operations Management, ch. 14; packs: common practice.
 * @example 3 pieces of 1 m² and 10 % waste from sheets of 2 m²: gross 3 m², need 3.3 m², 2 packs
 */
export function billOfMaterials(input: BillInput): BillOfMaterials {
  const parts = explodeParts(input.parts, input.partUses)
  const ownerOf = ownerFinder({ parts, equipment: input.equipment, factoryParts: input.factoryParts })
  const materials = toMaterialLines(input, pegNeeds(input, ownerOf))
  const equipment = input.equipment.map(toEquipmentLine)
  const singleUse = input.singleUse
    .filter(item => item.materialId === null)
    .map(item => toSingleUseLine(item, ownerOf(factoryPartReference(item.factoryPartId))))
  const totals = (title: string, key: 'costMinor' | 'sellMinor', ofMaterial: (line: MaterialLine) => number) =>
    toTotals(title, sumOf(materials, ofMaterial), sumOf(equipment, line => line[key]), sumOf(singleUse, line => line[key]))
  return {
    parts: [...parts.values()].map(required => toPartLine(required, parts)), materials, equipment, singleUse,
    cost: totals('Bill of materials: cost', 'costMinor', line => line.costMinor),
    sell: totals('Bill of materials: price', 'sellMinor', line => line.sellMinor),
    buy: toTotals('Bill of materials: still to spend', sumOf(materials, line => line.buyMinor), sumOf(equipment, line => line.buyMinor), sumOf(singleUse, line => line.costMinor),
      'What was received is paid for or owed already. New fasteners have no receipt and count until they are at hand. '),
  }
}

function toPartLine(required: RequiredPart, parts: RequiredParts): PartBillLine {
  const toInput = ({ parentId, perParent, parentCount, count }: RequiredPart['demands'][number]): WorkingInput => {
    const parent = parentId === null ? undefined : parts.get(parentId)?.part
    const amount = { kind: 'count', value: count } as const
    if (!parent) return { label: 'Directly on the vehicle', source: 'part', amount }
    return { label: `In ${parent.number} ${parent.name}`, source: `${parentCount} × ${perParent}`, amount }
  }
  return {
    ...required,
    working: {
      title: `${required.part.number} ${required.part.name}: pieces`,
      inputs: required.demands.map(toInput),
      result: { kind: 'count', value: required.count },
      formula: 'directly needed + pieces of each assembly × quantity in it',
      assumed: '',
      source: 'Heizer and Render, Operations Management, ch. 14',
    },
  }
}

function toEquipmentLine(line: EquipmentLine): EquipmentBillLine {
  const isOurs = line.suppliedBy === 'shop'
  const price = (minor: number) => (isOurs ? toExact(line.quantity * toWhole(minor, 0, `The price of ${line.number}`), `The price of ${line.number}`) : 0)
  const [costMinor, sellMinor] = [price(line.costMinor), price(line.priceMinor)]
  return {
    line, costMinor, sellMinor, buyMinor: line.isReceived === true ? 0 : costMinor,
    working: {
      title: `${line.number} ${line.name}`,
      inputs: [
        { label: 'Quantity', source: 'equipment line', amount: { kind: 'count', value: line.quantity } },
        { label: 'Price of one', source: `equipment line, supplied by the ${line.suppliedBy}`, amount: { kind: 'money', value: line.priceMinor } },
      ],
      result: { kind: 'money', value: sellMinor },
      formula: isOurs ? 'quantity × price of one' : 'nothing: the customer brings it',
      assumed: '',
      source: 'common practice, no source',
    },
  }
}

function toSingleUseLine(item: SingleUse, factoryPart: Owner): SingleUseLine {
  const { usedUp, spares } = toRenew(item)
  const quantity = usedUp + spares
  const price = (minor: number) => toExact(quantity * toWhole(minor, 0, `The price of ${item.name}`), `The price of ${item.name}`)
  return {
    item, factoryPart, zoneId: [...factoryPart.piecesByZone.keys()][0] ?? null, spares, quantity,
    costMinor: price(item.costMinor), sellMinor: price(item.priceMinor),
    working: {
      title: `${item.name} for ${factoryPart.label}`,
      inputs: [
        { label: 'Hold it', source: 'fastener', amount: { kind: 'count', value: item.count } },
        { label: 'Of these used up when it goes back on', source: 'fastener, single-use or not', amount: { kind: 'count', value: usedUp } },
        { label: 'Share that breaks', source: 'fastener, or the shop’s settings', amount: { kind: 'share', value: item.breakThousandths } },
      ],
      result: { kind: 'count', value: quantity },
      formula: 'used up + those that hold it × share that breaks, rounded up',
      assumed: 'What breaks is an expectation; the shop sets the share.',
      source: 'common practice, no source',
    },
  }
}

function toTotals(title: string, materialsMinor: number, equipmentMinor: number, singleUseMinor: number, assumed = ''): BillTotals {
  const input = (label: string, value: number): WorkingInput => ({ label, source: 'sum of its lines', amount: { kind: 'money', value } })
  const totalMinor = toExact(materialsMinor + equipmentMinor + singleUseMinor, title)
  return {
    materialsMinor, equipmentMinor, singleUseMinor, totalMinor,
    working: {
      title,
      inputs: [input('Materials', materialsMinor), input('Equipment', equipmentMinor), input('Single-use parts', singleUseMinor)],
      result: { kind: 'money', value: totalMinor },
      formula: 'materials + equipment + single-use parts',
      assumed: `${assumed}Tax is not in it. What the customer brings counts nothing.`,
      source: 'common practice, no source',
    },
  }
}
