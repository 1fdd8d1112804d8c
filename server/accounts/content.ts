import { createHash } from 'node:crypto'
import type { TitleBlockFields } from '../../web/shared/printSheet.tsx'
import { LARGEST_INTEGER } from '../calc/amounts.ts'
import { formatMoney } from '../calc/money.ts'
import type { TaxedLine, TaxedTotal, TaxOnCode } from '../calc/quotes/tax.ts'
import { Problem } from '../shared/problems.ts'

export const BASES = ['accepted', 'time and material'] as const
export type Basis = (typeof BASES)[number]

export type Quantity =
  | { readonly of: 'time', readonly seconds: number }
  | { readonly of: 'count', readonly thousandths: number, readonly unit: string }

/** What a line charges, so that no later invoice charges it again. */
export type Held =
  | { readonly kind: 'hours', readonly id: string, readonly seconds: number }
  | { readonly kind: 'equipment' | 'material' | 'single-use', readonly id: string, readonly count: number }

/** One line as it stands on the paper. */
export interface InvoiceLine extends TaxedLine {
  /** Within the invoice: L1, L2 … */
  readonly key: string
  readonly group: string
  readonly text: string
  readonly quantity: Quantity | null
  readonly eachMinor: number | null
  readonly holds: readonly Held[]
}

/** An earlier invoice of the same build that is taken off, as it stands after its credit notes. */
export interface EarlierPart {
  readonly number: string
  readonly issuedOn: string
  readonly codes: readonly TaxOnCode[]
  readonly totalMinor: number
}

/** An accepted quote or change order, net and tax by code as the customer said yes to it. */
export interface AcceptedPart {
  readonly number: string
  readonly codes: readonly TaxOnCode[]
}

/** Everything that stands on an invoice or a credit note; nothing of it is looked up again. */
export interface InvoiceContent {
  readonly format: 1
  readonly kind: 'invoice' | 'credit note'
  readonly basis: Basis | 'credit'
  readonly titleBlock: TitleBlockFields
  readonly customer: { readonly name: string, readonly contact: string, readonly address: string }
  readonly vehicle: string
  readonly currency: string
  readonly issuedOn: string
  readonly dueOn: string
  readonly lines: readonly InvoiceLine[]
  /** Where lines come from several accepted papers: the tax of each as it was accepted. */
  readonly parts: readonly AcceptedPart[]
  /** Of all lines. */
  readonly whole: TaxedTotal
  readonly earlier: readonly EarlierPart[]
  /** Of this paper: the whole less what was invoiced earlier. */
  readonly total: TaxedTotal
  readonly paidAheadMinor: number
  readonly note: string
  /** The invoice that a credit note takes back from. */
  readonly credits: { readonly number: string, readonly issuedOn: string } | null
}

export const invoiceNumber = (number: number): string => `I-${String(number).padStart(4, '0')}`

/** SHA-256 of a content as it is stored. */
export const hashOfContent = (text: string): string => createHash('sha256').update(text).digest('hex')

/** Refuses an amount that no field can keep. */
export function mustFit(minor: number, currency: string, what: string): void {
  if (Math.abs(minor) <= LARGEST_INTEGER) return
  throw new Problem(409, 'More than can be kept', `${what} comes to ${formatMoney(minor, currency)}; at most ${formatMoney(LARGEST_INTEGER, currency)} can be kept. Check hours, quantities and prices. Nothing was written.`)
}
