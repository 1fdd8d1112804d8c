import type { RestRow } from '../../web/teardown/teardownData.ts'
import { isInVehicle, toPartLabel, type FactoryPart } from '../calc/removal/factoryParts.ts'
import { label } from '../shared/records/kind.ts'
import { PLACE_UNSAID, type Records } from './store.ts'

/** What was recorded incompletely: it can follow, and until then it stands here. */
export function toRest(factoryParts: readonly FactoryPart[], { removals, bins, shownIds, alteredIds }: Records, buildId: string): RestRow[] {
  const page = `/builds/${buildId}/teardown`
  const recordedIds = new Set(removals.filter(({ kind }) => kind !== 'stays').map(({ factoryPartId }) => factoryPartId))
  const parts = factoryParts.filter((part) => recordedIds.has(part.id) || part.state === 'out and stored').map((part) => ({
    name: toPartLabel(part), href: `${page}?part=${part.id}#more`, missing: missingOf(part, shownIds).join(', '),
  }))
  const untold = factoryParts.filter((part) => part.state === 'altered' && !alteredIds.has(part.id))
    .map((part) => ({ name: toPartLabel(part), href: alterationHref(buildId, part), missing: 'how it was altered' }))
  const unplaced = bins.filter(({ place }) => place === PLACE_UNSAID).map(({ id, number }) => ({ name: `Bin ${label('A', number)}`, href: `/bins/${id}/form`, missing: 'where it stands' }))
  return [...untold, ...parts, ...unplaced].filter(({ missing }) => missing !== '')
}

/** The form of an alteration of this part. */
export const alterationHref = (buildId: string, { id, zoneId }: { readonly id: string, readonly zoneId: string }): string =>
  `/alterations/new?${new URLSearchParams({ build: buildId, factoryPartId: id, zoneId }).toString()}`

function missingOf(part: FactoryPart, shownIds: ReadonlySet<string>): string[] {
  const isAway = ['out with the customer', 'missing', 'disposed with consent'].includes(part.state)
  return [
    ...(shownIds.has(part.id) ? [] : ['photo']),
    ...(isInVehicle(part) || isAway || part.place !== '' ? [] : ['bin']),
    ...(part.fasteners.length > 0 ? [] : ['fasteners']),
  ]
}
