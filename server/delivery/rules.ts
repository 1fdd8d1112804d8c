import type { Reads, Write } from '../shared/database/database.ts'
import { Problem } from '../shared/problems.ts'
import type { Draft, Values } from '../shared/records/kind.ts'

export async function checkDelivery(client: Reads | Write, { before, values }: Draft): Promise<Values> {
  if (before?.receivedAt) {
    throw new Problem(409, 'Received already', `${String(before.receivedBy)} signed for this delivery, and it stays as it is. What is found later belongs to a service visit.`)
  }
  if (!before && await client.delivery.count({ where: { buildId: String(values.buildId) } }) > 0) {
    throw new Problem(409, 'There is a delivery already', 'A build is delivered once. Change that.')
  }
  return {}
}
