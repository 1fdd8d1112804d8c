import { formatClock } from '../../calc/clock.ts'
import { formatMoney } from '../../calc/money.ts'
import { formatQuantity } from '../../calc/figures.ts'
import { writeDay } from '../../../web/shared/day.ts'
import type { Viewer } from '../../../web/shared/viewer.ts'
import type { Reads } from '../database/database.ts'
import { delegate, type Row } from '../database/delegate.ts'
import type { Field } from './field.ts'
import { measuredKind } from './measured.ts'
import { getKind, kindsReferredTo, numbered, type RecordKind } from './kind.ts'
import { buildOf, enteredOf, listRecords } from './table.ts'

export type Reader = Pick<Viewer, 'units' | 'currency'>

/** What records that others refer to are called, by id. */
export type Titles = ReadonlyMap<string, string>

/** What a record is called where the names of those it refers to are at hand. */
export function titleOf(kind: RecordKind, row: Row, titles: Titles): string {
  return kind.titleBy?.((name) => titles.get(String(row[name])) ?? '', row) || kind.title(row)
}

/** Number and title as they stand together: "P-510 Record bin". */
export function nameOf(kind: RecordKind, row: Row): string {
  return [numbered(kind, row), kind.title(row)].filter((part) => part !== '').join(' ')
}

/** The names of all records that these rows refer to. */
export async function titlesFor(reads: Reads, kind: RecordKind, rows: readonly Row[]): Promise<Titles> {
  const titles = new Map<string, string>()
  for (const [name, field] of Object.entries(kind.fields)) {
    const kinds = kindsReferredTo(field.entry)
    const ids = kinds.length > 0 ? [...new Set(rows.flatMap((row) => idsIn(row[name])))] : []
    if (ids.length === 0) continue
    for (const other of kinds) {
      const found = await delegate(reads, other.model).findMany({ where: { id: { in: ids } } })
      for (const row of found) titles.set(row.id, nameOf(other, row))
    }
  }
  return titles
}

const idsIn = (value: unknown): string[] => (Array.isArray(value) ? value.map(String) : typeof value === 'string' ? [value] : [])

/** A stored value in words, for this reader. */
export function showValue(field: Field, value: unknown, reader: Reader, titles: Titles, row?: Row): string {
  const { entry } = field
  if (entry.as === 'check') return value === true ? 'yes' : 'no'
  if (value === null || value === undefined || value === '') return ''
  if (entry.as === 'quantity') return formatQuantity(Number(value), entry.measures, reader.units)
  if (entry.as === 'measured') return typeof value === 'number' ? formatQuantity(value, measuredKind(row?.[entry.by]), reader.units) : String(value)
  if (entry.as === 'money') return formatMoney(Number(value), reader.currency)
  if (entry.as === 'date') return writeDay(String(value))
  if (entry.as === 'clock') return formatClock(Number(value))
  if (entry.as === 'choice') return entry.words?.[String(value)] ?? String(value)
  if (entry.as === 'checks') return String(value).split(',').map((one) => entry.words?.[one] ?? one).join(', ')
  if (entry.as === 'reference') return titles.get(String(value)) ?? ''
  if (entry.as === 'references') return idsIn(value).map((id) => titles.get(id) ?? '').join(', ')
  return String(value)
}

/** A field of a record in words. A torque stands as it was typed, and in the other unit beside it: the wrench decides. */
export function showField(name: string, field: Field, row: Row, reader: Reader, titles: Titles): string {
  const text = showValue(field, row[name], reader, titles, row)
  if (field.entry.as !== 'quantity' || field.entry.measures !== 'torque' || text === '') return text
  const typed = enteredOf(row)[name] ?? text
  const other = formatQuantity(Number(row[name]), 'torque', /N/.test(typed) ? 'inch' : 'metric')
  return `${typed} (${other})`
}

/** What stands in the form for a stored value: as it was typed where a unit was involved. */
export function entryText(name: string, field: Field, row: Row, reader: Reader): string | readonly string[] {
  const value = row[name]
  const { entry } = field
  if (entry.as === 'references') return idsIn(value)
  if (entry.as === 'checks') return String(value ?? '').split(',').filter((one) => one !== '')
  if (value === null || value === undefined) return ''
  if (entry.as === 'quantity') return enteredOf(row)[name] ?? formatQuantity(Number(value), entry.measures, reader.units)
  if (entry.as === 'measured') return enteredOf(row)[name] ?? showValue(field, value, reader, new Map(), row)
  if (entry.as === 'money') return formatMoney(Number(value), reader.currency).replace(/[^\d.,-]/g, '')
  if (entry.as === 'check') return value === true ? 'yes' : ''
  if (entry.as === 'clock') return formatClock(Number(value))
  return String(value)
}

export interface Choice {
  readonly value: string
  readonly text: string
}

/** What a form offers for a field that refers to other records. */
export async function choicesFor(reads: Reads, kind: RecordKind, buildId: string | null): Promise<ReadonlyMap<string, readonly Choice[]>> {
  const choices = new Map<string, readonly Choice[]>()
  for (const [name, field] of Object.entries(kind.fields)) {
    const kinds = kindsReferredTo(field.entry)
    const offered: Choice[] = []
    for (const other of kinds) {
      const rows = other.isOfBuild && !buildId ? [] : await listRecords(reads, other, buildId ? { buildId } : {})
      offered.push(...rows.map((row) => ({ value: row.id, text: nameOf(other, row) })))
    }
    if (kinds.length > 0) choices.set(name, offered)
  }
  return choices
}

/** The head of a page: the build that a record belongs to. */
export async function trailOf(reads: Reads, kind: RecordKind, row: Row): Promise<{ name: string; href: string }[]> {
  const buildId = buildOf(row)
  if (!kind.isOfBuild || !buildId) return [{ name: kind.plural, href: `/${kind.path}` }]
  const build = await delegate(reads, 'build').findFirst({ where: { id: buildId } })
  const title = build ? nameOf(getKind('build'), build) : 'build'
  return [
    { name: title, href: `/builds/${buildId}` },
    { name: kind.plural, href: `/${kind.path}?build=${buildId}` },
  ]
}
