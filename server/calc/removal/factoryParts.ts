import type { Trigger } from './triggers.ts'

export const FACTORY_PART_STATES = [
  'fitted', 'loosened', 'out and stored', 'out with the customer', 'altered', 'damaged', 'missing',
  'disposed with consent',
] as const

export type FactoryPartState = typeof FACTORY_PART_STATES[number]

export interface Fastener {
  readonly id: string
  /** 'screw', 'bolt', 'nut', 'clip' and the like. */
  readonly kind: string
  readonly size: string
  readonly drive: string
  readonly count: number
  readonly torqueMnm: number | null
  readonly torqueSource: string
  readonly isSingleUse: boolean
  /** Share that breaks when taken out, in thousandths: 200 = one in five. */
  readonly breakThousandths: number
  /** Price each, null when nobody knows it. */
  readonly priceMinor: number | null
  readonly leadDays: number
  /** Holds a belt, a seat or an airbag. */
  readonly isSafety: boolean
}

export interface FactoryPart {
  readonly id: string
  readonly number: number
  readonly name: string
  /** The vehicle maker's number for it; '' where nobody noted it. */
  readonly makerNumber?: string
  readonly zoneId: string
  readonly zoneName: string
  readonly state: FactoryPartState
  /** Looked at in teardown and left in the vehicle. */
  readonly stays?: boolean
  /** Bin or shelf; '' when the part is not put away. */
  readonly place: string
  readonly takeOutS: number
  readonly putBackS: number
  readonly cautionTriggers: readonly Trigger[]
  readonly connectors: string
  readonly fasteners: readonly Fastener[]
  readonly leadDays: number
  readonly replaceCostMinor: number | null
  readonly note: string
}

export interface InstalledItem {
  readonly id: string
  readonly kind: 'equipment' | 'made part'
  /** As printed: "E-05", "P-420". */
  readonly number: string
  readonly name: string
  readonly zoneId: string
  readonly zoneName: string
  readonly isFitted: boolean
  readonly takeOutS: number
  readonly putBackS: number
  readonly cautionTriggers: readonly Trigger[]
  readonly fasteners: string
  /** The factory parts whose place it takes: once one of them goes back, this stays out. */
  readonly replacesFactoryPartIds: readonly string[]
}

export interface PartToBuy {
  readonly name: string
  readonly count: number
  readonly priceMinor: number | null
  readonly leadDays: number
}

/** What another firm has to do for a reversal; `costMinor` null = no price known. */
export interface OutsideWork {
  readonly what: string
  readonly costMinor: number | null
  /** Working days it is away. */
  readonly days: number
}

export interface Alteration {
  readonly id: string
  readonly number: string
  readonly zoneId: string
  readonly zoneName: string
  /** Where on the vehicle that is, whatever the zone is called: "pillars". */
  readonly zonePlace?: string
  /** Null when the body itself was altered. */
  readonly factoryPartId: string | null
  readonly what: string
  /** Where exactly on the vehicle or the part. */
  readonly whereAt?: string
  readonly kind: string
  /** '' = without consent. */
  readonly consentBy: string
  /** Left out where nobody looked. */
  readonly hasPhoto?: boolean
  readonly isReversible: boolean
  /** One step a line. */
  readonly reversal: string
  readonly outside?: OutsideWork
  readonly reverseS: number
  readonly partsToBuy: readonly PartToBuy[]
  readonly leadDays: number
  readonly isReversed: boolean
}

/** @example toPartLabel({ number: 21, name: 'door panel' }) // 'F-021 door panel' */
export function toPartLabel(part: Pick<FactoryPart, 'number' | 'name'>): string {
  return `${toPartNumber(part)} ${part.name}`
}

export function toPartNumber(part: Pick<FactoryPart, 'number'>): string {
  return `F-${String(part.number).padStart(3, '0')}`
}

/** An altered or damaged part is in the vehicle unless a bin or shelf is noted for it. */
export function isInVehicle(part: Pick<FactoryPart, 'state' | 'place'>): boolean {
  if (part.state === 'altered' || part.state === 'damaged') return part.place === ''
  return part.state === 'fitted' || part.state === 'loosened'
}
