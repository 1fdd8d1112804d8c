import { findCycle } from '../calc/graph.ts'
import { toAsBuiltEdges, toEdges, type RemovalEdge } from '../calc/removal/removalEdges.ts'

interface Rule {
  readonly graph: string
  readonly kind: string
  readonly beforeId: string
  readonly afterId: string
  readonly way: string
}

/**
 * The ring that a new rule closes in the vehicle as built, where rules as found go on holding beside those as built;
 * null where it closes none. A named way that cannot be gone is passed over, so it closes none. A ring that was there
 * before is named on the page and keeps nobody from mending it.
 */
export function ringAcross(others: readonly Rule[], added: Rule): readonly string[] | null {
  if (added.graph === 'going back' || added.way !== '') return null
  const firm = others.filter(({ graph, way }) => graph !== 'going back' && way === '')
  return ringOf(firm) === null ? ringOf([...firm, added]) : null
}

function ringOf(rules: readonly Rule[]): readonly string[] | null {
  const edges = rules.map(({ graph, kind, beforeId, afterId }): RemovalEdge =>
    ({ graph: graph === 'as built' ? 'built' : 'found', kind: kind === 'loosened' ? 'loosened' : 'out', beforeId, afterId }))
  const ids = new Set(edges.flatMap(({ beforeId, afterId }) => [beforeId, afterId]))
  return findCycle([...ids], toEdges(toAsBuiltEdges(edges, ids).standing))
}
