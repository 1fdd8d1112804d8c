import type { Edge } from '../graph.ts'

/** One piece of an edge, from a layer to the next; `edge` is its place among the edges. */
export interface Link extends Edge {
  readonly edge: number
}

/** Layers in which every link leads from one to the next: long edges pass through bends. */
export interface LinkedLayers {
  readonly layers: readonly (readonly string[])[]
  readonly links: readonly Link[]
  readonly bends: ReadonlySet<string>
}

/**
 * Gives every edge that is longer than one layer a bend in each layer between (the dummy vertices of
 * Sugiyama, Tagawa and Toda 1981, from memory). Edges must lead downwards.
 */
export function linkLayers(layers: readonly (readonly string[])[], edges: readonly Edge[]): LinkedLayers {
  const layerOf = new Map(layers.flatMap((layer, index) => layer.map(id => [id, index] as const)))
  const result = layers.map(layer => [...layer])
  const bends = new Set<string>()
  const links = edges.flatMap(({ before, after }, edge) => {
    const [first, last] = [layerOf.get(before) ?? 0, layerOf.get(after) ?? 0]
    const between = Array.from({ length: Math.max(0, last - first - 1) }, (_, index) => {
      const id = `${edge}/${first + 1 + index}`
      bends.add(id)
      result[first + 1 + index]?.push(id)
      return id
    })
    const chain = [before, ...between, after]
    return chain.slice(1).map((next, index): Link => ({ before: chain[index] ?? before, after: next, edge }))
  })
  return { layers: result, links, bends }
}
