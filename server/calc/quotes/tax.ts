import { plainText, quoted, readNumeral, unreadable } from '../numerals.ts'
import type { Unreadable } from '../numerals.ts'
import { addExactly, scaleHalfAway } from '../rounding.ts'

/** A line as tax sees it: 8.875 % is a rate of 8875 thousandths of a percent. */
export interface TaxedLine {
  readonly amountMinor: number
  readonly taxCode: string
  readonly rateThousandthsOfPercent: number
}

export interface TaxOnCode {
  readonly taxCode: string
  readonly rateThousandthsOfPercent: number
  readonly netMinor: number
  readonly taxMinor: number
}

export interface TaxedTotal {
  readonly codes: readonly TaxOnCode[]
  readonly netMinor: number
  readonly taxMinor: number
  readonly totalMinor: number
}

const WHOLE_IN_THOUSANDTHS_OF_PERCENT = 100_000
const RATE_DECIMALS = 3

/**
 * Tax per code on the sum of its lines, half away from zero, codes in alphabetical order.
 * Throws a RangeError when one code comes with two rates. Source: the shop's rule; local law decides.
 *
 * @example taxByCode([{ amountMinor: 1005, taxCode: 'parts', rateThousandthsOfPercent: 10000 }]).taxMinor // 101
 */
export function taxByCode(lines: readonly TaxedLine[]): TaxedTotal {
  const codes = [...new Set(lines.map(({ taxCode }) => taxCode))].sort().map(taxCode => taxOnCode(taxCode, lines))
  const netMinor = addExactly(codes.map(code => code.netMinor))
  const taxMinor = addExactly(codes.map(code => code.taxMinor))
  return { codes, netMinor, taxMinor, totalMinor: addExactly([netMinor, taxMinor]) }
}

/**
 * Reads a tax rate in percent, to three decimals, from 0 to 100.
 *
 * @example parseTaxRate('8.875 %') // { ok: true, thousandthsOfPercent: 8875 }
 */
export function parseTaxRate(text: string): { readonly ok: true, readonly thousandthsOfPercent: number } | Unreadable {
  const plain = plainText(text).slice(0, 40)
  const numeral = readNumeral(plain.replace(/ ?%$/, ''))
  if (!numeral.ok) return numeral
  if (numeral.rest !== '' || numeral.decimals === null || numeral.decimals > RATE_DECIMALS) {
    return unreadable(`${quoted(plain)} is not a tax rate: write a percentage with at most three decimals, as 8.875.`)
  }
  const thousandthsOfPercent = Number(numeral.numerator) * 10 ** (RATE_DECIMALS - numeral.decimals)
  if (thousandthsOfPercent > WHOLE_IN_THOUSANDTHS_OF_PERCENT) return unreadable(`${quoted(plain)} is more than 100 %: check the rate.`)
  return { ok: true, thousandthsOfPercent }
}

function taxOnCode(taxCode: string, lines: readonly TaxedLine[]): TaxOnCode {
  const own = lines.filter(line => line.taxCode === taxCode)
  const rateThousandthsOfPercent = own[0]?.rateThousandthsOfPercent ?? 0
  if (own.some(line => line.rateThousandthsOfPercent !== rateThousandthsOfPercent)) {
    throw new RangeError(`tax code ${taxCode} has two rates`)
  }
  const netMinor = addExactly(own.map(({ amountMinor }) => amountMinor))
  const taxMinor = scaleHalfAway(netMinor, rateThousandthsOfPercent, WHOLE_IN_THOUSANDTHS_OF_PERCENT)
  return { taxCode, rateThousandthsOfPercent, netMinor, taxMinor }
}
