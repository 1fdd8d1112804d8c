import { toExact } from './refusal.ts'

/**
 * Rounds half away from zero, the one rule for every figure on paper.
 * Throws a RangeError for NaN and infinity.
 *
 * @example roundHalfAway(-2.5) // -3
 */
export function roundHalfAway(n: number): number {
  return Math.sign(finite(n)) * Math.round(Math.abs(n)) + 0
}

/**
 * Rounds half to the even neighbor. Kept for comparison; no paper uses it.
 *
 * @example roundHalfEven(2.5) // 2
 */
export function roundHalfEven(n: number): number {
  const down = Math.floor(finite(n))
  if (n - down !== 0.5) return Math.round(n) + 0
  return (down % 2 === 0 ? down : down + 1) + 0
}

/**
 * numerator ÷ denominator in whole numbers, half away from zero. Exact at any size.
 * Throws a RangeError for a zero denominator.
 *
 * @example divideHalfAway(-5n, 2n) // -3n
 */
export function divideHalfAway(numerator: bigint, denominator: bigint): bigint {
  const { quotient, twice, size, sign } = divided(numerator, denominator)
  return twice >= size ? quotient + sign : quotient
}

/**
 * numerator ÷ denominator in whole numbers, half to the even neighbor. No paper uses it.
 *
 * @example divideHalfEven(2145n, 10n) // 214n
 */
export function divideHalfEven(numerator: bigint, denominator: bigint): bigint {
  const { quotient, twice, size, sign } = divided(numerator, denominator)
  const isUp = twice > size || (twice === size && quotient % 2n !== 0n)
  return isUp ? quotient + sign : quotient
}

/**
 * value × numerator ÷ denominator without a float in between, half away from zero.
 * All are safe integers (a RangeError otherwise); refuses a result beyond exact counting (2⁵³).
 *
 * @example scaleHalfAway(1999, 1500, 1000) // 2999
 */
export function scaleHalfAway(value: number, numerator: number, denominator: number): number {
  return toNumber(divideHalfAway(toBigInt(value) * toBigInt(numerator), toBigInt(denominator)))
}

/**
 * The nearest multiple of a step, half away from zero; a quarter hour is 900 s, so exactly 7.5 min counts up.
 *
 * @example roundToStep(5 * 60, 15 * 60) // 0
 */
export function roundToStep(value: number, step: number): number {
  return scaleHalfAway(value, 1, step) * step
}

/**
 * Sum of safe integers; refuses one beyond exact counting (2⁵³).
 *
 * @example addExactly([1, 2, 3]) // 6
 */
export function addExactly(values: readonly number[]): number {
  return toNumber(values.reduce((sum, value) => sum + toBigInt(value), 0n))
}

function toNumber(value: bigint): number {
  return toExact(Number(value), 'A figure')
}

function toBigInt(value: number): bigint {
  if (!Number.isSafeInteger(value)) throw new RangeError(`${value} is not a whole number to calculate with`)
  return BigInt(value)
}

function divided(numerator: bigint, denominator: bigint) {
  if (denominator === 0n) throw new RangeError('division by zero')
  const sign = numerator < 0n === denominator < 0n ? 1n : -1n
  return { quotient: numerator / denominator, twice: 2n * absolute(numerator % denominator), size: absolute(denominator), sign }
}

function absolute(value: bigint): bigint {
  return value < 0n ? -value : value
}

function finite(n: number): number {
  if (!Number.isFinite(n)) throw new RangeError(`${n} cannot be rounded`)
  return n
}
