import { closureOfPredecessors, topologicalOrder } from '../graph.ts'
import type { Compare } from '../graph.ts'
import { sumOf } from '../grouping.ts'
import { toEdges } from './removalEdges.ts'
import type { RemovalEdge } from './removalEdges.ts'
import { chooseWays, listWays, takeWays } from './ways.ts'
import type { Score, WayChoice } from './ways.ts'

/** 'loosened' stays in the vehicle but is undone so far that what is behind it can pass. */
export type Depth = 'out' | 'loosened'

export interface AccessQuestion {
  /** What is in the vehicle now, in listed order. */
  readonly presentIds: readonly string[]
  /** Of these, what is loosened already: it need not be loosened again. */
  readonly looseIds: ReadonlySet<string>
  /** A present goal must come out; the place of an absent one must become free. */
  readonly goalIds: readonly string[]
  /** Loose things that only need to be reached, to be made fast again. */
  readonly reachIds: readonly string[]
  /** What must be out or loose before what, on the way out. */
  readonly edges: readonly RemovalEdge[]
  /** What must be out as well, in whatever order, because it is in the way on the way back. */
  readonly alsoEdges: readonly RemovalEdge[]
  readonly secondsOf: (id: string, depth: Depth) => number
  /** Whether a choice of ways also serves what comes after; one that does is preferred at any cost. */
  readonly isUsable?: (steps: readonly AccessStep[], choice: WayChoice) => boolean
  readonly tieBreak?: Compare
}

export interface AccessStep {
  readonly id: string
  readonly depth: Depth
  /** What in this job cannot pass before this is done. */
  readonly clearsIds: readonly string[]
}

/** A named way in that was taken, and what the job would take by the others (null = it cannot be done). */
export interface WayTaken {
  readonly afterId: string
  readonly way: string
  readonly seconds: number
  readonly others: readonly { readonly way: string, readonly seconds: number | null }[]
}

interface Route {
  readonly steps: readonly AccessStep[]
  /** The edges that bind among the steps and goals. */
  readonly edges: readonly RemovalEdge[]
}

export interface AccessFound extends Route {
  readonly choice: WayChoice
  readonly waysTaken: readonly WayTaken[]
  readonly isProvenLeast: boolean
}

export interface Ring {
  readonly cycle: readonly string[]
}

/**
 * The smallest set that must come out or loose for the goals, in an order that holds every edge: the
 * closure of predecessors among what is in the vehicle. Where there are named ways in, the one with
 * the fewest seconds, then the fewest things; to loosen a thing, what stands before it must be out too.
 */
export function findAccess(question: AccessQuestion): AccessFound | Ring {
  const ways = waysInReach(question)
  const scoreOf = (choice: WayChoice): Score | null => {
    const route = findRoute(question, choice)
    if ('cycle' in route || question.isUsable?.(route.steps, choice) === false) return null
    return { cost: secondsOf(question, route), count: route.steps.length }
  }
  const { choice, isProvenLeast } = chooseWays(ways, scoreOf)
  const route = findRoute(question, choice)
  if ('cycle' in route) return route

  const reached = new Set([...question.goalIds, ...question.reachIds, ...route.steps.map(step => step.id)])
  const waysTaken = [...ways].filter(([id]) => reached.has(id)).map(([afterId, names]) => ({
    afterId,
    way: choice.get(afterId) ?? '',
    seconds: secondsOf(question, route),
    others: names.filter(name => name !== choice.get(afterId))
      .map(way => ({ way, seconds: scoreOf(new Map([...choice, [afterId, way]]))?.cost ?? null })),
  }))
  return { ...route, choice, waysTaken, isProvenLeast }
}

function findRoute(question: AccessQuestion, choice: WayChoice): Route | Ring {
  const edges = openEdges(question, takeWays(question.edges, choice))
  const also = openEdges(question, takeWays(question.alsoEdges, choice))
  const closure = closureOfPredecessors([...question.goalIds, ...question.reachIds], toEdges([...edges, ...also]))
  const goals = new Set(question.goalIds)
  const inside = [...edges, ...also].filter(edge => closure.has(edge.afterId))
  const outIds = new Set(inside.filter(edge => edge.kind === 'out').map(edge => edge.beforeId))
  const isOut = (id: string) => goals.has(id) || outIds.has(id)
  const moving = question.presentIds.filter(id => closure.has(id) && (isOut(id) || !question.looseIds.has(id)))

  const result = topologicalOrder(moving, toEdges(edges), question.tieBreak)
  if ('cycle' in result) return result
  const steps = result.order.map(id => ({
    id,
    depth: isOut(id) ? 'out' as const : 'loosened' as const,
    clearsIds: [...new Set(inside.filter(edge => edge.beforeId === id).map(edge => edge.afterId))],
  }))
  return { steps, edges: edges.filter(edge => closure.has(edge.afterId)) }
}

// What is out already, or loose where loose is enough, is in nobody's way.
function openEdges({ presentIds, looseIds }: AccessQuestion, edges: readonly RemovalEdge[]): RemovalEdge[] {
  const present = new Set(presentIds)
  return edges.filter(({ beforeId, kind }) => present.has(beforeId) && !(kind === 'loosened' && looseIds.has(beforeId)))
}

function waysInReach(question: AccessQuestion): Map<string, string[]> {
  const edges = [...question.edges, ...question.alsoEdges]
  const reach = closureOfPredecessors([...question.goalIds, ...question.reachIds], toEdges(openEdges(question, edges)))
  return new Map([...listWays(edges)].filter(([id]) => reach.has(id)))
}

function secondsOf(question: AccessQuestion, { steps }: Route): number {
  return sumOf(steps, step => question.secondsOf(step.id, step.depth))
}
