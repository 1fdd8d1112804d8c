import type { Amount } from '../../server/calc/amounts.ts'
import { formatAmount, formatIn } from '../../server/calc/figures.ts'
import { writeDecimal } from '../../server/calc/numerals.ts'
import { divideHalfAway } from '../../server/calc/rounding.ts'
import type { Viewer } from './viewer.ts'

/** What of the viewer decides how an amount is written. */
export type Reader = Pick<Viewer, 'units' | 'currency'>

/**
 * An amount as this viewer reads it; a time of a minute or more always in hours with one decimal.
 *
 * @example writeAmount({ kind: 'time', value: 9000 }, { units: 'metric', currency: 'USD' }) // '2.5 h'
 */
export function writeAmount(amount: Amount, reader: Reader): string {
  if (amount.kind === 'time') return `${writeHours(amount.value)} h`
  return formatAmount(amount, reader.units, reader.currency)
}

/**
 * Seconds as hours, without the unit, so that columns line up.
 *
 * @example writeHours(1_483_200) // '412.0'
 */
export function writeHours(seconds: number, places: 1 | 2 = 1): string {
  const scale = 10n ** BigInt(places)
  return writeDecimal(divideHalfAway(BigInt(seconds) * scale, 3600n), places, 5)
}

const METER_UM = 1_000_000

/**
 * An amount of what is bought: lengths are bought by the meter, and read so from one meter on.
 *
 * @example writeBought({ kind: 'length', value: 5_250_000 }, { units: 'metric', currency: 'USD' }) // '5.25 m'
 */
export function writeBought(amount: Amount, reader: Reader): string {
  const isLong = amount.kind === 'length' && reader.units === 'metric' && amount.value >= METER_UM
  return isLong ? formatIn(amount.value, 'length', 'm') : writeAmount(amount, reader)
}
