import { groupBy } from '../grouping.ts'
import type { RemovalEdge } from '../removal/removalEdges.ts'

/** Work on a factory part, a piece of equipment or a made part. */
export interface OrderedWork {
  readonly id: string
  readonly ownerId: string
  readonly kind: string
}

/** By which something goes into the vehicle. */
const GOES_IN = ['damp', 'fit', 'wire']

/**
 * What work waits for by the order of removal as well: what stands in front is taken out before what is behind it, and taken
 * out before something new goes in there; what is behind goes in or back before what stands in front. As built counts before
 * as found. Loosening and one of several ways bind nothing, and a rule that would close a ring with what is entered as to be
 * finished first is left out: what is entered holds.
 *
 * Source: common practice, no source.
 *
 * @example withRemovalOrder(new Map([['panel out', []], ['speaker out', []]]), [{ graph: 'found', kind: 'out', beforeId: 'panel', afterId: 'speaker' }], [{ id: 'panel out', ownerId: 'panel', kind: 'take out' }, { id: 'speaker out', ownerId: 'speaker', kind: 'take out' }]).get('speaker out') // ['panel out']
 */
export function withRemovalOrder(waiting: ReadonlyMap<string, readonly string[]>, edges: readonly RemovalEdge[], work: readonly OrderedWork[]): Map<string, readonly string[]> {
  const found = new Map(waiting)
  const byOwner = groupBy(work.filter(({ id }) => waiting.has(id)), ({ ownerId }) => ownerId)
  const workOn = (ownerId: string, kinds: readonly string[]): string[] => (byOwner.get(ownerId) ?? []).filter(({ kind }) => kinds.includes(kind)).map(({ id }) => id)
  const bind = (earlier: readonly string[], later: readonly string[]): void => {
    for (const before of earlier) {
      for (const after of later) if (before !== after && !found.get(after)!.includes(before) && !waitsFor(found, before, after)) found.set(after, [...found.get(after)!, before])
    }
  }
  const binding = edges.filter(({ graph, kind, way }) => graph !== 'reinstall' && kind === 'out' && !way)
  for (const { beforeId, afterId } of [...binding.filter(({ graph }) => graph === 'built'), ...binding.filter(({ graph }) => graph === 'found')]) {
    const [frontOut, behindOut] = [workOn(beforeId, ['take out']), workOn(afterId, ['take out'])]
    const [frontIn, behindIn] = [inWork(beforeId), inWork(afterId)]
    bind(frontOut, behindOut.length > 0 ? behindOut : behindIn)
    bind(behindIn, frontIn)
  }
  return found

  /** A factory part goes back; what is new goes in. */
  function inWork(ownerId: string): string[] {
    const back = workOn(ownerId, ['put back'])
    return back.length > 0 ? back : workOn(ownerId, GOES_IN)
  }
}

/** Whether one waits for another, directly or through others. */
function waitsFor(waiting: ReadonlyMap<string, readonly string[]>, one: string, other: string): boolean {
  const seen = new Set([one])
  for (const each of seen) {
    for (const earlier of waiting.get(each) ?? []) {
      if (earlier === other) return true
      seen.add(earlier)
    }
  }
  return false
}
