import { LARGEST_INTEGER } from './amounts.ts'
import { formatIn } from './figures.ts'
import { plainText, quoted, readNumeral, unreadable } from './numerals.ts'
import type { Fraction, Unreadable } from './numerals.ts'
import { divideHalfAway } from './rounding.ts'
import { KIND_WORDS, findKind, findUnit, getUnit } from './units.ts'
import type { QuantityKind, Unit } from './units.ts'

/** A canonical integer and the entry it came from, unit included, so that 23 7/16 in is never lost. */
export interface Quantity {
  readonly ok: true
  readonly value: number
  readonly entered: string
}

const LONGEST_ENTRY = 60

interface Term {
  readonly fraction: Fraction
  readonly unit: Unit | null
}

/**
 * Reads a quantity as people write it, into the kind's canonical integer, rounded half away from zero.
 * A bare number is in `unit`. Refuses, with words for the person: another kind's unit, a negative,
 * a decimal comma, anything unreadable, too small to keep or above the largest stored value.
 * `entered` reads back to the same value whatever the default unit. Throws a RangeError for an unknown `unit`.
 *
 * @example parseQuantity('23 7/16', 'length', 'in') // { ok: true, value: 595313, entered: '23 7/16 in' }
 */
export function parseQuantity(text: string, kind: QuantityKind, unit: string): Quantity | Unreadable {
  const fallback = getUnit(kind, unit)
  const plain = plainText(text)
  const refused = refuseAtSight(plain, kind)
  if (refused !== null) return refused
  const terms = kind === 'time' && plain.includes(':') ? readClock(plain) : readTerms(plain, kind)
  if (!Array.isArray(terms)) return terms
  const isBare = terms[0]?.unit === null
  return keep(sum(terms, fallback), kind, fallback, isBare && kind !== 'count' ? `${tidy(text)} ${fallback.symbol}` : tidy(text))
}

function refuseAtSight(plain: string, kind: QuantityKind): Unreadable | null {
  const { noun, example } = KIND_WORDS[kind]
  if (plain === '') return unreadable(`Enter ${noun}, as ${example}.`)
  if (plain.length > LONGEST_ENTRY) return unreadable(`That is too long for ${noun}: at most ${LONGEST_ENTRY} characters, as ${example}.`)
  if (plain.startsWith('-')) return unreadable(`${quoted(plain)} is negative: ${noun} here is 0 or more, as ${example}.`)
  return null
}

function readTerms(plain: string, kind: QuantityKind): Term[] | Unreadable {
  const terms: Term[] = []
  for (let rest = plain; rest !== '';) {
    const numeral = readNumeral(rest)
    if (!numeral.ok) return wrongKind(plain, kind) ?? numeral
    const found = readUnit(numeral.rest, kind)
    if (found === null && numeral.rest !== '') return wrongKind(plain, kind) ?? unknownUnit(numeral.rest, kind)
    terms.push({ fraction: numeral, unit: found?.unit ?? null })
    rest = found?.rest ?? ''
  }
  return refuseOrder(terms, plain, kind) ?? terms
}

/** The unit at the start of a text: letters and signs up to the next number, or with the 2 or 3 of "mm2". */
function readUnit(text: string, kind: QuantityKind): { readonly unit: Unit, readonly rest: string } | null {
  for (const shape of [/^(?:[^\d.]|\.(?!\d))+/, /^[^\d.]+[23](?!\d)/]) {
    const word = shape.exec(text)?.[0] ?? ''
    const unit = findUnit(kind, word)
    const isJoined = /-\s*$/.test(word) && unit?.symbol !== 'ft'
    if (unit !== null && !isJoined) return { unit, rest: text.slice(word.length).trimStart() }
  }
  return null
}

function refuseOrder(terms: readonly Term[], plain: string, kind: QuantityKind): Unreadable | null {
  const isDescending = terms.every((term, index) => {
    const before = terms[index - 1]
    return before === undefined || (before.unit !== null && term.unit !== null && isLarger(before.unit, term.unit))
  })
  if (isDescending) return null
  return wrongKind(plain, kind)
    ?? unreadable(`${quoted(plain)} is unclear: give every number its unit, the larger unit first, as 4 ft 3 in or 1 h 45 min.`)
}

function isLarger(one: Unit, other: Unit): boolean {
  return one.numerator * other.denominator > other.numerator * one.denominator
}

function wrongKind(plain: string, kind: QuantityKind): Unreadable | null {
  const word = /[^\d\s.,/-]\D*(?:(?<=\S)[23])?$/.exec(plain)?.[0] ?? ''
  const found = findKind(word)
  if (found === null || found === kind || findUnit(kind, word) !== null) return null
  return unreadable(`${quoted(plain)} is ${KIND_WORDS[found].noun}; this takes ${KIND_WORDS[kind].noun}, as ${KIND_WORDS[kind].example}.`)
}

function unknownUnit(text: string, kind: QuantityKind): Unreadable {
  return unreadable(`${quoted(text)} is no unit for ${KIND_WORDS[kind].noun}: write it as ${KIND_WORDS[kind].example}.`)
}

/** "2:30" is two hours and thirty minutes. */
function readClock(plain: string): Term[] | Unreadable {
  const match = /^(\d{1,6}):([0-5]\d)$/.exec(plain)
  if (match === null) return unreadable(`${quoted(plain)} is unclear: hours and minutes are written as 2:30, the minutes from 00 to 59.`)
  const minutes = BigInt(match[1] ?? 0) * 60n + BigInt(match[2] ?? 0)
  return [{ fraction: { numerator: minutes, denominator: 1n }, unit: getUnit('time', 'min') }]
}

function sum(terms: readonly Term[], fallback: Unit): Fraction {
  return terms.reduce<Fraction>((total, { fraction, unit }) => {
    const { numerator, denominator } = unit ?? fallback
    const top = fraction.numerator * numerator
    const bottom = fraction.denominator * denominator
    return { numerator: total.numerator * bottom + top * total.denominator, denominator: total.denominator * bottom }
  }, { numerator: 0n, denominator: 1n })
}

function keep(total: Fraction, kind: QuantityKind, fallback: Unit, entered: string): Quantity | Unreadable {
  const { noun } = KIND_WORDS[kind]
  const value = divideHalfAway(total.numerator, total.denominator)
  if (value > LARGEST_INTEGER) {
    const largest = formatIn(LARGEST_INTEGER, kind, fallback.symbol)
    return unreadable(`${quoted(entered)} is more than can be kept: ${noun} is at most ${largest}.`)
  }
  if (kind === 'count' && total.numerator % total.denominator !== 0n) {
    return unreadable(`${quoted(entered)} is not whole: pieces are counted as 12.`)
  }
  if (value === 0n && total.numerator > 0n) return unreadable(`${quoted(entered)} is too small to keep: enter 0 or a larger value.`)
  return { ok: true, value: Number(value), entered }
}

function tidy(text: string): string {
  return text.trim().replace(/\s+/g, ' ')
}
