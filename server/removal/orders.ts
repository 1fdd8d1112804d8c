import { isInVehicle } from '../calc/removal/factoryParts.ts'
import { toAsBuiltEdges, type RemovalEdge } from '../calc/removal/removalEdges.ts'
import { findRemovalOrder, type RemovalOrder } from '../calc/removal/removalOrder.ts'
import { listThings } from '../calc/restoration/things.ts'
import { namer, nameThings, type NamedThing } from '../restoration/naming.ts'
import type { VehicleState } from '../restoration/store.ts'

export interface Orders {
  readonly things: ReadonlyMap<string, NamedThing>
  /** Of the vehicle as the shop got it: factory parts alone, as if none were out. */
  readonly asFound: RemovalOrder
  /** Of the vehicle as it stands: what is in it, with what was installed. */
  readonly asBuilt: RemovalOrder
  /** Factory parts that nothing stands in front of. */
  readonly readyIds: readonly string[]
  readonly absentIds: ReadonlySet<string>
  readonly loosenedIds: ReadonlySet<string>
  /** What differs between the two, in sentences. */
  readonly differences: readonly string[]
  /** The rules that bind in each of the two, as they are drawn. */
  readonly rules: { readonly asFound: readonly RemovalEdge[], readonly asBuilt: readonly RemovalEdge[] }
  readonly presentIds: ReadonlySet<string>
}

/** Both orders of removal, for some things or for all that comes out. What stays, or is loose where that is enough, needs no step of a whole teardown. */
export function toOrders(state: VehicleState, targetIds: 'all' | readonly string[]): Orders {
  const { factoryParts, edges } = state.input
  const absentIds = new Set(factoryParts.filter((part) => !isInVehicle(part)).map(({ id }) => id))
  const loosenedIds = new Set(factoryParts.filter((part) => part.state === 'loosened').map(({ id }) => id))
  const stayingIds = targetIds === 'all' ? factoryParts.filter((part) => part.stays === true).map(({ id }) => id) : []
  const all = listThings(state.input)
  const present = all.filter((thing) => thing.isPresent)
  const presentIds = new Set(present.map(({ id }) => id))
  const { standing, overruled } = toAsBuiltEdges(edges, presentIds)
  const asFound = findRemovalOrder({ things: all.filter((thing) => thing.isFactoryPart), edges, targetIds, outIds: stayingIds, loosenedIds: [] })
  const asBuilt = findRemovalOrder({
    // What binds now takes the place of the as-found rules.
    things: present, edges: standing.map((edge) => ({ ...edge, graph: 'found' as const })), outIds: stayingIds, loosenedIds: [...loosenedIds],
    targetIds: targetIds === 'all' ? [...presentIds].filter((id) => !loosenedIds.has(id) && !stayingIds.includes(id)) : [...new Set(targetIds.flatMap((id) => (absentIds.has(id) ? placesInFront(standing, id) : [id])))],
  })
  const things = nameThings(state)
  const seen = [asFound, asBuilt].flatMap((order) => (order.kind === 'order' ? order.steps.map(({ id }) => id) : []))
  const isSeen = (edge: RemovalEdge): boolean => targetIds === 'all' || targetIds.includes(edge.afterId) || (seen.includes(edge.beforeId) && seen.includes(edge.afterId))
  return {
    things, asFound, asBuilt, absentIds, loosenedIds,
    readyIds: asBuilt.kind === 'order' ? asBuilt.readyIds.filter((id) => things.get(id)?.isBuilt === false) : [],
    differences: listDifferences(edges.filter(isSeen), overruled.filter(isSeen), { things, absentIds, presentIds }),
    rules: { asFound: edges.filter(({ graph }) => graph === 'found'), asBuilt: standing }, presentIds,
  }
}

// The place of a part that is out is reached by taking out what stands in it.
const placesInFront = (edges: readonly RemovalEdge[], id: string): string[] =>
  edges.filter(({ afterId }) => afterId === id).map(({ beforeId }) => beforeId)

interface Standing {
  readonly things: ReadonlyMap<string, NamedThing>
  readonly absentIds: ReadonlySet<string>
  readonly presentIds: ReadonlySet<string>
}

function listDifferences(edges: readonly RemovalEdge[], overruled: readonly RemovalEdge[], { things, absentIds, presentIds }: Standing): string[] {
  const name = namer(things)
  const isFound = (one: RemovalEdge): boolean =>
    edges.some((edge) => edge.graph === 'found' && edge.kind === one.kind && edge.beforeId === one.beforeId && edge.afterId === one.afterId)
  const added = edges.filter((edge) => edge.graph === 'built' && presentIds.has(edge.beforeId) && (presentIds.has(edge.afterId) || absentIds.has(edge.afterId)) && !isFound(edge))
  return [
    ...added.map(({ kind, beforeId, afterId }) => (absentIds.has(afterId)
      ? `${name(beforeId)} stands where ${name(afterId)} goes.`
      : `${name(beforeId)} now ${kind === 'loosened' ? 'has to be loosened for' : 'stands in front of'} ${name(afterId)}.`)),
    ...overruled.filter(({ beforeId, afterId }) => !added.some((edge) => edge.beforeId === beforeId && edge.afterId === afterId))
      .map(({ beforeId, afterId }) => `${name(beforeId)} no longer has to come out before ${name(afterId)}.`),
  ]
}
