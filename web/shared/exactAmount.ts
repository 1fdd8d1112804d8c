import type { Amount, Working } from '../../server/calc/amounts.ts'
import { formatIn } from '../../server/calc/figures.ts'
import { parseQuantity } from '../../server/calc/quantities.ts'
import { defaultUnit } from '../../server/calc/units.ts'
import { writeAmount, writeBought, writeHours } from './amount.ts'
import type { Reader } from './amount.ts'

/** How the times of a working are written so that they add up as printed: all alike, in the shortest way that is exact. */
type TimeStyle = 'tenths' | 'hundredths' | 'minutes' | 'seconds'

export interface ExactWriter {
  /** An amount with all the digits it has. */
  write(amount: Amount): string
  /** The result, and beside it how the page rounds it where that is another figure. */
  writeResult(): string
  /** True where a length or an area had to be rounded all the same. */
  readonly isRounded: boolean
}

/** Writes the amounts of one working. `places`: decimals of hours on the page that shows its result. */
export function exactWriter({ inputs, result }: Pick<Working, 'inputs' | 'result'>, reader: Reader, places: 1 | 2 = 1): ExactWriter {
  const amounts = [...inputs.map(({ amount }) => amount), result]
  const style = timeStyle(amounts.filter(({ kind }) => kind === 'time').map(({ value }) => value))
  const inMeters = reader.units === 'metric' && writeBought(result, reader).endsWith(' m')
  const write = (amount: Amount): string => {
    if (amount.kind === 'time') return writeTime(amount.value, style)
    // In one unit with the result, so that the lines add up to it.
    return amount.kind === 'length' && inMeters ? formatIn(amount.value, 'length', 'm') : writeAmount(amount, reader)
  }
  const shown = result.kind === 'time' ? `${writeHours(result.value, places)} h` : write(result)
  const exact = write(result)
  const isSame = result.kind !== 'time' || exact === shown || (style === 'tenths' && places === 2)
  return { write, writeResult: () => isSame ? shown : `${exact}, rounded ${shown}`, isRounded: amounts.some((amount) => !isExact(amount, write(amount), reader)) }
}

function timeStyle(times: readonly number[]): TimeStyle {
  const all = (step: number): boolean => times.every((seconds) => seconds % step === 0)
  if (all(360)) return 'tenths'
  if (all(36)) return 'hundredths'
  return all(60) ? 'minutes' : 'seconds'
}

/** @example writeTime(43512, 'seconds') // '12:05:12 h' */
export function writeTime(seconds: number, style: TimeStyle): string {
  if (style === 'tenths' || style === 'hundredths') return `${writeHours(seconds, style === 'tenths' ? 1 : 2)} h`
  const size = Math.abs(seconds)
  const two = (number: number): string => String(number).padStart(2, '0')
  const clock = `${seconds < 0 ? '−' : ''}${Math.floor(size / 3600)}:${two(Math.floor(size / 60) % 60)}`
  return style === 'minutes' ? `${clock} h` : `${clock}:${two(size % 60)} h`
}

function isExact({ kind, value }: Amount, written: string, { units }: Reader): boolean {
  if (kind === 'time' || kind === 'money' || kind === 'count' || value < 0) return true
  const read = parseQuantity(written, kind, defaultUnit(kind, units))
  return read.ok && read.value === value
}
