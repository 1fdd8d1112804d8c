import { isCurrency } from '../calc/money.ts'
import { defaultUnit } from '../calc/units.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import type { Field } from '../shared/records/field.ts'
import type { RecordKind } from '../shared/records/kind.ts'
import { writtenFields } from '../shared/records/submission.ts'
import { fold, readHeading, unitOfHeading } from './headings.ts'

export type Reader = Pick<Viewer, 'units' | 'currency' | 'role'>

/** A column of the file and what it is read as. */
export interface Column {
  readonly index: number
  /** As spreadsheets name it: A, B, … AA. */
  readonly letter: string
  readonly heading: string
  /** A field's name, 'number', or null where it is left out. */
  readonly field: string | null
  /** What bare numbers are in, by the heading; '' where that is for the person's own units. */
  readonly unit: string
  readonly remark: string
}

/** Which fields people chose for columns by hand, by the column's index; '' leaves it out. */
export type Chosen = Readonly<Record<number, string>>

/** The fields that a file may bring, by name. */
export function fieldsFor(kind: RecordKind, reader: Reader): Readonly<Record<string, Field>> {
  return Object.fromEntries(writtenFields(kind, reader.role, true))
}

export function toColumns(headings: readonly string[], kind: RecordKind, reader: Reader, chosen: Chosen): Column[] {
  const fields = fieldsFor(kind, reader)
  const taken = new Map<string, string>()
  return headings.map((heading, index): Column => {
    const read = readHeading(heading, fields, kind.number !== undefined)
    const byHand = chosen[index]
    const wanted = byHand === undefined ? read.field : isKnown(byHand, fields, kind) ? byHand : null
    const other = wanted === null ? undefined : taken.get(wanted)
    const isTwice = wanted !== null && other !== undefined && byHand === undefined
    const letter = letterOf(index)
    if (wanted !== null && other === undefined) taken.set(wanted, letter)
    const field = isTwice ? null : wanted
    const unit = field === null ? '' : unitFor(fields[field], read.unit, reader)
    const column = { index, letter, heading: heading.trim(), field, unit }
    return { ...column, remark: isTwice ? `the same as column ${other ?? ''}, so left out` : remarkOn(column, fields, read.unit, reader) }
  })
}

const isKnown = (name: string, fields: Readonly<Record<string, Field>>, kind: RecordKind): boolean =>
  name in fields || (name === 'number' && kind.number !== undefined)

export function letterOf(index: number): string {
  const before = Math.floor(index / 26)
  return (before > 0 ? letterOf(before - 1) : '') + String.fromCharCode(65 + (index % 26))
}

function unitFor(field: Field | undefined, unit: string, reader: Reader): string {
  if (field?.entry.as === 'money') return isCurrency(unit.toUpperCase()) ? unit.toUpperCase() : reader.currency
  if (field?.entry.as === 'measured') return unit
  return unitOfHeading(field, unit, null)
}

function remarkOn({ field, heading, unit }: Pick<Column, 'field' | 'heading' | 'unit'>, fields: Readonly<Record<string, Field>>, given: string, reader: Reader): string {
  if (field === null) return heading === '' ? 'no heading: left out unless you choose' : 'left out unless you choose'
  const entry = fields[field]?.entry
  if (entry?.as === 'money' && unit !== reader.currency) return `the shop keeps ${reader.currency}`
  if (entry?.as === 'quantity') {
    if (given !== '' && unit === '') return `“${given}” is no unit here; bare numbers are read as ${defaultUnit(entry.measures, reader.units)}`
    return entry.measures === 'count' ? '' : `bare numbers are ${unit || defaultUnit(entry.measures, reader.units)}`
  }
  return ''
}

/** What keeps the whole file from being read with these columns, in words. */
export function faultsOfColumns(columns: readonly Column[], kind: RecordKind, reader: Reader): string[] {
  const fields = fieldsFor(kind, reader)
  const labelOf = (name: string): string => (name === 'number' ? 'Number' : (fields[name]?.label ?? name))
  const mapped = columns.filter(({ field }) => field !== null)
  const names = mapped.map(({ field }) => field ?? '')
  const doubled = [...new Set(names.filter((name, index) => names.indexOf(name) !== index))]
  const foreign = mapped.filter(({ field, unit }) => fields[field ?? '']?.entry.as === 'money' && unit !== reader.currency)
  const key = kind.knownBy ?? []
  const isKnowable = names.includes('number') || key.every((name) => names.includes(name))
  return [
    ...doubled.map((name) => `${lettersOf(mapped, name)} are all read as ${labelOf(name)}. Leave all but one out.`),
    ...foreign.map(({ letter, heading }) => `Column ${letter}, “${heading}”: the shop keeps ${reader.currency}. Convert the amounts and change the heading, or leave the column out.`),
    ...(isKnowable ? [] : [`No column says which ${kind.name} a row is. Choose a column for ${key.map(labelOf).join(' and ')}${kind.number ? ', or for Number' : ''}.`]),
  ]
}

const lettersOf = (columns: readonly Column[], name: string): string =>
  `Columns ${columns.filter(({ field }) => field === name).map(({ letter }) => letter).join(' and ')}`

/** Whether a row only says the headings again, as printed lists do on each page. */
export function isHeadingAgain(cells: readonly string[], headings: readonly string[]): boolean {
  return headings.every((heading, index) => fold(cells[index] ?? '') === fold(heading))
}
