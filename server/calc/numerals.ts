/** An exact positive number. */
export interface Fraction {
  readonly numerator: bigint
  readonly denominator: bigint
}

/** Why an entry cannot be taken, in words for the person who typed it. */
export interface Unreadable {
  readonly ok: false
  readonly message: string
}

export interface Numeral extends Fraction {
  readonly ok: true
  /** Decimal places as written; null for a fraction. */
  readonly decimals: number | null
  /** What follows the number, without leading space. */
  readonly rest: string
}

const WHOLE = String.raw`\d{1,3}(?:,\d{3})+(?!\d)|\d+`
const FRACTION = new RegExp(String.raw`^(?:(${WHOLE})[ -])?(\d+)/(\d+)`)
const DECIMAL = new RegExp(String.raw`^(?:(${WHOLE})(?:\.(\d*))?|\.(\d+))`)

export function unreadable(message: string): Unreadable {
  return { ok: false, message }
}

/**
 * One form of what people type: plain quotes, plain minus, "½" as "1/2", single spaces.
 *
 * @example plainText('23½″') // '23 1/2"'
 */
export function plainText(text: string): string {
  return text
    .replace(/(?<=\d)-?\s*(?=[¼-¾⅐-⅞])/g, ' ')
    .replace(/[¼-¾⅐-⅞]/g, mark => mark.normalize('NFKC'))
    .replace(/\s*[/⁄]\s*/g, '/')
    .replace(/[‐-―−]/g, '-')
    .replace(/['‘’′]{2}|[“”″]/g, '"')
    .replace(/[‘’′]/g, "'")
    .replace(/\s+/g, ' ')
    .trim()
}

/**
 * Reads the number at the start of a text, exactly: "1,250.5", ".5", "7/16", "23 7/16", "23-7/16".
 * A comma separates thousands only; "2,5" is refused, because it may mean 2.5 or a slip for 2,500.
 *
 * @example readNumeral('23 7/16 in') // { ok: true, numerator: 375n, denominator: 16n, decimals: null, rest: 'in' }
 */
export function readNumeral(text: string): Numeral | Unreadable {
  const read = readFraction(text) ?? readDecimal(text)
  if (!read.ok) return read
  if (/^,\s?\d|^\.\d/.test(read.rest)) {
    return unreadable(`${quoted(text)} is unclear: write the decimal with a point, as 2.5, and thousands with a comma, as 1,250.`)
  }
  if (/^\/|^-?\d/.test(read.rest)) return unreadable(`${quoted(text)} is not one number: write it as 23 7/16 or 23.4375.`)
  return read
}

/**
 * Writes a number given in its last decimal place, with commas from the given count of whole digits on.
 *
 * @example writeDecimal(-123450n, 2, 4) // '−1,234.50'
 */
export function writeDecimal(scaled: bigint, decimals: number, groupFrom: number): string {
  const digits = String(scaled < 0n ? -scaled : scaled).padStart(decimals + 1, '0')
  const whole = digits.slice(0, digits.length - decimals)
  const grouped = whole.length < groupFrom ? whole : whole.replace(/\B(?=(?:\d{3})+$)/g, ',')
  const point = decimals === 0 ? '' : `.${digits.slice(-decimals)}`
  return `${scaled < 0n ? '−' : ''}${grouped}${point}`
}

/** The text in quotes for a message, cut where it is long. */
export function quoted(text: string): string {
  return `"${text.length > 30 ? `${text.slice(0, 30)}…` : text}"`
}

function readFraction(text: string): Numeral | Unreadable | null {
  const match = FRACTION.exec(text)
  if (match === null) return null
  const [whole, top, bottom] = [toInteger(match[1]), toInteger(match[2]), toInteger(match[3])]
  if (bottom === 0n) return unreadable(`${quoted(text)} divides by zero: write a fraction as 7/16.`)
  if (match[1] !== undefined && top >= bottom) {
    return unreadable(`${quoted(text)}: the fraction after a whole number must be less than one, as 23 7/16.`)
  }
  return { ok: true, numerator: whole * bottom + top, denominator: bottom, decimals: null, rest: restAfter(text, match) }
}

function readDecimal(text: string): Numeral | Unreadable {
  const match = DECIMAL.exec(text)
  if (match === null) return unreadable(`${quoted(text)} is not a number: begin with digits, as 12 or 12.5.`)
  const part = match[2] ?? match[3] ?? ''
  return {
    ok: true,
    numerator: toInteger(`${match[1] ?? '0'}${part}`),
    denominator: 10n ** BigInt(part.length),
    decimals: part.length,
    rest: restAfter(text, match),
  }
}

function restAfter(text: string, match: RegExpExecArray): string {
  return text.slice(match[0].length).trimStart()
}

function toInteger(digits: string | undefined): bigint {
  return BigInt((digits ?? '0').replaceAll(',', ''))
}
