import { figuresOf } from '../builds/figures.ts'
import { loadBuild } from '../builds/store.ts'
import { groupBy } from '../calc/grouping.ts'
import type { Reads } from '../shared/database/database.ts'
import { Problem } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { counted } from '../../web/shared/text.ts'
import { writeHours } from '../../web/shared/amount.ts'
import { costingHours } from './hoursOf.ts'
import { listCopiedOperations } from './store.ts'
import { piecesIn } from './takeover.ts'

/** What the operations of a part took in the builds they were taken from, in words, by the operation here. */
export async function loadEarlierHours(reads: Reads, partId: string): Promise<ReadonlyMap<string, string>> {
  const copies = await listCopiedOperations(reads, partId)
  const words = new Map<string, string>()
  for (const [buildId, own] of groupBy(copies, ({ sourceBuildId }) => sourceBuildId)) {
    const wordsFor = await readerOf(reads, buildId)
    for (const { id, sourceId } of own) words.set(id, wordsFor(sourceId))
  }
  return words
}

async function readerOf(reads: Reads, buildId: string): Promise<(operationId: string) => string> {
  const stored = await loadBuild(reads, buildId)
  const name = label('B', stored.head.number)
  try {
    const figures = figuresOf(stored)
    const [hours, pieces] = [costingHours(figures, stored.head.number), piecesIn(figures)]
    return (operationId) => {
      const there = hours.ofOperation(operationId)
      if (!there) return `${name}: the operation is no longer in use there.`
      const { estimate, work, rework } = there
      return `${name}, ${counted(pieces(operationId), 'piece', 'pieces')}: estimated ${writeHours(estimate, 2)} h, logged ${writeHours(work, 2)} h${rework > 0 ? `, rework ${writeHours(rework, 2)} h` : ''}.`
    }
  } catch (error) {
    // Another build's contradiction must not keep this page away.
    if (!(error instanceof Problem)) throw error
    return () => `${name}: ${error.title.toLowerCase()}.`
  }
}
