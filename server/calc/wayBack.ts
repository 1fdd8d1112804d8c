import { topologicalOrder } from './graph.ts'
import type { Compare, Order } from './graph.ts'
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
export function findWayBack({ ids, removalEdges, reinstallEdges, choice, tieBreak }: WayBackQuestion): Order {
  return topologicalOrder(ids, [...toReversedEdges(takeWays(removalEdges, choice)), ...toEdges(reinstallEdges)], tieBreak)
}
