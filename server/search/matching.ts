import type { Row } from '../shared/database/delegate.ts'
import type { RecordKind } from '../shared/records/kind.ts'
import type { Findable, FindableField } from './findable.ts'
import { fold, type SearchWord } from './words.ts'

/** Whether every word stands in one of the fields, or is the record's own number. */
export function isMatch(row: Row, { kind, fields }: Findable, words: readonly SearchWord[]): boolean {
  return words.every((word) => isOwnNumber(kind, row, word) || fields.some((field) => holds(row, field, word)))
}

export function holds(row: Row, field: FindableField, { folded }: SearchWord): boolean {
  const text = fold(textAt(row, field.path))
  if (field.endsWith === undefined) return text.includes(folded)
  const plain = withoutGaps(folded)
  return plain.length >= field.endsWith && text.endsWith(plain)
}

/** A VIN is typed with the gaps of its plate and stored without. */
export const withoutGaps = (folded: string): string => folded.replaceAll(/[\s-]/g, '')

/** The text at the end of a path; empty where there is none. */
export function textAt(row: Row, path: readonly string[]): string {
  const value = path.reduce<unknown>((at, name) => (at as Readonly<Record<string, unknown>> | null | undefined)?.[name], row)
  return typeof value === 'string' ? value : ''
}

/** Whether a word can be the number of a record of this kind; one of an open point is none by itself. */
export function mayBeNumberOf(kind: RecordKind, { number }: SearchWord): boolean {
  const prefix = kind.number?.prefix ?? ''
  return number !== null && prefix !== '' && (number.prefix === '' || number.prefix === prefix)
}

export const isOwnNumber = (kind: RecordKind, row: Row, word: SearchWord): boolean =>
  mayBeNumberOf(kind, word) && row.number === word.number?.number

/** 2 where the number was typed with its letter, 1 where digits alone fit, 0 where only words do. */
export function exactness(kind: RecordKind, row: Row, words: readonly SearchWord[]): number {
  const own = words.filter((word) => isOwnNumber(kind, row, word))
  return own.some(({ number }) => number?.prefix !== '') ? 2 : Math.min(own.length, 1)
}
