import { topologicalOrder } from '../graph.ts'
import type { Edge } from '../graph.ts'

/** What crosses the space between two layers: down at `from`, across, and down again at `to`. */
export interface Crossing {
  readonly id: string
  readonly from: number
  readonly to: number
}

/** Closer than this two uprights would be read as one. */
const NEAR = 3

/**
 * A lane for every crossing that is not straight, 0 the uppermost: those that overlap have different
 * ones, and no upright of one lies over that of another as far as their order allows it. The channel
 * routing of circuit boards (Hashimoto and Stevens 1971, from memory).
 *
 * @example [...assignLanes([{ id: 'a', from: 0, to: 20 }, { id: 'b', from: 10, to: 30 }])] // [['b', 0], ['a', 1]]
 */
export function assignLanes(crossings: readonly Crossing[]): Map<string, number> {
  const bent = crossings.filter(({ from, to }) => from !== to)
  const order = orderOf(bent)
  const byId = new Map(bent.map(crossing => [crossing.id, crossing]))
  const lanes = new Map<string, number>()
  for (const id of order.ids) {
    const own = byId.get(id)
    if (!own) continue
    const above = order.edges.filter(({ after }) => after === id).flatMap(({ before }) => lanes.get(before) ?? [])
    let lane = Math.max(-1, ...above) + 1
    const isTaken = () => bent.some(other => other.id !== id && lanes.get(other.id) === lane && overlaps(own, other))
    while (isTaken()) lane += 1
    lanes.set(id, lane)
  }
  return lanes
}

function orderOf(bent: readonly Crossing[]): { ids: readonly string[], edges: readonly Edge[] } {
  const ids = bent.map(({ id }) => id)
  const pairs = bent.flatMap(a => bent.filter(b => b !== a).map(b => [a, b] as const))
  const uprights = pairs.filter(([a, b]) => Math.abs(a.from - b.to) < NEAR).map(toEdge)
  const nested = pairs.filter(([a, b]) => overlaps(a, b) && goesRight(a) === goesRight(b) && (goesRight(a) ? a.from > b.from : a.from < b.from)).map(toEdge)
  for (const edges of [[...uprights, ...nested], uprights, []]) {
    const result = topologicalOrder(ids, edges)
    if ('order' in result) return { ids: result.order, edges }
  }
  return { ids, edges: [] }
}

const toEdge = ([a, b]: readonly [Crossing, Crossing]): Edge => ({ before: a.id, after: b.id })
const goesRight = ({ from, to }: Crossing): boolean => to > from

function overlaps(a: Crossing, b: Crossing): boolean {
  const [left, right] = [Math.max(Math.min(a.from, a.to), Math.min(b.from, b.to)), Math.min(Math.max(a.from, a.to), Math.max(b.from, b.to))]
  return left - NEAR < right
}
