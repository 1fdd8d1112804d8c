/** One thing that must come before another; both are ids. */
export interface Edge {
  readonly before: string
  readonly after: string
}

export type Order = { readonly order: readonly string[] } | { readonly cycle: readonly string[] }

export type Compare = (a: string, b: string) => number

/**
 * Puts things in an order that satisfies every edge (Kahn 1962, CACM 5:558, from memory).
 *
 * Of several things that are free at once the one that `tieBreak` puts first comes first; without
 * it, the one listed first, so equal inputs give equal orders. Edges that touch a thing outside
 * `nodes` do not count. Things that run in a ring give the ring instead, its first id repeated.
 *
 * @example topologicalOrder(['c', 'b', 'a'], [{ before: 'a', after: 'b' }]) // { order: ['c', 'a', 'b'] }
 */
export function topologicalOrder(nodes: readonly string[], edges: readonly Edge[], tieBreak?: Compare): Order {
  const compare = withListedOrder(nodes, tieBreak)
  const inner = edgesWithin(nodes, edges)
  const followers = groupEdges(inner, 'before', 'after')
  const open = new Map([...new Set(nodes)].map(node => [node, 0]))
  for (const { after } of inner) open.set(after, (open.get(after) ?? 0) + 1)

  const free = [...open.keys()].filter(node => open.get(node) === 0).sort(compare)
  const order: string[] = []
  for (let node = free.shift(); node !== undefined; node = free.shift()) {
    order.push(node)
    for (const follower of followers.get(node) ?? []) {
      const left = (open.get(follower) ?? 0) - 1
      open.set(follower, left)
      if (left === 0) insertSorted(free, follower, compare)
    }
  }
  if (order.length === open.size) return { order }
  const placed = new Set(order)
  return { cycle: loopAmong([...open.keys()].filter(node => !placed.has(node)).sort(compare), inner, compare) }
}

/** A ring among the things, its first id repeated at the end (`['a', 'b', 'a']`), or null when there is none. */
export function findCycle(nodes: readonly string[], edges: readonly Edge[]): readonly string[] | null {
  const result = topologicalOrder(nodes, edges)
  return 'cycle' in result ? result.cycle : null
}

/**
 * The chosen things and all that must come before them: the smallest set that holds every edge.
 * Works on rings too. @example closureOfPredecessors(['b'], [{ before: 'a', after: 'b' }]) // Set { 'b', 'a' }
 */
export function closureOfPredecessors(chosen: Iterable<string>, edges: readonly Edge[]): Set<string> {
  const predecessors = groupEdges(edges, 'after', 'before')
  const closure = new Set(chosen)
  // A set being walked also yields what is added on the way.
  for (const node of closure) for (const earlier of predecessors.get(node) ?? []) closure.add(earlier)
  return closure
}

/** A ring in words, each thing by its name: "P-110 → P-111 → P-110". */
export function toLoopText(cycle: readonly string[], nameOf: (id: string) => string): string {
  return cycle.map(nameOf).join(' → ')
}

/** Groups what stands at `value` of each edge under what stands at `key`. */
export function groupEdges(edges: readonly Edge[], key: keyof Edge, value: keyof Edge): Map<string, string[]> {
  const groups = new Map<string, string[]>()
  for (const edge of edges) {
    const group = groups.get(edge[key])
    if (group) group.push(edge[value])
    else groups.set(edge[key], [edge[value]])
  }
  return groups
}

function edgesWithin(nodes: readonly string[], edges: readonly Edge[]): Edge[] {
  const known = new Set(nodes)
  return edges.filter(({ before, after }) => known.has(before) && known.has(after))
}

function withListedOrder(nodes: readonly string[], tieBreak?: Compare): Compare {
  const place = new Map(nodes.map((node, index) => [node, index]))
  return (a, b) => tieBreak?.(a, b) || (place.get(a) ?? 0) - (place.get(b) ?? 0)
}

function insertSorted(sorted: string[], item: string, compare: Compare): void {
  let low = 0
  let high = sorted.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (compare(sorted[middle] ?? item, item) <= 0) low = middle + 1
    else high = middle
  }
  sorted.splice(low, 0, item)
}

// Each thing that could not be placed still waits for another such thing, so walking back must meet itself.
function loopAmong(stuck: readonly string[], edges: readonly Edge[], compare: Compare): string[] {
  const predecessors = groupEdges(edgesWithin(stuck, edges), 'after', 'before')
  const walked: string[] = []
  let node = stuck[0]
  while (node !== undefined && !walked.includes(node)) {
    walked.push(node)
    node = predecessors.get(node)?.toSorted(compare)[0]
  }
  const loop = walked.slice(walked.indexOf(node ?? '')).reverse()
  const first = loop.indexOf(loop.toSorted(compare)[0] ?? '')
  const turned = [...loop.slice(first), ...loop.slice(0, first)]
  return [...turned, ...turned.slice(0, 1)]
}
