import type { Amount } from './amounts.ts'
import { formatMoney } from './money.ts'
import { writeDecimal } from './numerals.ts'
import { divideHalfAway } from './rounding.ts'
import { defaultUnit, getUnit } from './units.ts'
import type { MeasuringSystem, QuantityKind, Unit } from './units.ts'

const UM_PER_INCH = 25_400n
const INCHES_SHOWN_AS_FEET = 144
const GROUPED_FROM_DIGITS = 5

/** Where another unit than the default reads better: the first whose range holds the size, ends excluded. */
const OTHER_UNITS: Readonly<Partial<Record<QuantityKind, Readonly<Record<MeasuringSystem, readonly Range[]>>>>> = {
  length: { metric: [{ unit: 'm', from: 10_000_000 }], inch: [] },
  area: { metric: [{ unit: 'cm²', below: 10_000 }], inch: [{ unit: 'in²', below: 92_903 }] },
  volume: { metric: [{ unit: 'mL', below: 1_000 }], inch: [{ unit: 'fl oz', below: 3_785 }] },
  mass: { metric: [{ unit: 'g', below: 1_000 }], inch: [{ unit: 'oz', below: 453 }] },
  time: { metric: [{ unit: 'min', below: 3_600 }], inch: [{ unit: 'min', below: 3_600 }] },
  torque: { metric: [], inch: [{ unit: 'lbf·in', below: 1_355 }] },
  current: { metric: [{ unit: 'mA', below: 1_000 }], inch: [{ unit: 'mA', below: 1_000 }] },
  voltage: { metric: [{ unit: 'mV', below: 1_000 }], inch: [{ unit: 'mV', below: 1_000 }] },
  resistance: { metric: [{ unit: 'mΩ', below: 1_000 }], inch: [{ unit: 'mΩ', below: 1_000 }] },
}

interface Range {
  readonly unit: string
  readonly from?: number
  readonly below?: number
}

/**
 * A canonical integer as people of one measuring system read it. Throws a RangeError when it is no whole number.
 *
 * @example formatQuantity(595313, 'length', 'inch') // '23 7/16 in'
 */
export function formatQuantity(value: number, kind: QuantityKind, system: MeasuringSystem): string {
  const size = Math.abs(value)
  const other = OTHER_UNITS[kind]?.[system].find(({ from = 1, below = Infinity }) => size >= from && size < below)
  return formatIn(value, kind, other?.unit ?? defaultUnit(kind, system))
}

/**
 * A canonical integer in the unit asked for, its name included; a count and a quantity of a line stand alone.
 * Inches are fractions to 1/64 (above 12 ft with feet); a length under 1 in that is no 64th shows decimals.
 * Throws a RangeError for a unit of another kind.
 *
 * @example formatIn(9000, 'torque', 'lbf·ft') // '6.6 lbf·ft'
 */
export function formatIn(value: number, kind: QuantityKind, unit: string): string {
  const { symbol } = getUnit(kind, unit)
  if (symbol === 'in') return formatInches(value)
  return kind === 'count' || kind === 'times' ? figureIn(value, kind, unit) : `${figureIn(value, kind, unit)} ${symbol}`
}

/**
 * The bare decimal figure in a unit, without its name and without closing zeros.
 *
 * @example figureIn(300, 'time', 'h') // '0.08'
 */
export function figureIn(value: number, kind: QuantityKind, unit: string): string {
  const { numerator, denominator, decimals } = getUnit(kind, unit)
  const places = decimals === 1 && isUnderOne(value, { numerator, denominator }) ? 2 : decimals
  const figure = writeDecimal(divideHalfAway(BigInt(value) * denominator * 10n ** BigInt(places), numerator), places, GROUPED_FROM_DIGITS)
  return places === 0 ? figure : figure.replace(/\.?0+$/, '')
}

/**
 * A torque both ways, for paper that must serve either wrench. Input mN·m.
 *
 * @example formatBothTorques(9000) // { nm: '9', ftlb: '6.6' }
 */
export function formatBothTorques(mNm: number): { readonly nm: string, readonly ftlb: string } {
  return { nm: figureIn(mNm, 'torque', 'N·m'), ftlb: figureIn(mNm, 'torque', 'lbf·ft') }
}

const MOST_IN_INCHES_MNM = 13_558

/**
 * A torque as sheets write it, for whichever wrench is at hand; up to 10 lbf·ft also in lbf·in. Input mN·m.
 * Conversion by NIST SP 811, B.8: 1 lbf·ft = 1.355 817 948 331 400 4 N·m, 1 lbf·in a twelfth of it.
 *
 * @example writeTorque(9000) // '9 N·m, 6.6 lbf·ft (79.7 lbf·in)'
 */
export function writeTorque(mNm: number): string {
  const { nm, ftlb } = formatBothTorques(mNm)
  return `${nm} N·m, ${ftlb} lbf·ft${mNm <= MOST_IN_INCHES_MNM ? ` (${figureIn(mNm, 'torque', 'lbf·in')} lbf·in)` : ''}`
}

/**
 * Any amount of a working, money in the shop's currency.
 *
 * @example formatAmount({ kind: 'money', value: 123450 }, 'metric', 'USD') // '1,234.50 USD'
 */
export function formatAmount({ kind, value }: Amount, system: MeasuringSystem, currency: string): string {
  return kind === 'money' ? formatMoney(value, currency) : formatQuantity(value, kind, system)
}

function formatInches(value: number): string {
  const um = BigInt(Math.abs(value))
  const sixtyFourths = divideHalfAway(um * 64n, UM_PER_INCH)
  const isExact = divideHalfAway(sixtyFourths * UM_PER_INCH, 64n) === um
  if (!isExact && um < UM_PER_INCH) return `${figureIn(value, 'length', 'in')} in`
  return `${value < 0 ? '−' : ''}${writeInches(Number(sixtyFourths))}`
}

function writeInches(sixtyFourths: number): string {
  const inches = Math.floor(sixtyFourths / 64)
  const fraction = lowestTerms(sixtyFourths % 64, 64)
  if (inches < INCHES_SHOWN_AS_FEET) return `${joined(inches, fraction)} in`
  const feet = writeDecimal(BigInt(Math.floor(inches / 12)), 0, GROUPED_FROM_DIGITS)
  return inches % 12 === 0 && fraction === '' ? `${feet} ft` : `${feet} ft ${joined(inches % 12, fraction)} in`
}

function joined(inches: number, fraction: string): string {
  if (fraction === '') return String(inches)
  return inches === 0 ? fraction : `${inches} ${fraction}`
}

function lowestTerms(top: number, bottom: number): string {
  if (top === 0) return ''
  return top % 2 === 0 ? lowestTerms(top / 2, bottom / 2) : `${top}/${bottom}`
}

function isUnderOne(value: number, { numerator, denominator }: Pick<Unit, 'numerator' | 'denominator'>): boolean {
  return BigInt(Math.abs(value)) * denominator < numerator
}
