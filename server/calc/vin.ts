/** What a vehicle identification number looks like, and what to say about it. */
export interface VinCheck {
  /** In capitals, without spaces and hyphens. */
  readonly vin: string
  readonly verdict: 'right' | 'no check digit' | 'wrong'
  /** What is wrong, or what could not be checked, in words for the person who typed it. */
  readonly messages: readonly string[]
}

const LENGTH = 17
const CHECK_POSITION = 9
const YEAR_POSITION = 10
const WEIGHTS = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2] as const
const LETTER_VALUES: Readonly<Record<string, number>> = {
  A: 1, B: 2, C: 3, D: 4, E: 5, F: 6, G: 7, H: 8, J: 1, K: 2, L: 3, M: 4, N: 5, P: 7, R: 9,
  S: 2, T: 3, U: 4, V: 5, W: 6, X: 7, Y: 8, Z: 9,
}
const COMPARE = 'Compare it with the plate on the vehicle.'
const UNCHECKED = 'This number carries no check digit, which is usual outside North America, so a typing slip cannot be found.'
const YEAR_CODES = 'ABCDEFGHJKLMNPRSTVWXY123456789'
const FIRST_YEAR_BY_DIGIT = 1980
const FIRST_YEAR_BY_LETTER = 2010

/**
 * Judges a VIN: 17 characters, no I, O or Q, and the check digit at position 9 (49 CFR 565.15).
 * Numbers that begin with 1–5 (North America) or 0 (demonstration, no real vehicle) must carry a right digit;
 * elsewhere it is optional, so a mismatch only says "no check digit".
 *
 * @example checkVin('1M8GDM9AXKP042788').verdict // 'right'
 */
export function checkVin(text: string): VinCheck {
  const vin = text.replace(/[\s-]/g, '').toUpperCase()
  const faults = [...lengthFaults(vin), ...characterFaults(vin)]
  if (faults.length > 0) return { vin, verdict: 'wrong', messages: faults }
  const right = vinCheckDigit(vin)
  const found = vin.charAt(CHECK_POSITION - 1)
  if (found === right) return { vin, verdict: 'right', messages: [] }
  return mustHaveCheckDigit(vin)
    ? { vin, verdict: 'wrong', messages: [`Position 9 should be ${right} but is ${found}: a character is mistyped. ${COMPARE}`] }
    : { vin, verdict: 'no check digit', messages: [`${UNCHECKED} ${COMPARE}`] }
}

/**
 * The right check digit, 0–9 or X, of 17 characters, whatever stands at position 9.
 * Throws a RangeError for other lengths and for characters no VIN has. Source: 49 CFR 565.15.
 *
 * @example vinCheckDigit('1M8GDM9A1KP042788') // 'X'
 */
export function vinCheckDigit(vin: string): string {
  if (vin.length !== LENGTH) throw new RangeError(`a VIN has ${LENGTH} characters`)
  const remainder = WEIGHTS.reduce<number>((sum, weight, index) => sum + weight * valueOf(vin.charAt(index)), 0) % 11
  return remainder === 10 ? 'X' : String(remainder)
}

/**
 * Model year of a North American (or demonstration) VIN, or null where the number does not say it.
 * A letter at position 7 means 2010–2039, a digit 1980–2009: the rule for cars and light trucks
 * (49 CFR 565.15; the digit half from memory). Heavy trucks and motorcycles may differ by 30 years.
 *
 * @example vinModelYear('1M8GDM9AXKP042788') // 1989
 */
export function vinModelYear(vin: string): number | null {
  const code = YEAR_CODES.indexOf(vin.charAt(YEAR_POSITION - 1))
  if (vin.length !== LENGTH || code < 0 || !mustHaveCheckDigit(vin)) return null
  return code + (/[A-Z]/.test(vin.charAt(6)) ? FIRST_YEAR_BY_LETTER : FIRST_YEAR_BY_DIGIT)
}

function lengthFaults(vin: string): string[] {
  if (vin === '') return [`Enter the ${LENGTH} characters of the VIN.`]
  const missing = LENGTH - vin.length
  if (missing === 0) return []
  return [`A VIN has ${LENGTH} characters; this one has ${vin.length}, ${Math.abs(missing)} too ${missing > 0 ? 'few' : 'many'}.`]
}

function characterFaults(vin: string): string[] {
  return [...vin.slice(0, LENGTH)].flatMap((character, index) => {
    const place = `Position ${index + 1}`
    if (character === 'I') return [`${place} is the letter I, which no VIN has: probably the digit 1.`]
    if (character === 'O' || character === 'Q') return [`${place} is the letter ${character}, which no VIN has: probably the digit 0.`]
    if (/[0-9A-Z]/.test(character)) return []
    return [`${place} is "${character}": a VIN has only digits and the letters A to Z without I, O and Q.`]
  })
}

function mustHaveCheckDigit(vin: string): boolean {
  return /^[0-5]/.test(vin)
}

function valueOf(character: string): number {
  const value = /\d/.test(character) ? Number(character) : LETTER_VALUES[character]
  if (value === undefined) throw new RangeError(`no VIN has the character ${character}`)
  return value
}
