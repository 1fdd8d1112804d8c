import { audit, type Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import { FieldProblems, invalid } from '../shared/problems.ts'
import { createRecord } from '../shared/records/table.ts'
import { ANSWERED } from './backOnStore.ts'
import { orderEdge } from './records.ts'

/** A rule that was chosen in an answer, and the field that says so. */
export interface ChosenRule {
  readonly field: string
  readonly beforeId: string
  readonly afterId: string
}

/** Adds the rules that are not there yet, and notes that the question about this part is answered. Throws FieldProblems on a ring. */
export async function writeAnswer(write: Write, buildId: string, partId: string, chosen: readonly ChosenRule[], actor: Actor): Promise<void> {
  for (const { field, beforeId, afterId } of chosen) {
    const same = { buildId, graph: 'as built', beforeId, afterId, way: '', removedAt: null }
    if (await write.orderEdge.count({ where: same }) > 0) continue
    try {
      await createRecord(write, orderEdge, buildId, { values: { graph: 'as built', kind: 'out', beforeId, afterId, way: '', note: '' }, entered: {} }, actor)
    } catch (error) {
      if (error instanceof FieldProblems) throw invalid(field, error.fields.map(({ message }) => message).join(' '))
      throw error
    }
  }
  await audit(write, actor, { action: ANSWERED, recordKind: 'factory part', recordId: partId })
}
