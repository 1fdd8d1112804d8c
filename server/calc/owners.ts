import type { EquipmentLine, FactoryPart } from './billInput.ts'
import type { RequiredParts } from './partTree.ts'
import { Refusal, toWhole } from './refusal.ts'

export type OwnerKind = 'part' | 'equipment' | 'factory part' | 'build'

/** What an operation, a material need or an hour is for. */
export interface OwnerReference {
  readonly partId: string | null
  readonly equipmentLineId: string | null
  readonly factoryPartId: string | null
}

export interface Owner {
  readonly kind: OwnerKind
  readonly id: string | null
  readonly label: string
  /** Pieces of a part, units of an equipment line, one factory part, one build. */
  readonly pieces: number
  readonly piecesByZone: ReadonlyMap<string | null, number>
}

export interface OwnerWorld {
  readonly parts: RequiredParts
  readonly equipment: readonly EquipmentLine[]
  readonly factoryParts: readonly FactoryPart[]
}

const BUILD: Owner = { kind: 'build', id: null, label: 'the build', pieces: 1, piecesByZone: new Map([[null, 1]]) }

/** Answers what a reference stands for; all null is the build itself, an unknown id is refused. */
export function ownerFinder({ parts, equipment, factoryParts }: OwnerWorld): (reference: OwnerReference) => Owner {
  const owners = new Map<string, Owner>()
  for (const { part, count, countByZone } of parts.values()) {
    owners.set(part.id, { kind: 'part', id: part.id, label: toLabel(part), pieces: count, piecesByZone: countByZone })
  }
  for (const line of equipment) {
    owners.set(line.id, toOwner('equipment', line, toWhole(line.quantity, 0, `The quantity of ${line.number}`)))
  }
  for (const part of factoryParts) owners.set(part.id, toOwner('factory part', part, 1))

  return ({ partId, equipmentLineId, factoryPartId }) => {
    const id = partId ?? equipmentLineId ?? factoryPartId
    if (id === null) return BUILD
    const owner = owners.get(id)
    if (!owner) throw new Refusal('Something belongs to a part, an equipment line or a factory part that is not in the build.')
    return owner
  }
}

/** Pieces by zone, those without pieces kept in view so that a share of nothing still has a place. */
export function placesOf(owner: Owner): readonly (readonly [string | null, number])[] {
  return owner.piecesByZone.size > 0 ? [...owner.piecesByZone] : [[null, 0]]
}

function toLabel({ number, name }: { number: string, name: string }): string {
  return `${number} ${name}`
}

function toOwner(kind: OwnerKind, thing: FactoryPart, pieces: number): Owner {
  return { kind, id: thing.id, label: toLabel(thing), pieces, piecesByZone: new Map([[thing.zoneId, pieces]]) }
}
