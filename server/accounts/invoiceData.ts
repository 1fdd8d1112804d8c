import type { InvoiceData, InvoicePaperData } from '../../web/accounts/invoice.tsx'
import { writeDay } from '../../web/shared/day.ts'
import { accountOf } from '../calc/quotes/account.ts'
import type { Working } from '../calc/amounts.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { PAPERS } from '../shared/pdf/makeSheet.ts'
import { toShown } from './shown.ts'
import { isTakenBack, standingsOf } from './standing.ts'
import { listInvoices, listPayments, type StoredInvoice } from './store.ts'

/** How an invoice stands by now: what is open on it, and what belongs to it. */
export async function standingOf(reads: Reads, invoice: StoredInvoice): Promise<{ readonly open: Working | null, readonly openMinor: number | null, readonly isLeft: boolean, readonly related: readonly StoredInvoice[] }> {
  const documents = await listInvoices(reads, invoice.buildId)
  const account = accountOf(documents, await listPayments(reads, invoice.buildId))
  const own = account.invoices.find(({ id }) => id === invoice.id)
  const standing = standingsOf(documents).find((one) => one.invoice.id === invoice.id)
  const related = invoice.creditsId === null ? standing?.credits ?? [] : documents.filter(({ id }) => id === invoice.creditsId)
  return { open: own?.working ?? null, openMinor: own?.openMinor ?? null, isLeft: standing !== undefined && !isTakenBack(standing), related }
}

const buildWords = ({ buildNumber, buildTitle }: StoredInvoice): string => `${label('B', buildNumber)} ${buildTitle}`

export const trailOf = (invoice: StoredInvoice): { name: string, href: string }[] =>
  [{ name: buildWords(invoice), href: `/builds/${invoice.buildId}` }, { name: 'Account', href: `/builds/${invoice.buildId}/account` }]

export const titleOf = ({ kind }: StoredInvoice): string => (kind === 'credit note' ? 'Credit note' : 'Invoice')

export async function invoicePage(reads: Reads, invoice: StoredInvoice, saved: boolean): Promise<InvoiceData> {
  const { id, content, number, contentHash, issuedOn, dueOn } = invoice
  const { open, isLeft, related } = await standingOf(reads, invoice)
  const title = titleOf(invoice)
  return {
    trail: [...trailOf(invoice), { name: number }], number, title, build: buildWords(invoice), customer: content.customer.name, vehicle: content.vehicle,
    issued: writeDay(issuedOn), due: writeDay(dueOn), hash: contentHash, open, shown: toShown(content, content.currency), note: content.note,
    related: related.map((one) => ({ href: `/invoices/${one.id}`, name: `${titleOf(one)} ${one.number}` })),
    deeds: [
      ...(open !== null && open.result.value > 0 ? [{ href: `/builds/${invoice.buildId}/payments/new?invoice=${id}`, name: 'Enter a payment' }] : []),
      ...(isLeft ? [{ href: `/invoices/${id}/credit-notes/new`, name: 'Credit note' }] : []),
    ],
    links: [{ href: `/invoices/${id}/paper`, name: 'To print' }, ...PAPERS.map((paper) => ({ href: `/invoices/${id}/invoice.pdf?paper=${paper}`, name: `PDF, ${paper}` }))],
    saved: saved ? `${title.toLowerCase()} ${number} is issued` : null,
  }
}

/** What stands on the paper beside the lines, from the frozen content alone. */
export function invoicePaper({ id, content }: StoredInvoice): InvoicePaperData {
  const { customer, credits } = content
  return {
    titleBlock: content.titleBlock, backHref: `/invoices/${id}`, customer: [customer.name, customer.contact, ...customer.address.split('\n')].filter((line) => line !== ''),
    vehicle: content.vehicle, shown: toShown(content, content.currency), note: content.note,
    credits: credits === null ? '' : `Takes back from invoice ${credits.number} of ${writeDay(credits.issuedOn)}.`,
  }
}
