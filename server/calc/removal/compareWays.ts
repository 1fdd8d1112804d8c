import { findAccess } from './access.ts'
import type { AccessStep } from './access.ts'
import { secondsAt } from './loosening.ts'
import { sumOf } from '../grouping.ts'
import type { RemovalEdge } from './removalEdges.ts'
import { listWays } from './ways.ts'

interface Timed {
  readonly id: string
  readonly takeOutS: number
  readonly putBackS: number
}

/** One named way to a thing: what comes out or loose on it, and how long that takes there and back. */
export interface WayCompared {
  readonly way: string
  readonly steps: readonly AccessStep[]
  /** Null where it cannot be gone: its rules run in a ring. */
  readonly seconds: number | null
  /** No other way takes less. */
  readonly isLeast: boolean
}

export interface WaysQuestion {
  /** What is in the vehicle. */
  readonly things: readonly Timed[]
  readonly looseIds: readonly string[]
  readonly edges: readonly RemovalEdge[]
  readonly afterId: string
}

/**
 * The named ways to one thing beside each other, each with all that must come out for it, the thing
 * itself included, and the seconds out and back; where a way leads past things that have ways of
 * their own, the least of those counts. No source: the rules of the trade as we have them.
 */
export function compareWays({ things, looseIds, edges, afterId }: WaysQuestion): WayCompared[] {
  const timed = new Map(things.map(thing => [thing.id, thing]))
  const secondsOf = (id: string, depth: AccessStep['depth']) => secondsAt(timed.get(id)?.takeOutS ?? 0, depth) + secondsAt(timed.get(id)?.putBackS ?? 0, depth)
  const compared = (listWays(edges).get(afterId) ?? []).map(way => {
    const found = findAccess({
      presentIds: things.map(({ id }) => id), looseIds: new Set(looseIds), goalIds: [afterId], reachIds: [], alsoEdges: [], secondsOf,
      edges: edges.filter(edge => edge.afterId !== afterId || !edge.way || edge.way === way),
    })
    return 'cycle' in found ? { way, steps: [], seconds: null } : { way, steps: found.steps, seconds: sumOf(found.steps, step => secondsOf(step.id, step.depth)) }
  })
  const least = Math.min(...compared.flatMap(({ seconds }) => seconds ?? []))
  return compared.map(one => ({ ...one, isLeast: one.seconds === least }))
}
