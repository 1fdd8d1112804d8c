import { addExactly } from '../rounding.ts'
import { taxByCode } from './tax.ts'

/** A tax code as it stood when a paper was frozen; 8.875 % is a rate of 8875. */
export interface PaperTaxCode {
  readonly code: string
  readonly name: string
  readonly rateThousandthsOfPercent: number
}

/** What a line of a paper brings to its totals; without a tax code it bears none. */
export interface PricedLine {
  readonly amountMinor: number
  readonly taxCode: PaperTaxCode | null
  /** Number of the option it belongs to; null is always in. */
  readonly option: number | null
}

export interface TaxOfCode extends PaperTaxCode {
  readonly netMinor: number
  readonly taxMinor: number
}

export interface PaperTotals {
  readonly netMinor: number
  readonly taxMinor: number
  readonly totalMinor: number
  /** By code; lines without one are in the net alone. */
  readonly taxes: readonly TaxOfCode[]
}

/**
 * Totals of lines in minor units: tax per code and rate on the sum of its lines, half away from zero.
 * Source: the shop's rule; local law decides.
 *
 * @example totalsOf([{ amountMinor: 1005, taxCode: { code: 'GOODS', name: 'goods', rateThousandthsOfPercent: 10000 }, option: null }]).totalMinor // 1106
 */
export function totalsOf(lines: readonly PricedLine[]): PaperTotals {
  const byKey = new Map(lines.flatMap(({ taxCode }) => (taxCode ? [[keyOf(taxCode), taxCode] as const] : [])))
  const taxed = taxByCode(lines.flatMap(({ amountMinor, taxCode }) =>
    (taxCode ? [{ amountMinor, taxCode: keyOf(taxCode), rateThousandthsOfPercent: taxCode.rateThousandthsOfPercent }] : [])))
  const taxes = taxed.codes.flatMap(({ taxCode, netMinor, taxMinor }) => {
    const code = byKey.get(taxCode)
    return code ? [{ code: code.code, name: code.name, rateThousandthsOfPercent: code.rateThousandthsOfPercent, netMinor, taxMinor }] : []
  })
  const netMinor = addExactly(lines.map(({ amountMinor }) => amountMinor))
  return { netMinor, taxMinor: taxed.taxMinor, totalMinor: addExactly([netMinor, taxed.taxMinor]), taxes }
}

/**
 * The lines that count once these options are said yes to: those of no option, and those of the chosen.
 *
 * @example linesWith([{ amountMinor: 5, taxCode: null, option: 2 }], []) // []
 */
export function linesWith<T extends PricedLine>(lines: readonly T[], chosen: readonly number[]): T[] {
  return lines.filter(({ option }) => option === null || chosen.includes(option))
}

// One code whose rate was changed while it stood on a line of its own is still two rates.
const keyOf = ({ code, rateThousandthsOfPercent }: PaperTaxCode): string => `${code} ${rateThousandthsOfPercent}`
