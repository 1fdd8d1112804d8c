import type { Reads, Write } from '../shared/database/database.ts'
import { Problem } from '../shared/problems.ts'

/** What was accepted is not drawn up anew. Throws a 409 where the customer said yes to this change order. */
export async function refuseAnswered(client: Reads | Write, changeOrderId: string): Promise<void> {
  const accepted = await client.consent.findFirst({ where: { decision: 'accepted', revision: { changeOrderId } }, select: { typedName: true } })
  if (accepted) throw new Problem(409, 'It is accepted', `${accepted.typedName} said yes to this change order, and it stays as it is. What changes now is another change order.`)
}
