import { scaleHalfAway } from '../rounding.ts'
import { taxByCode, type TaxedLine, type TaxedTotal, type TaxOnCode } from './tax.ts'

/** A line of an invoice by its key, and what of it was credited already, 0 or more for a line above zero. */
export interface CreditableLine extends TaxedLine {
  readonly key: string
  readonly creditedMinor: number
}

export interface Credit {
  readonly key: string
  /** Net, above zero. */
  readonly amountMinor: number
}

export type CreditRefusal =
  | { readonly why: 'more than the line', readonly key: string, readonly leftMinor: number }
  | { readonly why: 'more than the code', readonly taxCode: string, readonly leftMinor: number }

const WHOLE_IN_THOUSANDTHS_OF_PERCENT = 100_000

/**
 * What is left of a total when earlier ones are taken off, code by code: net and tax of both sides as they stand on their
 * papers, so that all parts together come to the whole to the last minor unit. Minor units.
 *
 * Source: common practice, no source; local law decides.
 * @example lessEarlier(totalOf([{ taxCode: 'a', rateThousandthsOfPercent: 10000, netMinor: 1000, taxMinor: 100 }]), [[{ taxCode: 'a', rateThousandthsOfPercent: 10000, netMinor: 300, taxMinor: 30 }]]).totalMinor // 770
 */
export function lessEarlier(whole: TaxedTotal, earlier: readonly (readonly TaxOnCode[])[]): TaxedTotal {
  const taken = earlier.flat()
  const names = [...new Set([...whole.codes, ...taken].map(({ taxCode }) => taxCode))].sort()
  const codes = names.map((taxCode): TaxOnCode => {
    const own = whole.codes.find((code) => code.taxCode === taxCode)
    const off = taken.filter((code) => code.taxCode === taxCode)
    return {
      taxCode, rateThousandthsOfPercent: own?.rateThousandthsOfPercent ?? off[0]?.rateThousandthsOfPercent ?? 0,
      netMinor: (own?.netMinor ?? 0) - sum(off, 'netMinor'), taxMinor: (own?.taxMinor ?? 0) - sum(off, 'taxMinor'),
    }
  })
  return totalOf(codes)
}

/** Codes with their sums, as a total. */
export function totalOf(codes: readonly TaxOnCode[]): TaxedTotal {
  const [netMinor, taxMinor] = [sum(codes, 'netMinor'), sum(codes, 'taxMinor')]
  return { codes, netMinor, taxMinor, totalMinor: netMinor + taxMinor }
}

/**
 * What a credit note over chosen net amounts takes back: tax per code on their sum, half away from zero, never more than
 * what is left of the code's tax, and exactly that once nothing is left of its net. Minor units, all 0 or more; null with
 * a refusal where more is asked than is left.
 *
 * Source: the shop's rule as for invoices; local law decides.
 * @example creditOf([{ key: 'L1', amountMinor: 1000, taxCode: 'a', rateThousandthsOfPercent: 10000, creditedMinor: 0 }], [{ taxCode: 'a', rateThousandthsOfPercent: 10000, netMinor: 1000, taxMinor: 100 }], [{ key: 'L1', amountMinor: 250 }]) // one code, 250 and 25
 */
export function creditOf(lines: readonly CreditableLine[], left: readonly TaxOnCode[], credits: readonly Credit[]): { readonly total: TaxedTotal } | { readonly refusal: CreditRefusal } {
  const asked = credits.flatMap(({ key, amountMinor }) => lines.filter((line) => line.key === key).map((line) => ({ line, amountMinor })))
  const over = asked.find(({ line, amountMinor }) => amountMinor > line.amountMinor - line.creditedMinor)
  if (over) return { refusal: { why: 'more than the line', key: over.line.key, leftMinor: over.line.amountMinor - over.line.creditedMinor } }
  const { codes } = taxByCode(asked.map(({ line, amountMinor }) => ({ ...line, amountMinor })))
  const beyond = codes.map((code) => ({ code, of: leftOf(left, code.taxCode) })).find(({ code, of }) => code.netMinor > of.netMinor)
  if (beyond) return { refusal: { why: 'more than the code', taxCode: beyond.code.taxCode, leftMinor: beyond.of.netMinor } }
  return {
    total: totalOf(codes.map((code) => {
      const of = leftOf(left, code.taxCode)
      return { ...code, taxMinor: code.netMinor === of.netMinor ? of.taxMinor : Math.min(code.taxMinor, of.taxMinor) }
    })),
  }
}

/**
 * A share of a total, net per code, with its own tax: what a deposit comes to. Share in thousandths; minor units.
 *
 * Source: common practice, no source.
 * @example shareOfTotal(totalOf([{ taxCode: 'a', rateThousandthsOfPercent: 10000, netMinor: 999, taxMinor: 100 }]), 300).totalMinor // 330
 */
export function shareOfTotal({ codes }: TaxedTotal, shareThousandths: number): TaxedTotal {
  return totalOf(codes.map((code) => {
    const netMinor = scaleHalfAway(code.netMinor, shareThousandths, 1_000)
    return { ...code, netMinor, taxMinor: scaleHalfAway(netMinor, code.rateThousandthsOfPercent, WHOLE_IN_THOUSANDTHS_OF_PERCENT) }
  }))
}

const leftOf = (left: readonly TaxOnCode[], taxCode: string): Pick<TaxOnCode, 'netMinor' | 'taxMinor'> =>
  left.find((code) => code.taxCode === taxCode) ?? { netMinor: 0, taxMinor: 0 }

const sum = (codes: readonly TaxOnCode[], key: 'netMinor' | 'taxMinor'): number => codes.reduce((total, code) => total + code[key], 0)
