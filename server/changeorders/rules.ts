import { refuseAnswered } from '../quotes/answeredStore.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import type { Draft } from '../shared/records/kind.ts'

export async function checkChangeOrder(client: Reads | Write, { id }: Draft): Promise<undefined> {
  if (id) await refuseAnswered(client, id)
  return undefined
}

/** What was put before the customer stays. */
export async function holdsChangeOrder(client: Reads | Write, row: Row): Promise<string | null> {
  const count = await client.quoteRevision.count({ where: { changeOrderId: row.id } })
  return count === 0 ? null : 'It was frozen and may be in the customer’s hands. Withdraw what is open of it instead.'
}
