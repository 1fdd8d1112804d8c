import { toPartNumber } from '../calc/removal/factoryParts.ts'
import type { VehicleState } from './store.ts'

/** A thing in or of the vehicle as pages name and link it. */
export interface NamedThing {
  readonly number: string
  readonly name: string
  readonly href: string
  /** Fitted by the shop, not the factory. */
  readonly isBuilt: boolean
}

/** Number, name and address of every factory part and installed item, by id. */
export function nameThings({ input }: Pick<VehicleState, 'input'>): Map<string, NamedThing> {
  return new Map([
    ...input.factoryParts.map((part): [string, NamedThing] => [part.id, {
      number: toPartNumber(part), name: part.name, href: `/factory-parts/${part.id}`, isBuilt: false,
    }]),
    ...input.installedItems.map((item): [string, NamedThing] => [item.id, {
      number: item.number, name: item.name, isBuilt: true, href: item.kind === 'equipment' ? `/equipment-lines/${item.id}` : `/parts/${item.id}`,
    }]),
  ])
}

/** The name of an id, or the id itself for what is not in the build any more. */
export function namer(things: ReadonlyMap<string, NamedThing>): (id: string) => string {
  return (id) => {
    const thing = things.get(id)
    return thing ? `${thing.number} ${thing.name}` : id
  }
}
