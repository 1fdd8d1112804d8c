import type { EquipmentLine, NamedFactoryPart } from './billInput.ts'
import type { RequiredParts } from './partTree.ts'
import { Refusal, toWhole } from '../refusal.ts'

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
  readonly factoryParts: readonly NamedFactoryPart[]
}

const BUILD: Owner = { kind: 'build', id: null, label: 'the build', pieces: 1, piecesByZone: new Map([[null, 1]]) }

/** Answers what a reference stands for; all null is the build itself, an unknown id is refused. */
export function ownerFinder({ parts, equipment, factoryParts }: OwnerWorld): (reference: OwnerReference) => Owner {
  const partOwners = new Map([...parts].map(([id, { part, count, countByZone }]): [string, Owner] =>
    [id, { kind: 'part', id, label: toLabel(part), pieces: count, piecesByZone: countByZone }]))
  const lineOwners = new Map(equipment.map(line =>
    [line.id, toOwner('equipment', line, toWhole(line.quantity, 0, `The quantity of ${line.number}`))]))
  const factoryPartOwners = new Map(factoryParts.map(part => [part.id, toOwner('factory part', part, 1)]))

  return ({ partId, equipmentLineId, factoryPartId }) => {
    if (partId !== null) return known(partOwners.get(partId))
    if (equipmentLineId !== null) return known(lineOwners.get(equipmentLineId))
    if (factoryPartId !== null) return known(factoryPartOwners.get(factoryPartId))
    return BUILD
  }
}

/** Pieces by zone, those without pieces kept in view so that a share of nothing still has a place. */
export function placesOf(owner: Owner): readonly (readonly [string | null, number])[] {
  return owner.piecesByZone.size > 0 ? [...owner.piecesByZone] : [[null, 0]]
}

function known(owner: Owner | undefined): Owner {
  if (!owner) throw new Refusal('Something belongs to a part, an equipment line or a factory part that is not in the build.')
  return owner
}

function toLabel({ number, name }: { number: string, name: string }): string {
  return `${number} ${name}`
}

function toOwner(kind: OwnerKind, thing: NamedFactoryPart, pieces: number): Owner {
  return { kind, id: thing.id, label: toLabel(thing), pieces, piecesByZone: new Map([[thing.zoneId, pieces]]) }
}
