import type { EarlierOrders } from '../../web/restoration/earlierOrders.tsx'
import { counted } from '../../web/shared/text.ts'
import type { VehicleState } from '../restoration/store.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import type { OrderView } from './orderView.ts'
import { listEarlierZones } from './store.ts'

const MOST_OFFERED = 3

/** Where a zone has no factory part yet, the earlier builds that its order of removal can be taken over from. */
export async function earlierOrders(reads: Reads, view: OrderView, { build, input }: VehicleState): Promise<EarlierOrders | undefined> {
  const allHref = `/builds/${build.id}/templates`
  if (view.kind === 'whole') return input.factoryParts.length === 0 ? { orders: [], allHref } : undefined
  if (view.kind !== 'zone' || input.factoryParts.some(({ zoneId }) => zoneId === view.zone.id)) return undefined
  const zones = await listEarlierZones(reads, build.id, view.zone.place, MOST_OFFERED)
  return {
    allHref,
    orders: zones.map(({ id, name, build: source, _count }) => ({
      name: `${label('B', source.number)} ${source.title}: ${name}, ${counted(_count.factoryParts, 'factory part', 'factory parts')}`,
      href: `${allHref}/preview?${new URLSearchParams({ source: source.id, what: 'removal order', zone: id, into: view.zone.id }).toString()}`,
    })),
  }
}
