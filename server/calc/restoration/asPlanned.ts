import { isInVehicle } from '../removal/factoryParts.ts'
import type { FactoryPart, InstalledItem } from '../removal/factoryParts.ts'
import { closureOfPredecessors } from '../graph.ts'
import { toEdges } from '../removal/removalEdges.ts'
import type { RemovalEdge } from '../removal/removalEdges.ts'
import type { RestorationInput } from './restorationInput.ts'

type Recorded = Omit<RestorationInput, 'choice'>

/**
 * Each installed item with the factory parts whose places it takes: those out of the vehicle that the
 * as-built order says it stands before. An assumption of ours, no source.
 */
export function withTakenPlaces(input: Recorded): Recorded {
  const absent = new Set(input.factoryParts.filter(part => !isInVehicle(part)).map(({ id }) => id))
  const taken = input.edges.filter(({ graph, kind, afterId }) => graph === 'built' && kind === 'out' && absent.has(afterId))
  return { ...input, installedItems: input.installedItems.map(item => toTaking(item, taken)) }
}

function toTaking(item: InstalledItem, edges: readonly RemovalEdge[]): InstalledItem {
  return { ...item, replacesFactoryPartIds: edges.filter(({ beforeId }) => beforeId === item.id).map(({ afterId }) => afterId) }
}

/**
 * The vehicle as the build is meant to leave it, for a price of the way back before the work begins:
 * everything entered is fitted; a listed factory part is out, unless teardown found that it stays, or the
 * as-built order has it in front of something: then it goes back on, and what came off before it as well. An assumption of ours, no source.
 *
 * @example // a door panel in front of an amplifier stays fitted, the radio that nothing says of is out
 */
export function asPlanned(input: Recorded): Recorded {
  const built = input.edges.filter(({ graph }) => graph === 'built').map(({ beforeId }) => beforeId)
  const inFront = closureOfPredecessors(built, toEdges(input.edges.filter(({ graph }) => graph === 'found')))
  return withTakenPlaces({
    ...input,
    factoryParts: input.factoryParts.map(part => inFront.has(part.id) ? part : toPlanned(part)),
    installedItems: input.installedItems.map(item => ({ ...item, isFitted: true })),
  })
}

function toPlanned(part: FactoryPart): FactoryPart {
  if (part.stays === true) return part
  return part.state === 'fitted' || part.state === 'loosened' ? { ...part, state: 'out and stored' } : part
}

/** Whether nothing is out, loose, altered or installed yet: the vehicle is as it came. */
export function isAsItCame({ factoryParts, installedItems, alterations }: Recorded): boolean {
  return factoryParts.every(({ state }) => state === 'fitted') && installedItems.every(({ isFitted }) => !isFitted)
    && alterations.every(({ isReversed }) => isReversed)
}
