import type { Working, WorkingInput } from '../amounts.ts'
import { sumOf } from '../grouping.ts'
import { addExactly } from '../rounding.ts'

/** An invoice, or a credit note that takes back from one; its total is then below zero. */
export interface AccountDocument {
  readonly id: string
  /** As I-0007. */
  readonly number: string
  readonly creditsId: string | null
  readonly totalMinor: number
}

export interface AccountPayment {
  /** Null where it was paid ahead, or back, of no invoice. */
  readonly invoiceId: string | null
  /** Below zero where it was paid back or taken back. */
  readonly amountMinor: number
}

export interface InvoiceStanding {
  readonly id: string
  readonly number: string
  readonly totalMinor: number
  /** Taken back by credit notes, 0 or more. */
  readonly creditedMinor: number
  /** Of what was paid, as much as went to this invoice. */
  readonly paidMinor: number
  readonly openMinor: number
  readonly working: Working
}

export interface Account {
  readonly invoicedMinor: number
  readonly creditedMinor: number
  readonly paidMinor: number
  /** What the customer still owes; below zero what the shop owes. */
  readonly balanceMinor: number
  /** Paid and not yet used up by an invoice. */
  readonly aheadMinor: number
  /** In the order of their numbers. */
  readonly invoices: readonly InvoiceStanding[]
  readonly workings: Readonly<Record<'invoiced' | 'credited' | 'paid' | 'balance' | 'ahead', Working>>
}

/**
 * What a customer owes on one build, and how far each invoice is paid. A payment goes to its own invoice up to what is
 * due on it; the rest and what was paid ahead go to the oldest open invoices; what was paid back comes off the newest
 * first. Minor units. What is open on all invoices less what is paid ahead is the balance, always.
 *
 * Source: common practice, no source.
 * @example accountOf([{ id: 'a', number: 'I-0001', creditsId: null, totalMinor: 1000 }], [{ invoiceId: null, amountMinor: 400 }]).balanceMinor // 600
 */
export function accountOf(documents: readonly AccountDocument[], payments: readonly AccountPayment[]): Account {
  const invoices = documents.filter(({ creditsId }) => creditsId === null)
  const credits = documents.filter(({ creditsId }) => creditsId !== null)
  const creditedOf = (id: string): number => -addExactly(credits.filter(({ creditsId }) => creditsId === id).map(({ totalMinor }) => totalMinor)) + 0
  const dues = invoices.map(({ id, totalMinor }) => totalMinor - creditedOf(id))
  const paidMinor = addExactly(payments.map(({ amountMinor }) => amountMinor))
  const shares = sharePayments(invoices.map(({ id }) => id), dues, payments)
  const invoicedMinor = addExactly(invoices.map(({ totalMinor }) => totalMinor))
  const creditedMinor = -addExactly(credits.map(({ totalMinor }) => totalMinor)) + 0
  const balanceMinor = invoicedMinor - creditedMinor - paidMinor
  const aheadMinor = paidMinor - sumOf(shares, (share) => share)
  return {
    invoicedMinor, creditedMinor, paidMinor, balanceMinor, aheadMinor,
    invoices: invoices.map(({ id, number, totalMinor }, index) => toStanding({ id, number, totalMinor, creditedMinor: creditedOf(id), paidMinor: shares[index] ?? 0 })),
    workings: {
      invoiced: working('Invoiced, with tax', invoices.map(({ number, totalMinor }) => line(number, 'invoice', totalMinor)), invoicedMinor, 'sum of the invoices'),
      credited: working('Credited, with tax', credits.map(({ number, totalMinor }) => line(number, 'credit note', -totalMinor)), creditedMinor, 'sum of the credit notes'),
      paid: working('Paid', payments.map(({ amountMinor }) => line(amountMinor < 0 ? 'Paid or taken back' : 'Received', 'payment', amountMinor)), paidMinor, 'sum of all entries; paid back and taken back count below zero'),
      balance: working('Balance', [line('Invoiced', 'invoices', invoicedMinor), line('Credited', 'credit notes', creditedMinor), line('Paid', 'payments', paidMinor)], balanceMinor, 'invoiced − credited − paid'),
      ahead: working('Paid ahead', [line('Paid', 'payments', paidMinor), line('Went to invoices', 'oldest first', paidMinor - aheadMinor)], aheadMinor, 'paid − what went to invoices'),
    },
  }
}

/** How much of what was paid goes to each invoice. */
function sharePayments(ids: readonly string[], dues: readonly number[], payments: readonly AccountPayment[]): number[] {
  const shares = ids.map((id, index) => {
    const own = addExactly(payments.filter(({ invoiceId }) => invoiceId === id).map(({ amountMinor }) => amountMinor))
    return Math.min(Math.max(own, 0), dues[index] ?? 0)
  })
  let rest = addExactly(payments.map(({ amountMinor }) => amountMinor)) - sumOf(shares, (share) => share)
  for (const [index, share] of shares.entries()) {
    if (rest <= 0) break
    const more = Math.min(rest, (dues[index] ?? 0) - share)
    shares[index] = share + more
    rest -= more
  }
  for (let index = shares.length - 1; index >= 0 && rest < 0; index -= 1) {
    const less = Math.min(-rest, shares[index] ?? 0)
    shares[index] = (shares[index] ?? 0) - less
    rest += less
  }
  return shares
}

function toStanding(own: Omit<InvoiceStanding, 'openMinor' | 'working'>): InvoiceStanding {
  const { number, totalMinor, creditedMinor, paidMinor } = own
  const openMinor = totalMinor - creditedMinor - paidMinor
  return {
    ...own, openMinor,
    working: working(`${number}: still open`, [line('Total with tax', 'invoice', totalMinor), line('Credited', 'credit notes', creditedMinor), line('Paid', 'payments for it, then what was paid ahead', paidMinor)],
      openMinor, 'total − credited − paid'),
  }
}

const line = (label: string, source: string, value: number): WorkingInput => ({ label, source, amount: { kind: 'money', value } })

const working = (title: string, inputs: readonly WorkingInput[], value: number, formula: string): Working =>
  ({ title, inputs, result: { kind: 'money', value }, formula, assumed: '', source: 'common practice, no source' })
