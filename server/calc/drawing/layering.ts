import { groupEdges, topologicalOrder } from '../graph.ts'
import type { Edge } from '../graph.ts'

/**
 * Puts the things of a graph without rings into layers, first out in layer 0, at most `mostAcross`
 * in one, so that every edge leads to a later layer. Each thing stands as late as it can.
 *
 * Coffman and Graham 1972, Acta Informatica 1:200 (from memory): labels from the first out on, then
 * layers from the last one up. Two across: as few layers as can be; w across: at most (2 − 2/w) times
 * as many (Lam and Sethi 1977, from memory); without a limit: as many as the longest chain has things.
 *
 * @example assignLayers(['a', 'b', 'c'], [{ before: 'a', after: 'b' }, { before: 'b', after: 'c' }, { before: 'a', after: 'c' }], 2) // [['a'], ['b'], ['c']]
 */
export function assignLayers(ids: readonly string[], edges: readonly Edge[], mostAcross: number): string[][] {
  const direct = withoutDetours(ids, edges)
  const labels = labelsOf(ids, direct)
  const later = groupEdges(direct, 'before', 'after')
  const layerOf = new Map<string, number>()
  const fromLast: string[][] = []
  const open = new Set(ids)
  while (open.size > 0) {
    const above = (id: string): boolean => (later.get(id) ?? []).every(other => (layerOf.get(other) ?? Infinity) < fromLast.length)
    const free = [...open].filter(above).sort((a, b) => (labels.get(b) ?? 0) - (labels.get(a) ?? 0)).slice(0, mostAcross)
    if (free.length === 0) throw new Error('a graph with a ring has no layers')
    for (const id of free) {
      open.delete(id)
      layerOf.set(id, fromLast.length)
    }
    fromLast.push(free)
  }
  return fromLast.reverse()
}

/** Edges that a longer way round does not say already. */
function withoutDetours(ids: readonly string[], edges: readonly Edge[]): Edge[] {
  const order = topologicalOrder(ids, edges)
  if ('cycle' in order) throw new Error('a graph with a ring has no layers')
  const place = new Map(order.order.map((id, index) => [id, index]))
  const known = edges.filter(({ before, after }) => place.has(before) && place.has(after))
  const later = groupEdges(known, 'before', 'after')
  const reached = new Map<string, Set<string>>()
  for (const id of order.order.toReversed()) {
    reached.set(id, new Set((later.get(id) ?? []).flatMap(next => [next, ...reached.get(next) ?? []])))
  }
  return known.filter(({ before, after }) => !(later.get(before) ?? []).some(other => other !== after && reached.get(other)?.has(after)))
}

/** Labels 1, 2, …: always to the thing whose labels of what comes before it are the smallest, the largest of them first. */
function labelsOf(ids: readonly string[], edges: readonly Edge[]): Map<string, number> {
  const earlier = groupEdges(edges, 'after', 'before')
  const labels = new Map<string, number>()
  const open = new Set(ids)
  while (open.size > 0) {
    const ready = [...open].filter(id => (earlier.get(id) ?? []).every(other => labels.has(other)))
    const listed = ready.map(id => ({ id, before: (earlier.get(id) ?? []).map(other => labels.get(other) ?? 0).sort((a, b) => b - a) }))
    const least = listed.reduce((best, one) => (compareLists(one.before, best.before) < 0 ? one : best))
    labels.set(least.id, labels.size + 1)
    open.delete(least.id)
  }
  return labels
}

function compareLists(a: readonly number[], b: readonly number[]): number {
  for (const [index, value] of a.entries()) {
    const other = b[index]
    if (other === undefined) return 1
    if (value !== other) return value - other
  }
  return a.length - b.length
}
