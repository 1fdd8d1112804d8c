import type { AccountData, AccountDocumentRow, AccountPaymentRow } from '../../web/accounts/account.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { accountOf, type Account } from '../calc/quotes/account.ts'
import { formatQuantity } from '../calc/figures.ts'
import { depositsOf } from '../calc/quotes/quoteLines.ts'
import { formatMoney, formatMoneyFigure } from '../calc/money.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import type { Workings } from '../shared/workings.ts'
import { acceptedTotal, type Accepted } from './accepted.ts'
import { invoiceWorkings } from './invoiceWorkings.ts'
import { isTakenBack, standingsOf } from './standing.ts'
import { getHead, listInvoices, listPayments, namesOf, type Head, type StoredInvoice, type StoredPayment } from './store.ts'

/** The whole account of a build, loaded once. */
export interface LoadedAccount {
  readonly head: Head
  readonly documents: readonly StoredInvoice[]
  readonly payments: readonly StoredPayment[]
  readonly names: ReadonlyMap<string, string>
  readonly accepted: Accepted | null
  readonly account: Account
}

export async function loadAccount(reads: Reads, buildId: string): Promise<LoadedAccount> {
  const head = await getHead(reads, buildId)
  const [documents, payments, accepted] = await Promise.all([listInvoices(reads, buildId), listPayments(reads, buildId), acceptedTotal(reads, buildId)])
  return { head, documents, payments, accepted, account: accountOf(documents, payments), names: await namesOf(reads, payments.map(({ receivedById }) => receivedById)) }
}

const SAVED = { payment: 'the payment', 'taken back': 'the entry is taken back' } as const
export const SAVED_WORDS = ['payment', 'taken back'] as const

export const buildName = ({ number, title }: Pick<Head, 'number' | 'title'>): string => `${label('B', number)} ${title}`

export function accountPage(loaded: LoadedAccount, { currency, today }: Viewer, saved: keyof typeof SAVED | null): AccountData {
  const { head, documents, payments, account, accepted } = loaded
  const href = `/builds/${head.id}`
  // What stands invoiced on one basis is not invoiced on the other as well.
  const basis = standingsOf(documents).find((one) => !isTakenBack(one))?.invoice.basis
  const invoicing = [
    ...(accepted === null || basis === 'time and material' ? [] : [{ href: `${href}/invoices/new?basis=accepted`, name: 'Invoice what was accepted' }]),
    ...(basis === 'accepted' ? [] : [{ href: `${href}/invoices/new?basis=time+and+material`, name: 'Invoice time and material' }]),
  ]
  return {
    trail: [{ name: buildName(head), href }, { name: 'Account' }], number: label('B', head.number), title: head.title,
    accepted: accepted?.working ?? null, figures: account.workings,
    documents: documents.map((document) => toRow(document, account, currency, today)),
    payments: payments.map((payment) => toPaymentRow(payment, loaded, currency)),
    deposits: depositsPlanned(loaded, currency),
    deeds: [{ href: `${href}/payments/new`, name: 'Enter a payment' }, ...invoicing],
    links: [
      { href: `${href}/change-orders`, name: 'Change orders' }, { href: `${href}/account.csv`, name: 'Account as CSV' },
      { href: `${href}/hours.csv`, name: 'Hours as CSV' }, { href: `${href}/quote-lines.csv`, name: 'Quote lines as CSV' },
    ],
    saved: saved === null ? null : SAVED[saved],
  }
}

interface Deposit {
  readonly due: string
  readonly share: number
  readonly amountMinor: number
  /** All steps up to this one. */
  readonly byThenMinor: number
}

/** The deposit plan of the accepted quote, on what was said yes to with the options. */
function depositsOfQuote({ accepted }: LoadedAccount): Deposit[] {
  const quote = accepted?.papers.find(({ kind }) => kind === 'quote')
  if (!quote?.consent) return []
  const steps = quote.content.deposits
  const amounts = depositsOf(quote.consent.netMinor + quote.consent.taxMinor, steps.map(({ share }) => share))
  let byThenMinor = 0
  return steps.map(({ due, share }, index) => {
    const amountMinor = amounts[index] ?? 0
    byThenMinor += amountMinor
    return { due, share, amountMinor, byThenMinor }
  })
}

/** What of a step is not paid yet, the earlier steps paid first. */
const openOf = ({ amountMinor, byThenMinor }: Pick<Deposit, 'amountMinor' | 'byThenMinor'>, paidMinor: number): number => Math.min(amountMinor, Math.max(0, byThenMinor - paidMinor))

