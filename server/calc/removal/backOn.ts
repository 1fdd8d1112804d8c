import { closureOfPredecessors } from '../graph.ts'
import { toEdges } from './removalEdges.ts'
import type { RemovalEdge } from './removalEdges.ts'

/** A factory part that came out and went back on; times in ms. */
export interface BackOn {
  readonly partId: string
  readonly zoneId: string
  readonly outAt: number
  readonly backAt: number
  /** When somebody last said what stands in front of what about it; null = never. */
  readonly answeredAt: number | null
}

export interface Fitted {
  readonly id: string
  readonly zoneId: string
  /** Null where nobody recorded when. */
  readonly fittedAt: number | null
}

export interface StandsQuestion {
  readonly partId: string
  /** Installed items of the same zone of which nothing is known beside it; new = fitted while the part was out. */
  readonly items: readonly { readonly id: string, readonly isNew: boolean }[]
  /** What stood in front of it as found and is in the vehicle again, not yet recorded as built. */
  readonly stillIds: readonly string[]
}

interface Vehicle {
  readonly items: readonly Fitted[]
  readonly edges: readonly RemovalEdge[]
  /** What binds as built. */
  readonly standing: readonly RemovalEdge[]
  readonly presentIds: ReadonlySet<string>
}

/**
 * What has to be asked of factory parts that went back on after something was fitted in their zone while
 * they were out: beside which items nobody knows what stands in front. Asked until it is answered; where
 * anything is known already, only about what was fitted meanwhile. A rule of ours, no source.
 */
export function askWhatStandsInFront(backOn: readonly BackOn[], { items, edges, standing, presentIds }: Vehicle): StandsQuestion[] {
  const firm = toEdges(standing.filter(edge => !edge.way && presentIds.has(edge.beforeId) && presentIds.has(edge.afterId)))
  const before = new Map([...presentIds].map(id => [id, closureOfPredecessors([id], firm)]))
  const isKnown = (a: string, b: string): boolean => (before.get(a)?.has(b) ?? false) || (before.get(b)?.has(a) ?? false)
  const isRecorded = (beforeId: string, afterId: string): boolean => edges.some(edge => edge.graph === 'built' && edge.beforeId === beforeId && edge.afterId === afterId)
  return backOn.filter(({ partId, backAt, answeredAt }) => presentIds.has(partId) && (answeredAt === null || answeredAt < backAt)).flatMap(({ partId, zoneId, outAt, backAt }) => {
    const own = items.filter(item => item.zoneId === zoneId && presentIds.has(item.id))
    const isNew = ({ fittedAt }: Fitted): boolean => fittedAt !== null && fittedAt >= outAt && fittedAt <= backAt
    const isNothingKnown = own.every(item => !isKnown(partId, item.id))
    const open = own.filter(item => !isKnown(partId, item.id) && (isNothingKnown || isNew(item)))
    if (!open.some(isNew)) return []
    const stillIds = [...new Set(edges.filter(edge => edge.graph === 'found' && edge.afterId === partId && presentIds.has(edge.beforeId) && !isRecorded(edge.beforeId, partId)).map(edge => edge.beforeId))]
    return [{ partId, items: open.map(item => ({ id: item.id, isNew: isNew(item) })), stillIds }]
  })
}
