import { marginOf } from './margin.ts'

/** What the price of a build is taken from: invoices where there are some, else what was accepted, else the estimate. */
export type PriceBasis = 'invoiced' | 'accepted' | 'estimate'

/** Minor units, without tax. */
export interface PriceSources {
  readonly estimateMinor: number
  /** Accepted quote and change orders; null where nothing frozen was accepted. */
  readonly acceptedMinor: number | null
  /** Null where no invoice was issued. What credit notes take back is 0 or more. */
  readonly invoices: { readonly invoicedMinor: number, readonly creditedMinor: number } | null
  /** When finished, labor and what is bought. */
  readonly costMinor: number
}

export interface PriceTaken extends PriceSources {
  readonly basis: PriceBasis
  readonly priceMinor: number
  readonly marginMinor: number
  /** Of the price; null when there is none. */
  readonly marginThousandths: number | null
}

/**
 * The margin of a build on what its customer pays: invoices less credit notes where there are any, else what was
 * accepted, else what was estimated. Minor units, without tax.
 *
 * Source: margin = price − cost, as a share of the price, from memory; which price comes first is ours, no source.
 * @example priceTaken({ estimateMinor: 1000, acceptedMinor: 1200, invoices: null, costMinor: 900 }).marginMinor // 300
 */
export function priceTaken(sources: PriceSources): PriceTaken {
  const { estimateMinor, acceptedMinor, invoices, costMinor } = sources
  const basis = invoices !== null ? 'invoiced' : acceptedMinor !== null ? 'accepted' : 'estimate'
  const priceMinor = invoices !== null ? invoices.invoicedMinor - invoices.creditedMinor : acceptedMinor ?? estimateMinor
  return { ...sources, basis, priceMinor, marginMinor: priceMinor - costMinor, marginThousandths: marginOf(costMinor, priceMinor) }
}
