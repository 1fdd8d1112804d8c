import { randomInt, timingSafeEqual } from 'node:crypto'
import { hashOfSecret } from '../shared/session.ts'

// Without letters and digits that look or sound alike: 12 of 30 are 58 bits.
const SIGNS = '23456789ABCDEFGHJKMNPQRSTVWXYZ'
const GROUPS = 3
const SIGNS_PER_GROUP = 4

export const CODE_HOURS = 24

/** A one-time code to read out or to copy by hand: K7QM-2XWD-9FHB. */
export function newCode(): string {
  const group = (): string => Array.from({ length: SIGNS_PER_GROUP }, () => SIGNS[randomInt(SIGNS.length)]).join('')
  return Array.from({ length: GROUPS }, group).join('-')
}

/** Of a code as it is typed: small letters, spaces and missing hyphens do not matter. */
export const hashOfCode = (typed: string): string => hashOfSecret(typed.toUpperCase().replace(/[^0-9A-Z]/g, ''))

/** True when a typed code is the one behind a stored hash; takes as long when it is not. */
export function isCode(typed: string, stored: string): boolean {
  const given = Buffer.from(hashOfCode(typed))
  const expected = Buffer.from(stored.padEnd(given.length))
  return given.length === expected.length && timingSafeEqual(given, expected)
}
