import type { Viewer } from '../../web/shared/viewer.ts'
import { addDays } from '../calc/calendar.ts'
import { formatMoney } from '../calc/money.ts'
import type { Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import { invalid, Problem } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { invoiceNumber, type InvoiceContent } from './content.ts'
import { draftOf, type DraftAsked } from './draft.ts'
import { createInvoice, getShop, nextInvoiceNumber, type Head } from './store.ts'

export interface IssueAsked extends DraftAsked {
  readonly note: string
  /** Of the draft that was looked at; null where the caller takes what stands now. */
  readonly fingerprint: string | null
  /** That more than was accepted is meant. */
  readonly confirmed: boolean
}

export const overInWords = (overMinor: number, currency: string): string =>
  `With this invoice ${formatMoney(overMinor, currency)} more is charged than the customer has accepted. Local law decides whether that may be; a change order asks first.`

/** Issues an invoice: numbers it and freezes it, in one write. Returns its id. */
export async function issueInvoice(write: Write, buildId: string, { note, fingerprint, confirmed, ...asked }: IssueAsked, viewer: Viewer, actor: Actor): Promise<string> {
  const draft = await draftOf(write, buildId, asked, viewer.currency)
  if (fingerprint !== null && fingerprint !== draft.fingerprint) {
    throw new Problem(409, 'The draft has changed', 'Hours, prices or payments changed since you looked at it. Nothing was issued: look at the draft again, then issue it.')
  }
  const gone = (asked.basis === 'accepted' ? [] : asked.chosen ?? []).filter((offer) => !draft.offered.some((one) => one.offer === offer))
  if (gone.length > 0) throw new Problem(409, 'No longer to be invoiced', `${gone.join(', ')}: no such line can be invoiced now. It was invoiced already, or taken out of the build. Nothing was issued: look at the draft again.`)
  if (draft.total.totalMinor <= 0) throw new Problem(409, 'Nothing to invoice', draft.lines.length === 0 ? 'Nothing is chosen, or all of it was invoiced already.' : 'The lines come to nothing or less. What is taken back is a credit note on an invoice.')
  if (draft.overMinor > 0 && !confirmed) throw invalid('confirmed', `${overInWords(draft.overMinor, viewer.currency)} Tick that it is meant.`)
  const [number, shop] = [await nextInvoiceNumber(write), await getShop(write)]
  const content: InvoiceContent = {
    format: 1, kind: 'invoice', basis: draft.basis, ...partiesOf(draft.head, viewer.currency),
    titleBlock: titleBlockOf({ head: draft.head, shop, viewer, number, title: 'Invoice' }),
    issuedOn: viewer.today, dueOn: addDays(viewer.today, shop.paymentDays),
    lines: draft.lines, parts: draft.parts, whole: draft.whole, earlier: draft.earlier, total: draft.total, paidAheadMinor: draft.paidAheadMinor, note, credits: null,
  }
  return createInvoice(write, { number, buildId, content, creditsId: null }, actor)
}

export function partiesOf({ vehicle }: Head, currency: string): Pick<InvoiceContent, 'customer' | 'vehicle' | 'currency'> {
  const { customer, make, model, year, vin } = vehicle
  return { customer, currency, vehicle: [[make, model, year].filter(Boolean).join(' '), vin === '' ? '' : `VIN ${vin}`].filter((text) => text !== '').join(', ') }
}

interface Titled {
  readonly head: Head
  readonly shop: Awaited<ReturnType<typeof getShop>>
  readonly viewer: Viewer
  readonly number: number
  readonly title: 'Invoice' | 'Credit note'
}

export function titleBlockOf({ head, shop, viewer, number, title }: Titled): InvoiceContent['titleBlock'] {
  return {
    owner: shop.name === '' ? 'shop not named yet' : shop.name, ownerMore: [shop.address.replaceAll('\n', ', '), shop.phone].filter((text) => text !== '').join(', '),
    title, subtitle: head.title, documentType: title, number: invoiceNumber(number), revision: '1', dateOfIssue: viewer.today, language: 'en',
    createdBy: viewer.name, approvedBy: '', build: label('B', head.number), replaces: '',
  }
}
