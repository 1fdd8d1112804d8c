import { withdrawRevision, type StoredRevision } from '../quotes/revisionStore.ts'
import type { Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import { invalid } from '../shared/problems.ts'

const LONGEST_REASON = 1000

/** Takes an open paper back, with the reason that whoever holds its link will read. */
export async function withdraw(write: Write, id: string, why: string, actor: Actor): Promise<StoredRevision> {
  const reason = why.trim()
  if (reason === '' || reason.length > LONGEST_REASON) throw invalid('why', `Why is needed, in 1 to ${LONGEST_REASON} characters: whoever opens the link reads it.`)
  return withdrawRevision(write, id, reason, actor)
}
