import type { Reads, Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { FieldProblems } from '../shared/problems.ts'
import type { Values } from '../shared/records/kind.ts'
import { hasConsent } from './store.ts'

const FIELDS = ['consent', 'consentBy', 'consentOn'] as const

/** Once a quote is accepted, what is agreed comes from it and its change orders alone: no form, import or API writes it by hand. */
export async function refuseConsentByHand(client: Reads | Write, id: string | null, before: Row | null, values: Values): Promise<void> {
  const changed = before === null ? [] : FIELDS.filter((field) => (values[field] ?? '') !== (before[field] ?? ''))
  if (id === null || changed.length === 0 || !(await hasConsent(client, id))) return
  throw new FieldProblems(changed.map((field) => ({
    field, message: 'This comes from the accepted quote and its change orders. What is agreed changes by a change order.', help: { href: `/builds/${id}/quote`, name: 'To the quote' },
  })))
}
