import type { FieldProblem } from '../../web/shared/viewer.ts'
import type { CsvRow } from '../shared/csv/readCsv.ts'
import { unguarded } from '../shared/csv/guard.ts'
import type { Field } from '../shared/records/field.ts'
import type { Column } from './columns.ts'
import { readCell } from './cells.ts'
import type { Names } from './names.ts'

interface RowBody {
  /** What a form would send. */
  readonly body: Readonly<Record<string, unknown>>
  /** The same as it stands in the file. */
  readonly given: Readonly<Record<string, string>>
  readonly problems: readonly FieldProblem[]
}

/** A row by its fields, each as the field's form would send it. */
export function bodyOf(row: CsvRow, columns: readonly Column[], fields: Readonly<Record<string, Field>>, names: ReadonlyMap<string, Names>): RowBody {
  const body: Record<string, unknown> = {}
  const given: Record<string, string> = {}
  const problems: FieldProblem[] = [...surplus(row, columns)]
  const mapped = columns.filter(({ field }) => field !== null)
  const form = formOf(row, mapped)
  for (const { index, field: name, unit } of mapped) {
    if (name === null) continue
    const cell = row.cells[index] ?? ''
    const field = fields[name]
    given[name] = unguarded(cell.trim()).replace(/[\u00a0\u2007\u202f]/g, ' ')
    if (!field) continue
    const read = readCell(cell, field, unit, names.get(name), form)
    if ('message' in read) problems.push({ field: name, message: read.message })
    else body[name] = read.value
  }
  return { body, given, problems }
}

// What a pack is measured in depends on the form of its material, in the same row.
function formOf(row: CsvRow, columns: readonly Column[]): string {
  const column = columns.find(({ field }) => field === 'form')
  return column ? (row.cells[column.index] ?? '').trim().toLowerCase() : ''
}

function surplus({ cells }: CsvRow, columns: readonly Column[]): FieldProblem[] {
  const beyond = cells.slice(columns.length).some((cell) => cell.trim() !== '')
  if (!beyond) return []
  return [{ field: 'row', message: `This row has ${cells.length} cells and the headings only ${columns.length}. A text that holds the separator stands in quotes.` }]
}
