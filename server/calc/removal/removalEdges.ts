import { closureOfPredecessors } from '../graph.ts'
import type { Edge } from '../graph.ts'

/**
 * One rule of order. In 'found' and 'built' `beforeId` must be out (or loosened) before `afterId` can
 * come out; in 'reinstall' `beforeId` must be refitted before `afterId` is. Edges that share a `way`
 * make one alternative way to `afterId`: one of its ways must hold, and every edge without a way.
 */
export interface RemovalEdge {
  readonly graph: 'found' | 'built' | 'reinstall'
  readonly kind: 'out' | 'loosened'
  readonly beforeId: string
  readonly afterId: string
  readonly way?: string
}

interface Whereabouts {
  readonly id: string
  readonly stays?: boolean
}

/**
 * The edges without those that a teardown disproved: a part that is out came past one that stays in the
 * vehicle, so that one does not stand in front of it. An assumption of ours, no source.
 *
 * @example withoutDisproved([{ graph: 'found', kind: 'out', beforeId: 'sill', afterId: 'pillar' }], [{ id: 'sill', stays: true }, { id: 'pillar' }], () => false) // []
 */
export function withoutDisproved<Part extends Whereabouts>(edges: readonly RemovalEdge[], parts: readonly Part[], isInVehicle: (part: Part) => boolean): RemovalEdge[] {
  const staying = new Set(parts.filter(part => part.stays === true).map(({ id }) => id))
  const out = new Set(parts.filter(part => !isInVehicle(part)).map(({ id }) => id))
  return edges.filter(({ graph, beforeId, afterId }) => graph !== 'found' || !staying.has(beforeId) || !out.has(afterId))
}

export function toEdges(edges: readonly RemovalEdge[]): Edge[] {
  return edges.map(edge => ({ before: edge.beforeId, after: edge.afterId }))
}

export function toReversedEdges(edges: readonly RemovalEdge[]): Edge[] {
  return edges.map(edge => ({ before: edge.afterId, after: edge.beforeId }))
}

export interface AsBuiltEdges {
  readonly standing: readonly RemovalEdge[]
  /** As-found edges that the as-built record speaks against. */
  readonly overruled: readonly RemovalEdge[]
}

/**
 * What binds in the vehicle as built: the as-built record, and of the as-found record all that the
 * as-built one does not speak against. A found edge gives way when the same two things have an
 * as-built edge, or when what is in the vehicle already has to go in the opposite order; an as-built
 * edge about a thing that is out gives way when the found record asks for the opposite. A named way
 * never gives way: one that cannot be gone any more is passed over.
 */
export function toAsBuiltEdges(edges: readonly RemovalEdge[], presentIds: ReadonlySet<string>): AsBuiltEdges {
  const built = edges.filter(edge => edge.graph === 'built')
  const found = edges.filter(edge => edge.graph === 'found')
  const isCurrent = (edge: RemovalEdge) => presentIds.has(edge.beforeId)
  const isAgainstFound = opposes(found)
  const standingBuilt = built.filter(edge => isCurrent(edge) || !isAgainstFound(edge))
  const isAgainstBuilt = opposes(built.filter(isCurrent))
  const recorded = new Set(standingBuilt.map(toPair))
  const isOverruled = (edge: RemovalEdge) => isAgainstBuilt(edge) || (!edge.way && recorded.has(toPair(edge)))
  return {
    standing: [...standingBuilt, ...found.filter(edge => !isOverruled(edge))],
    overruled: found.filter(isOverruled),
  }
}

/** Whether an edge asks for the opposite of what the others ask for, directly or by a chain. */
function opposes(others: readonly RemovalEdge[]): (edge: RemovalEdge) => boolean {
  // Only what always holds can overrule: a way may turn out not to be taken.
  const firm = toEdges(others.filter(edge => !edge.way))
  const earlier = new Map<string, Set<string>>()
  return ({ beforeId, afterId, way }) => {
    if (way || beforeId === afterId) return false
    const known = earlier.get(beforeId) ?? closureOfPredecessors([beforeId], firm)
    earlier.set(beforeId, known)
    return known.has(afterId)
  }
}

function toPair({ beforeId, afterId }: RemovalEdge): string {
  return `${beforeId} ${afterId}`
}
