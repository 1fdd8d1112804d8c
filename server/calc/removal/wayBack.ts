import { topologicalOrder } from '../graph.ts'
import type { Compare, Edge, Order } from '../graph.ts'
import { toEdges, toReversedEdges } from './removalEdges.ts'
import type { RemovalEdge } from './removalEdges.ts'
import { takeWays } from './ways.ts'
import type { WayChoice } from './ways.ts'

export interface WayBackQuestion {
  readonly ids: readonly string[]
  /** Turned around: what came out last goes back first. */
  readonly removalEdges: readonly RemovalEdge[]
  readonly reinstallEdges: readonly RemovalEdge[]
  /** Where there are named ways, the way back is the way out. */
  readonly choice: WayChoice
  readonly tieBreak: Compare
}

/** The order in which the things go back, or the ring that prevents it. */
export function findWayBack(question: WayBackQuestion): Order {
  return topologicalOrder(question.ids, listWayBackEdges(question), question.tieBreak)
}

/** What has to be back before what, among the things that go back, each pair once. */
export function listWayBackEdges({ ids, removalEdges, reinstallEdges, choice }: WayBackQuestion): Edge[] {
  const known = new Set(ids)
  const edges = [...toReversedEdges(takeWays(removalEdges, choice)), ...toEdges(reinstallEdges)].filter(({ before, after }) => known.has(before) && known.has(after))
  return [...new Map(edges.map(edge => [`${edge.before} ${edge.after}`, edge])).values()]
}
