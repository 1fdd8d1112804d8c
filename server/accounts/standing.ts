import { lessEarlier } from '../calc/quotes/invoicing.ts'
import type { TaxedTotal } from '../calc/quotes/tax.ts'
import type { EarlierPart, Held } from './content.ts'
import type { StoredInvoice } from './store.ts'

/** An invoice with its credit notes, and what is left of it. */
export interface Standing {
  readonly invoice: StoredInvoice
  readonly credits: readonly StoredInvoice[]
  /** Code by code, what no credit note has taken back. */
  readonly left: TaxedTotal
}

export function standingsOf(documents: readonly StoredInvoice[]): Standing[] {
  return documents.filter(({ kind }) => kind === 'invoice').map((invoice) => {
    const credits = documents.filter(({ creditsId }) => creditsId === invoice.id)
    // The amounts of a credit note are below zero: taken off with their sign turned.
    const taken = credits.map(({ content }) => content.total.codes.map((code) => ({ ...code, netMinor: -code.netMinor, taxMinor: -code.taxMinor })))
    return { invoice, credits, left: lessEarlier(invoice.content.total, taken) }
  })
}

/** Nothing of it is left: as if it had never been issued, but for its number. */
export const isTakenBack = ({ left }: Standing): boolean => left.codes.every(({ netMinor, taxMinor }) => netMinor === 0 && taxMinor === 0)

export function earlierParts(standings: readonly Standing[]): EarlierPart[] {
  return standings.filter((one) => !isTakenBack(one)).map(({ invoice, left }) =>
    ({ number: invoice.number, issuedOn: invoice.issuedOn, codes: left.codes, totalMinor: left.totalMinor }))
}

/** How much of each thing invoices hold, by kind and id; one that was taken back whole holds nothing. */
export function heldBy(standings: readonly Standing[]): ReadonlyMap<string, number> {
  const held = new Map<string, number>()
  for (const one of standings.filter((each) => !isTakenBack(each)).flatMap(({ invoice }) => invoice.content.lines).flatMap(({ holds }) => holds)) {
    const key = heldKey(one)
    held.set(key, (held.get(key) ?? 0) + ('seconds' in one ? one.seconds : one.count))
  }
  return held
}

export const heldKey = ({ kind, id }: Pick<Held, 'kind' | 'id'>): string => `${kind} ${id}`