function depositsPlanned(loaded: LoadedAccount, currency: string): AccountData['deposits'] {
  const { paidMinor } = loaded.account
  return depositsOfQuote(loaded).map(({ due, share, amountMinor, byThenMinor }, index) => ({
    due, share: formatQuantity(share, 'share', 'metric'), amount: { text: formatMoneyFigure(amountMinor, currency), how: `d${index}` },
    open: { text: formatMoneyFigure(openOf({ amountMinor, byThenMinor }, paidMinor), currency), how: `e${index}` },
    standing: paidMinor >= byThenMinor ? 'paid' : paidMinor > byThenMinor - amountMinor ? 'in part' : 'open',
  }))
}

function toRow(document: StoredInvoice, account: Account, currency: string, today: string): AccountDocumentRow {
  const { id, number, kind, basis, content, issuedOn, dueOn, totalMinor } = document
  const standing = account.invoices.find((one) => one.id === id)
  return {
    number, href: `/invoices/${id}`, what: kind === 'credit note' ? `Credit note on ${content.credits?.number ?? ''}` : `Invoice, ${basis}`,
    issued: writeDay(issuedOn), due: standing ? writeDay(dueOn) : '', isLate: (standing?.openMinor ?? 0) > 0 && dueOn < today,
    total: { text: formatMoneyFigure(totalMinor, currency), how: `t${number}` },
    open: { text: standing ? formatMoneyFigure(standing.openMinor, currency) : '', how: standing ? `o${number}` : undefined },
  }
}

function toPaymentRow(payment: StoredPayment, { payments, documents, names }: LoadedAccount, currency: string): AccountPaymentRow {
  const taking = payments.find(({ takesBackId }) => takesBackId === payment.id)
  const taken = payments.find(({ id }) => id === payment.takesBackId)
  const of = documents.find(({ id }) => id === payment.invoiceId)?.number
  const what = taken ? `Takes back ${formatMoney(taken.amountMinor, currency)} of ${writeDay(taken.paidOn)}` : `${payment.amountMinor < 0 ? 'Paid back' : 'Received'}, ${payment.method}`
  return {
    day: writeDay(payment.paidOn), what, more: [of ? `for ${of}` : 'for no invoice', payment.note, taking ? `taken back on ${writeDay(taking.paidOn)}` : ''].filter((words) => words !== '').join('; '),
    reference: payment.reference, by: names.get(payment.receivedById) ?? '', amount: formatMoneyFigure(payment.amountMinor, currency),
    takeBackHref: taking || taken ? null : `/payments/${payment.id}/counter-entries/new`,
  }
}

/** What the figures of the account open: tI-0001 is the total of an invoice, oI-0001 what is open on it. */
export function accountWorkings(loaded: LoadedAccount): Workings {
  const { documents, account } = loaded
  return new Map([
    ...depositsOfQuote(loaded).map(({ due, share, amountMinor }, index) => [`d${index}`, {
      title: due, inputs: [{ label: 'Accepted quote, with tax', source: 'consent', amount: { kind: 'money', value: loaded.accepted?.papers[0]?.consent ? loaded.accepted.papers[0].consent.netMinor + loaded.accepted.papers[0].consent.taxMinor : 0 } }, { label: 'Share', source: 'deposit plan', amount: { kind: 'share', value: share } }],
      result: { kind: 'money', value: amountMinor }, formula: 'accepted × share, the minor units left over to the first steps', assumed: 'A deposit is paid ahead: it needs no invoice here. Local law decides whether one must be issued for it.', source: 'common practice, no source',
    }] as const),
    ...depositsOfQuote(loaded).map((step, index) => [`e${index}`, {
      title: `${step.due}: still open`, inputs: [{ label: 'This step', source: 'deposit plan', amount: { kind: 'money', value: step.amountMinor } }, { label: 'All steps up to it', source: 'deposit plan', amount: { kind: 'money', value: step.byThenMinor } }, { label: 'Paid on the build', source: 'payments', amount: { kind: 'money', value: account.paidMinor } }],
      result: { kind: 'money', value: openOf(step, account.paidMinor) }, formula: 'all steps up to it − paid, at most this step and at least nothing', assumed: 'Earlier steps are paid first.', source: 'common practice, no source',
    }] as const),
    ...documents.flatMap(({ number, content }) => {
      const total = invoiceWorkings(content).get('total')
      return total ? [[`t${number}`, { ...total, title: `${number}: ${total.title}` }] as const] : []
    }),
    ...account.invoices.map(({ number, working }) => [`o${number}`, working] as const),
  ])
}
