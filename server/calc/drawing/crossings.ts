import { groupEdges } from '../graph.ts'
import type { Edge } from '../graph.ts'

/** Layers of ids, each from left to right; every edge leads from one layer to the next. */
export interface Layered {
  readonly layers: readonly (readonly string[])[]
  readonly edges: readonly Edge[]
}

const ROUNDS = 24

/**
 * How often edges cross when drawn straight from layer to layer.
 *
 * @example countCrossings({ layers: [['a', 'b'], ['c', 'd']], edges: [{ before: 'a', after: 'd' }, { before: 'b', after: 'c' }] }) // 1
 */
export function countCrossings({ layers, edges }: Layered): number {
  const place = new Map(layers.flatMap(layer => layer.map((id, index) => [id, index] as const)))
  const later = groupEdges(edges, 'before', 'after')
  return layers.reduce((sum, layer) => {
    const ends = layer.map(id => (later.get(id) ?? []).map(other => place.get(other) ?? 0))
    return sum + crossingsBetween(ends)
  }, 0)
}

/** Pairs of ends that stand the other way round than their beginnings. */
function crossingsBetween(ends: readonly (readonly number[])[]): number {
  let count = 0
  for (const [index, mine] of ends.entries()) {
    for (const others of ends.slice(index + 1)) for (const end of mine) for (const other of others) if (other < end) count += 1
  }
  return count
}

/**
 * Orders each layer so that few edges cross: from several beginnings sweeps down and up by the median of the neighbors, by
 * turns by their barycenter, then exchanges of neighbors; the best of all is kept. Sugiyama, Tagawa
 * and Toda 1981, IEEE Trans. SMC 11:109; Gansner, Koutsofios, North and Vo 1993, IEEE Trans. SE 19:214
 * (both from memory). A heuristic: the least number is not promised.
 */
export function reduceCrossings(start: Layered): readonly (readonly string[])[] {
  const { edges } = start
  const near = { down: groupEdges(edges, 'after', 'before'), up: groupEdges(edges, 'before', 'after') }
  let best = start.layers
  let least = countCrossings(start)
  const walked = inWalkingOrder(start)
  for (const first of [walked, start.layers, walked.map(layer => layer.toReversed())]) {
    let layers = first
    const asItIs = countCrossings({ layers, edges })
    if (asItIs < least) [best, least] = [layers, asItIs]
    for (let round = 0; round < ROUNDS && least > 0; round += 1) {
      layers = exchange(sweep(layers, near, round), near)
      const crossings = countCrossings({ layers, edges })
      if (crossings < least) [best, least] = [layers, crossings]
    }
  }
  return best
}

/** Each layer in the order of a walk along the edges, depth first: trees come without crossings. */
function inWalkingOrder({ layers, edges }: Layered): string[][] {
  const [later, earlier] = [groupEdges(edges, 'before', 'after'), groupEdges(edges, 'after', 'before')]
  const place = new Map<string, number>()
  const walk = (id: string): void => {
    if (place.has(id)) return
    place.set(id, place.size)
    for (const next of [...later.get(id) ?? [], ...earlier.get(id) ?? []]) walk(next)
  }
  for (const id of layers.flat()) walk(id)
  return layers.map(layer => layer.toSorted((a, b) => (place.get(a) ?? 0) - (place.get(b) ?? 0)))
}

type Neighbors = Readonly<Record<'down' | 'up', ReadonlyMap<string, readonly string[]>>>

function sweep(layers: readonly (readonly string[])[], near: Neighbors, round: number): string[][] {
  const isDown = round % 2 === 0
  const byMedian = round % 4 < 2
  const result = layers.map(layer => [...layer])
  const indexes = result.map((_, index) => index)
  for (const index of isDown ? indexes.slice(1) : indexes.toReversed().slice(1)) {
    const place = placesIn(result[index + (isDown ? -1 : 1)] ?? [])
    const layer = result[index] ?? []
    const weights = new Map(layer.map((id, at) => {
      const places = (near[isDown ? 'down' : 'up'].get(id) ?? []).flatMap(other => place.get(other) ?? []).sort((a, b) => a - b)
      return [id, places.length === 0 ? null : { value: byMedian ? medianOf(places) : meanOf(places), at }] as const
    }))
    result[index] = inOrder(layer, weights, round % 8 >= 4)
  }
  return result
}

// What has no neighbors keeps its place; of equal ones every other round turns the order around, as Gansner et al. do.
function inOrder(layer: readonly string[], weights: ReadonlyMap<string, { value: number, at: number } | null>, isTurned: boolean): string[] {
  const movable = layer.flatMap(id => {
    const weight = weights.get(id)
    return weight ? [{ id, ...weight }] : []
  }).sort((a, b) => a.value - b.value || (isTurned ? b.at - a.at : a.at - b.at))
  return layer.map(id => weights.get(id) ? movable.shift()?.id ?? id : id)
}

/** Exchanges neighbors as long as that saves crossings. */
function exchange(layers: readonly (readonly string[])[], near: Neighbors): string[][] {
  const result = layers.map(layer => [...layer])
  for (let isBetter = true; isBetter;) {
    isBetter = false
    for (const [index, layer] of result.entries()) {
      const above = placesIn(result[index - 1] ?? [])
      const below = placesIn(result[index + 1] ?? [])
      for (let at = 0; at + 1 < layer.length; at += 1) {
        const [left = '', right = ''] = [layer[at], layer[at + 1]]
        const cost = (a: string, b: string) => pairCrossings(near.down, above, a, b) + pairCrossings(near.up, below, a, b)
        if (cost(right, left) >= cost(left, right)) continue
        layer[at] = right
        layer[at + 1] = left
        isBetter = true
      }
    }
  }
  return result
}

function pairCrossings(neighbors: ReadonlyMap<string, readonly string[]>, place: ReadonlyMap<string, number>, left: string, right: string): number {
  const placesOf = (id: string) => (neighbors.get(id) ?? []).flatMap(other => place.get(other) ?? [])
  return crossingsBetween([placesOf(left), placesOf(right)])
}

const placesIn = (layer: readonly string[]): Map<string, number> => new Map(layer.map((id, index) => [id, index]))
const meanOf = (places: readonly number[]): number => places.reduce((sum, place) => sum + place, 0) / places.length

/** Of an even number the mean of the middle two, which the sources weight by their spread. */
function medianOf(places: readonly number[]): number {
  const half = (places.length - 1) / 2
  return ((places[Math.floor(half)] ?? 0) + (places[Math.ceil(half)] ?? 0)) / 2
}
