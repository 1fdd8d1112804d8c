import { audit, type Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { Problem } from '../shared/problems.ts'
import { changeRecord, createRecord, type Submitted } from '../shared/records/table.ts'
import { delivery } from './records.ts'
import { findDelivery, storeReceipt } from './store.ts'

const EMPTY = { odometer: null, placardLoad: null, careAndUse: '', beforeSale: '', explainedById: null, note: '' }

/** Saves what is said and handed over, made where there is none yet. */
export async function saveDelivery(write: Write, buildId: string, { values, entered }: Submitted, version: number, actor: Actor): Promise<Row> {
  const there = await findDelivery(write, buildId)
  if (!there) return createRecord(write, delivery, buildId, { values: { ...EMPTY, ...values }, entered }, actor)
  if (there.receivedAt) throw new Problem(409, 'Received already', `${there.receivedBy} signed for this delivery, and it stays as it is.`)
  return changeRecord(write, delivery, there.id, version, { values, entered }, actor)
}

export interface Receipt {
  readonly receivedBy: string
  readonly signature: string
  /** Of the delivery as it was read; null where the API does not say. */
  readonly version: number | null
}

/** Puts down who received the vehicle; from then on the delivery is frozen. */
export async function receive(write: Write, buildId: string, { receivedBy, signature, version }: Receipt, actor: Actor): Promise<void> {
  const there = await findDelivery(write, buildId)
  if (!there) throw new Problem(409, 'Nothing to sign yet', 'Save first what is said and handed over, then sign.')
  if (there.receivedAt) throw new Problem(409, 'Received already', `${there.receivedBy} signed for this delivery.`)
  if (version !== null && there.version !== version) throw new Problem(409, 'Changed in the meantime', 'Somebody changed the delivery since this page was opened. Read it again, then sign.')
  await storeReceipt(write, there.id, { receivedBy, signature, receivedAt: actor.now })
  await audit(write, actor, { action: 'signed', recordKind: 'delivery', recordId: there.id, changes: [{ field: 'Received by', before: null, after: receivedBy }] })
}
