import type { AccessStep } from '../removal/access.ts'
import { isInVehicle, toPartLabel } from '../removal/factoryParts.ts'
import type { RemovalEdge } from '../removal/removalEdges.ts'
import type { RestorationInput } from './restorationInput.ts'
import type { Scope } from './restorationScope.ts'

interface Outcome {
  readonly input: RestorationInput
  readonly scope: Scope
  readonly steps: readonly AccessStep[]
  readonly edges: readonly RemovalEdge[]
  readonly labelOf: (id: string) => string
}

/** What the plan cannot settle by itself and somebody has to look at, in sentences. */
export function listOpenPoints(outcome: Outcome): string[] {
  if (outcome.scope.isWhole) return []
  return [...listLostMountings(outcome), ...listEmptyPlaces(outcome), ...listLoose(outcome), ...listHiddenPlaces(outcome)]
}

function listLostMountings({ scope, steps, edges, labelOf, input }: Outcome): string[] {
  const staying = new Set(scope.staysOutIds)
  const items = new Set(input.installedItems.map(item => item.id))
  const goesBack = steps.map(step => step.id).filter(id => items.has(id) && !staying.has(id))
  return goesBack.flatMap(id => edges
    .filter(edge => edge.beforeId === id && staying.has(edge.afterId))
    .map(edge => `${labelOf(id)} goes back although ${labelOf(edge.afterId)} behind it stays out: check how it is held.`))
}

function listEmptyPlaces({ scope, input }: Outcome): string[] {
  return input.installedItems.filter(item => scope.staysOutIds.includes(item.id)).flatMap(item => input.factoryParts
    .filter(part => item.replacesFactoryPartIds.includes(part.id) && !scope.partIds.includes(part.id) && !isInVehicle(part))
    .map(part => `${toPartLabel(part)} stays out, and once ${item.number} is out nothing takes its place.`))
}

function listLoose({ scope, input }: Outcome): string[] {
  return input.factoryParts.filter(part => part.state === 'loosened' && !scope.partIds.includes(part.id))
    .map(part => `${toPartLabel(part)} is loose and not part of this restoration.`)
}

function listHiddenPlaces({ scope, input }: Outcome): string[] {
  const reversed = scope.repairs.flatMap(repair => repair.kind === 'reverse' ? [repair.alterationId] : [])
  return input.alterations.filter(alteration => alteration.factoryPartId === null && reversed.includes(alteration.id))
    .map(alteration => `Alteration ${alteration.number} is in the body: what stands in front of it is not on record, look before you begin.`)
}
