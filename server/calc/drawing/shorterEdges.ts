import { groupEdges } from '../graph.ts'
import type { Edge } from '../graph.ts'

/**
 * Moves things to other layers as long as that makes the edges shorter in all, none of them turning
 * around and no layer getting wider than allowed: what the network simplex of Gansner et al. 1993
 * (from memory) is for, one thing at a time. Never more layers than before.
 *
 * @example shortenEdges([['a', 'b'], ['c'], ['d']], [{ before: 'a', after: 'c' }, { before: 'c', after: 'd' }, { before: 'b', after: 'd' }], 2) // [['a'], ['b', 'c'], ['d']]
 */
export function shortenEdges(layers: readonly (readonly string[])[], edges: readonly Edge[], mostAcross: number): string[][] {
  const [later, earlier] = [groupEdges(edges, 'before', 'after'), groupEdges(edges, 'after', 'before')]
  const layerOf = new Map(layers.flatMap((layer, index) => layer.map(id => [id, index] as const)))
  const counts = layers.map(layer => layer.length)
  const ids = layers.flat()
  for (let isShorter = true; isShorter;) {
    isShorter = false
    for (const id of ids) {
      const [ins, outs] = [earlier.get(id) ?? [], later.get(id) ?? []]
      const at = layerOf.get(id) ?? 0
      const to = ins.length > outs.length ? nearestRoom(counts, Math.max(...ins.map(other => layerOf.get(other) ?? 0)) + 1, at, mostAcross)
        : outs.length > ins.length ? nearestRoom(counts, Math.min(...outs.map(other => layerOf.get(other) ?? 0)) - 1, at, mostAcross) : at
      if (to === at) continue
      counts[at] = (counts[at] ?? 0) - 1
      counts[to] = (counts[to] ?? 0) + 1
      layerOf.set(id, to)
      isShorter = true
    }
  }
  return layers.map((_, index) => ids.filter(id => layerOf.get(id) === index))
    .filter(layer => layer.length > 0)
}

/** The layer with room that is nearest to the wanted one, on the way there from where a thing stands. */
function nearestRoom(counts: readonly number[], wanted: number, at: number, mostAcross: number): number {
  const step = Math.sign(at - wanted)
  for (let layer = wanted; layer !== at; layer += step) if ((counts[layer] ?? 0) < mostAcross) return layer
  return at
}
