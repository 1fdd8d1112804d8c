import type { BillInput, MaterialNeed, SingleUse } from './billInput.ts'
import { divideUp } from './netting.ts'
import type { Owner, OwnerKind, OwnerReference } from './owners.ts'
import { toExact, toWhole } from '../refusal.ts'

/** Where a quantity on a line of the bill of materials comes from. */
export interface Peg {
  readonly materialId: string
  readonly source: OwnerKind
  readonly id: string | null
  readonly label: string
  readonly zoneId: string | null
  readonly pieces: number
  readonly perPiece: number
  readonly quantity: number
  /** Of the quantity, pieces for those that break. */
  readonly spares: number
  readonly expectedOn: string | null
  readonly isReceived: boolean
  /** New fasteners for the way back. */
  readonly isFastener: boolean
}

/** One peg for each need and zone, and for each single-use part that is taken from a material. */
export function pegNeeds({ needs, singleUse }: BillInput, ownerOf: (reference: OwnerReference) => Owner): Peg[] {
  return [...needs.flatMap(need => pegNeed(need, ownerOf(need))), ...singleUse.flatMap(item => pegSingleUse(item, ownerOf))]
    .filter(peg => peg.quantity > 0)
}

/** Spare pieces for those that break (200: one in five), rounded up. @example sparesOf(6, 200) // 2 */
export function sparesOf(count: number, breakThousandths: number): number {
  return divideUp(toExact(count * breakThousandths, 'The spare pieces'), 1000)
}

/** What is used up of the fasteners of a part, and the spares beside it. */
export function toRenew({ name, count, isUsedOnce, breakThousandths }: SingleUse): { readonly usedUp: number, readonly spares: number } {
  const held = toWhole(count, 0, `The count of ${name}`)
  return { usedUp: isUsedOnce ? held : 0, spares: sparesOf(held, toWhole(breakThousandths, 0, `The share of ${name} that breaks`)) }
}

/** The reference a single-use part is pegged to. */
export function factoryPartReference(factoryPartId: string): OwnerReference {
  return { partId: null, equipmentLineId: null, factoryPartId }
}

function pegNeed(need: MaterialNeed, owner: Owner): Peg[] {
  const perPiece = toWhole(need.quantity, 0, `The material for ${owner.label}`)
  const places = need.zoneId === null ? [...owner.piecesByZone] : [[need.zoneId, owner.pieces] as const]
  return places.map(([zoneId, pieces]) => ({
    materialId: need.materialId, source: owner.kind, id: owner.id, label: labelOf(owner, need), zoneId, pieces, perPiece,
    quantity: toExact(pieces * perPiece, `The material for ${owner.label}`), spares: 0, expectedOn: need.expectedOn, isReceived: need.isReceived ?? false, isFastener: false,
  }))
}

const labelOf = ({ label }: Owner, { by = '' }: MaterialNeed): string => (by === '' ? label : `${label} by ${by}`)

function pegSingleUse(item: SingleUse, ownerOf: (reference: OwnerReference) => Owner): Peg[] {
  const { materialId } = item
  if (materialId === null) return []
  const owner = ownerOf(factoryPartReference(item.factoryPartId))
  const { usedUp, spares } = toRenew(item)
  return [...owner.piecesByZone.keys()].map(zoneId => ({
    materialId, source: owner.kind, id: owner.id, label: `${owner.label}: ${item.name}`, zoneId,
    pieces: 1, perPiece: usedUp + spares, quantity: usedUp + spares, spares, expectedOn: null, isReceived: false, isFastener: true,
  }))
}
