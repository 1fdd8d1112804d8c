import { isInVehicle, toPartLabel, toPartNumber } from '../removal/factoryParts.ts'
import type { FactoryPart, InstalledItem } from '../removal/factoryParts.ts'
import type { Compare } from '../graph.ts'
import type { Trigger } from '../removal/triggers.ts'

/** A factory part or an installed item, as far as coming out and going back treat them alike. */
export interface Thing {
  readonly id: string
  readonly number: string
  readonly label: string
  readonly zoneName: string
  readonly isFactoryPart: boolean
  readonly isPresent: boolean
  readonly takeOutS: number
  readonly putBackS: number
  readonly triggers: readonly Trigger[]
}

interface Vehicle {
  readonly factoryParts: readonly FactoryPart[]
  readonly installedItems: readonly InstalledItem[]
}

/** Factory parts first, each kind by number; installed items that were never fitted do not count. */
export function listThings({ factoryParts, installedItems }: Vehicle): Thing[] {
  return [
    ...factoryParts.toSorted((a, b) => a.number - b.number).map(toPartThing),
    ...installedItems.filter(item => item.isFitted).toSorted(byNumber).map(toItemThing),
  ]
}

/** Zone by zone in the order in which the zones first appear, so that nobody walks around the vehicle twice. */
export function byZone(things: readonly Thing[]): Compare {
  const zoneNames = [...new Set(things.map(thing => thing.zoneName))]
  const placeOf = new Map(things.map(thing => [thing.id, zoneNames.indexOf(thing.zoneName)]))
  return (a, b) => (placeOf.get(a) ?? 0) - (placeOf.get(b) ?? 0)
}

function toPartThing(part: FactoryPart): Thing {
  return {
    id: part.id,
    number: toPartNumber(part),
    label: toPartLabel(part),
    zoneName: part.zoneName,
    isFactoryPart: true,
    isPresent: isInVehicle(part),
    takeOutS: part.takeOutS,
    putBackS: part.putBackS,
    triggers: part.cautionTriggers,
  }
}

function toItemThing(item: InstalledItem): Thing {
  return {
    id: item.id,
    number: item.number,
    label: `${item.number} ${item.name}`,
    zoneName: item.zoneName,
    isFactoryPart: false,
    isPresent: true,
    takeOutS: item.takeOutS,
    putBackS: item.putBackS,
    triggers: item.cautionTriggers,
  }
}

function byNumber(a: InstalledItem, b: InstalledItem): number {
  return a.number < b.number ? -1 : Number(a.number > b.number)
}
