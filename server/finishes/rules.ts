import { audit } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import type { Draft, Values } from '../shared/records/kind.ts'

/** What the customer saw on the sample. */
const APPROVED_FOR = { kind: 'kind', material: 'material', color: 'color', code: 'code', batch: 'batch or dye lot' } as const

const changedSince = ({ before, values }: Draft): string[] =>
  Object.entries(APPROVED_FOR).filter(([name]) => before !== null && String(before[name] ?? '') !== String(values[name] ?? '')).map(([, word]) => word)

/** An approval, or a refusal, is for the sample as it was shown: another color or lot needs another. */
export async function withdrawApproval(_write: Write, draft: Draft): Promise<Values> {
  const { before } = draft
  const isSame = changedSince(draft).length === 0 || before?.sampleState === 'no sample yet'
  const isDecidedAnew = before?.sampleState !== draft.values.sampleState
  if (!before || isSame || isDecidedAnew) return {}
  return { sampleState: 'no sample yet', approvedBy: '', approvedOn: null, refusal: '' }
}

/** Says in the history that an approval was taken back, and by which change. */
export async function tellTakenBack(write: Write, row: Row, draft: Draft): Promise<void> {
  if (draft.before?.sampleState !== 'approved' || row.sampleState === 'approved') return
  const changed = changedSince(draft)
  if (changed.length === 0) return
  await audit(write, draft.actor, { action: `approval taken back: ${changed.join(', ')} changed`, recordKind: 'finish', recordId: row.id })
}
