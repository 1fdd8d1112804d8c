import type { AmountKind } from '../amounts.ts'
import type { Part, PartUse } from './partTree.ts'

export interface Zone {
  readonly id: string
  readonly name: string
}

/** A factory part as lists and workings name it, its number as printed ("F-021"). */
export interface NamedFactoryPart {
  readonly id: string
  readonly number: string
  readonly name: string
  readonly zoneId: string | null
}

export interface EquipmentLine {
  readonly id: string
  readonly number: string
  readonly name: string
  readonly zoneId: string | null
  readonly quantity: number
  readonly suppliedBy: 'shop' | 'customer'
  /** For one unit. */
  readonly costMinor: number
  readonly priceMinor: number
  readonly leadDays: number
  readonly expectedOn: string | null
  /** Bought already: nothing of it has still to be spent. */
  readonly isReceived?: boolean
}

export type MaterialForm = 'each' | 'length' | 'area' | 'volume' | 'mass'

export interface Material {
  readonly id: string
  readonly number: string
  readonly name: string
  readonly form: MaterialForm
  /** What one pack holds: pieces, µm, mm², mL or g by form. */
  readonly packQuantity: number
  readonly packName: string
  readonly packCostMinor: number
  readonly packPriceMinor: number
  readonly wasteThousandths: number
  readonly leadDays: number
}

/** What a thing of the build takes of a material; all three owners null means the build itself. */
export interface MaterialNeed {
  readonly id: string
  readonly materialId: string
  /** Per piece of the part or unit of the equipment; in all for a factory part or the build. */
  readonly quantity: number
  readonly partId: string | null
  readonly equipmentLineId: string | null
  readonly factoryPartId: string | null
  /** What brings it, as "kit Door speakers". */
  readonly by?: string
  /** Where the material goes when that is not where its owner goes. */
  readonly zoneId: string | null
  readonly expectedOn: string | null
  /** Bought already: nothing of it has still to be spent. */
  readonly isReceived?: boolean
}

/** Clips, seals and the like of which new ones are needed when a factory part goes back on. */
export interface SingleUse {
  readonly id: string
  readonly name: string
  /** Taken from this material (bought each) when given, else bought by the piece. */
  readonly materialId: string | null
  readonly factoryPartId: string
  /** So many hold the part. */
  readonly count: number
  /** All of them are used up; otherwise only those that break. */
  readonly isUsedOnce: boolean
  /** How many of a thousand break. */
  readonly breakThousandths: number
  readonly costMinor: number
  readonly priceMinor: number
}

export interface Stock {
  readonly materialId: string
  readonly onHand: number
  /** Held for other builds. */
  readonly reserved: number
}

export interface BillInput {
  readonly parts: readonly Part[]
  readonly partUses: readonly PartUse[]
  readonly equipment: readonly EquipmentLine[]
  readonly factoryParts: readonly NamedFactoryPart[]
  readonly materials: readonly Material[]
  readonly needs: readonly MaterialNeed[]
  readonly singleUse: readonly SingleUse[]
  readonly zones: readonly Zone[]
  readonly stock?: readonly Stock[]
}

export const FORM_KIND: Readonly<Record<MaterialForm, AmountKind>> = {
  each: 'count', length: 'length', area: 'area', volume: 'volume', mass: 'mass',
}
