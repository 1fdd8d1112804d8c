import { findAccess } from './access.ts'
import type { Depth, WayTaken } from './access.ts'
import { toLoopText } from '../graph.ts'
import { sumOf } from '../grouping.ts'
import { secondsAt } from './loosening.ts'
import type { RemovalEdge } from './removalEdges.ts'

export interface RemovableThing {
  readonly id: string
  /** As read aloud: "F-021 door panel". */
  readonly label: string
  readonly takeOutS: number
  readonly putBackS: number
}

export interface RemovalQuestion {
  readonly things: readonly RemovableThing[]
  /** Only those of the graph 'found' count. */
  readonly edges: readonly RemovalEdge[]
  /** What shall come out; 'all' for a whole teardown. */
  readonly targetIds: 'all' | readonly string[]
  readonly outIds: readonly string[]
  readonly loosenedIds: readonly string[]
}

export interface RemovalStep {
  readonly id: string
  readonly depth: Depth
  /** What must still come out or loose before this one. */
  readonly waitsForIds: readonly string[]
}

export type RemovalOrder =
  | { readonly kind: 'order', readonly steps: readonly RemovalStep[], readonly readyIds: readonly string[]
    readonly takeOutS: number, readonly waysTaken: readonly WayTaken[], readonly isProvenLeast: boolean }
  | { readonly kind: 'refused', readonly loopIds: readonly string[], readonly sentence: string }

/**
 * The order of a teardown by the as-found graph: what must come out or loose for the targets, each
 * step with what it still waits for, and what can be taken next. A ring is refused, named in words.
 *
 * @example
 * // Door panel before speaker, nothing out yet:
 * findRemovalOrder(question) // { kind: 'order', steps: [panel, speaker], readyIds: [panel], … }
 */
export function findRemovalOrder(question: RemovalQuestion): RemovalOrder {
  const things = new Map(question.things.map(thing => [thing.id, thing]))
  const out = new Set(question.outIds)
  const loose = new Set(question.loosenedIds)
  const presentIds = question.things.map(thing => thing.id).filter(id => !out.has(id))
  const targets = new Set(question.targetIds === 'all' ? presentIds : question.targetIds)
  const secondsOut = (id: string, depth: Depth) => secondsAt(things.get(id)?.takeOutS ?? 0, depth)
  const access = findAccess({
    presentIds,
    looseIds: loose,
    goalIds: presentIds.filter(id => targets.has(id)),
    reachIds: [],
    edges: question.edges.filter(edge => edge.graph === 'found'),
    alsoEdges: [],
    secondsOf: (id, depth) => secondsOut(id, depth) + secondsAt(things.get(id)?.putBackS ?? 0, depth),
  })
  if ('cycle' in access) return toRefusedOrder(access.cycle, id => things.get(id)?.label ?? id)

  const steps = access.steps.map(({ id, depth }) => ({
    id, depth, waitsForIds: [...new Set(access.edges.filter(edge => edge.afterId === id).map(edge => edge.beforeId))],
  }))
  return {
    kind: 'order',
    steps,
    readyIds: steps.filter(step => step.waitsForIds.length === 0).map(step => step.id),
    takeOutS: sumOf(steps, step => secondsOut(step.id, step.depth)),
    waysTaken: access.waysTaken,
    isProvenLeast: access.isProvenLeast,
  }
}

export function toRefusedOrder(loopIds: readonly string[], labelOf: (id: string) => string) {
  const loop = toLoopText(loopIds, labelOf)
  return { kind: 'refused' as const, loopIds, sentence: `No order is possible: ${loop}. One of these rules must be wrong.` }
}
