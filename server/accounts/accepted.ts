import type { Working } from '../calc/amounts.ts'
import type { TaxedTotal } from '../calc/tax.ts'
import type { Reads, Write } from '../shared/database/database.ts'

/** What the customer has said yes to: the accepted revision and the accepted change orders. */
export interface Accepted {
  readonly total: TaxedTotal
  readonly working: Working
}

export async function acceptedTotal(client: Reads | Write, buildId: string): Promise<Accepted | null> {
  const consents = await client.consent.findMany({
    where: { buildId, decision: 'accepted' }, orderBy: { createdAt: 'asc' }, select: { netMinor: true, taxMinor: true, revision: { select: { kind: true, number: true } } },
  })
  if (consents.length === 0) return null
  const inputs = consents.map(({ netMinor, taxMinor, revision: { kind, number } }) =>
    ({ label: `${kind === 'quote' ? 'Quote, revision' : 'Change order'} ${number}`, source: 'consent, with tax', amount: { kind: 'money' as const, value: netMinor + taxMinor } }))
  const [netMinor, taxMinor] = [consents.reduce((sum, one) => sum + one.netMinor, 0), consents.reduce((sum, one) => sum + one.taxMinor, 0)]
  return {
    total: { codes: [], netMinor, taxMinor, totalMinor: netMinor + taxMinor },
    working: { title: 'Accepted, with tax', inputs, result: { kind: 'money', value: netMinor + taxMinor }, formula: 'accepted revision + accepted change orders', assumed: '', source: 'common practice, no source; local law decides what a consent is' },
  }
}
