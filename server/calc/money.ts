import { LARGEST_INTEGER } from './amounts.ts'
import { plainText, quoted, readNumeral, unreadable, writeDecimal } from './numerals.ts'
import type { Numeral, Unreadable } from './numerals.ts'
import { divideHalfAway, scaleHalfAway } from './rounding.ts'

export interface Money {
  readonly ok: true
  /** In minor units of the currency it was read for. */
  readonly minor: number
}

const LONGEST_ENTRY = 40
const WHOLE_IN_THOUSANDTHS = 1_000
const SECONDS_PER_HOUR = 3_600
const GROUPED_FROM_DIGITS = 4
const CURRENCIES: ReadonlySet<string> = new Set(Intl.supportedValuesOf('currency'))
/**
 * Kept here because the runtime's own digits follow cash habits (HUF, IDR, COP and others 0 where ISO 4217 has 2)
 * and may change with an update, which would change what stored minor units are worth.
 */
const CURRENCIES_BY_OTHER_DIGITS: readonly (readonly [digits: number, codes: string])[] = [
  [0, 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF'],
  [3, 'BHD IQD JOD KWD LYD OMR TND'],
]

/** Whether a text is the code of a currency, in capitals. */
export function isCurrency(code: string): boolean {
  return CURRENCIES.has(code)
}

/**
 * Minor digits of a currency by ISO 4217. Throws a RangeError for an unknown code.
 *
 * @example minorDigits('JPY') // 0
 */
export function minorDigits(currency: string): number {
  if (!isCurrency(currency)) throw new RangeError(`${currency} is not a currency code`)
  return CURRENCIES_BY_OTHER_DIGITS.find(([, codes]) => codes.includes(currency))?.[0] ?? 2
}

/**
 * Reads an amount of money, its code or sign before or after it if at all, into minor units.
 * Refuses more decimals than the currency has, a decimal comma, fractions, another currency,
 * and a negative unless `negative` is 'allowed'.
 *
 * @example parseMoney('1,234.5', 'USD') // { ok: true, minor: 123450 }
 */
export function parseMoney(text: string, currency: string, negative: 'allowed' | 'refused' = 'refused'): Money | Unreadable {
  const digits = minorDigits(currency)
  const example = writeDecimal(1_234n * 10n ** BigInt(digits), digits, GROUPED_FROM_DIGITS)
  const plain = plainText(text)
  const bare = withoutCurrency(plain, currency)
  if (bare === '') return unreadable(`Enter an amount in ${currency}, as ${example}.`)
  if (plain.length > LONGEST_ENTRY) return unreadable(`That is too long for an amount: at most ${LONGEST_ENTRY} characters, as ${example}.`)
  const isNegative = bare.startsWith('-')
  if (isNegative && negative === 'refused') return unreadable(`${quoted(plain)} is negative: the amount here is 0 or more, as ${example}.`)
  const numeral = readNumeral(isNegative ? bare.slice(1).trimStart() : bare)
  if (!numeral.ok) return numeral
  return toMinor(numeral, { plain, isNegative, currency, example })
}

/**
 * An amount with its code, thousands apart, every minor digit shown.
 *
 * @example formatMoney(123450, 'USD') // '1,234.50 USD'
 */
export function formatMoney(minor: number, currency: string): string {
  return `${formatMoneyFigure(minor, currency)} ${currency}`
}

/**
 * The figure alone, for columns whose head names the currency.
 *
 * @example formatMoneyFigure(-5, 'USD') // '−0.05'
 */
export function formatMoneyFigure(minor: number, currency: string): string {
  return writeDecimal(BigInt(minor), minorDigits(currency), GROUPED_FROM_DIGITS)
}

/**
 * Price of a quantity: minor units per one × thousandths of one, half away from zero.
 *
 * @example priceTimes(1999, 1500) // 2999
 */
export function priceTimes(priceMinor: number, quantityThousandths: number): number {
  return scaleHalfAway(priceMinor, quantityThousandths, WHOLE_IN_THOUSANDTHS)
}

/**
 * Money for time: seconds at a rate per hour, half away from zero.
 *
 * @example costOfTime(5400, 9500) // 14250
 */
export function costOfTime(seconds: number, ratePerHourMinor: number): number {
  return scaleHalfAway(ratePerHourMinor, seconds, SECONDS_PER_HOUR)
}

interface MoneyEntry {
  readonly plain: string
  readonly isNegative: boolean
  readonly currency: string
  readonly example: string
}

function toMinor(numeral: Numeral, { plain, isNegative, currency, example }: MoneyEntry): Money | Unreadable {
  const digits = minorDigits(currency)
  if (numeral.rest !== '' || numeral.decimals === null) {
    return unreadable(`${quoted(plain)} is not an amount in ${currency}: write it as ${example}.`)
  }
  if (numeral.decimals > digits) {
    return unreadable(`${quoted(plain)} has too many decimals: ${currency} has ${digits === 0 ? 'none' : digits}, as ${example}.`)
  }
  const minor = divideHalfAway(numeral.numerator * 10n ** BigInt(digits), numeral.denominator)
  if (minor > LARGEST_INTEGER) {
    return unreadable(`${quoted(plain)} is more than can be kept: at most ${formatMoney(LARGEST_INTEGER, currency)}.`)
  }
  return { ok: true, minor: isNegative && minor !== 0n ? -Number(minor) : Number(minor) }
}

/** Without the currency's code or sign, wherever it stands; a leading minus stays. */
function withoutCurrency(plain: string, currency: string): string {
  const sign = new Intl.NumberFormat('en-US', { style: 'currency', currency, currencyDisplay: 'narrowSymbol' })
    .formatToParts(0).find(({ type }) => type === 'currency')?.value ?? currency
  const name = `(?:${currency}|${sign.replace(/[^\p{L}]/gu, String.raw`\$&`)})`
  return plain.replace(new RegExp(`^(-?) ?${name}(?![a-z]) ?`, 'i'), '$1').replace(new RegExp(` ?${name}$`, 'i'), '')
}
