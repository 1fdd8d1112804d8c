import type { Actor } from '../shared/audit.ts'
import { detectSeparator, plainLines, readCsv, type Separator } from '../shared/csv/readCsv.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { FieldProblems } from '../shared/problems.ts'
import { changeRecords, createRecords } from '../shared/records/bulk.ts'
import type { RecordKind } from '../shared/records/kind.ts'
import { changeRecord, createRecord } from '../shared/records/table.ts'
import { faultsOfColumns, toColumns, type Chosen, type Column, type Reader } from './columns.ts'
import { openRecords } from './opened.ts'
import { fingerprintOf, planRows, type PlannedRow } from './plan.ts'

export const LARGEST_FILE_BYTES = 1_000_000
export const MOST_ROWS = 5_000

/** A text to be read into the shop's records of one kind. */
export interface Asked {
  readonly kind: RecordKind
  readonly buildId: string | null
  readonly text: string
  /** Null: found out from the text. */
  readonly separator: Separator | null
  readonly chosen: Chosen
}

export interface Plan {
  readonly asked: Asked
  readonly separator: Separator
  readonly columns: readonly Column[]
  /** The first row of values, to see what a column holds. */
  readonly sample: readonly string[]
  /** What keeps the whole file from being read. */
  readonly faults: readonly string[]
  readonly rows: readonly PlannedRow[]
  readonly fingerprint: string
}

/** Everything a file would do. Nothing is written. */
export async function planImport(client: Reads | Write, asked: Asked, reader: Reader, actor: Actor): Promise<Plan> {
  const text = plainLines(asked.text)
  const separator = asked.separator ?? detectSeparator(text)
  const { rows: [heading, ...rows], openQuoteLine } = readCsv(text, separator)
  const columns = heading ? toColumns(withoutEmptyEnd(heading.cells, rows), asked.kind, reader, asked.chosen) : []
  const faults = [
    ...faultsOfText(text, rows.length, openQuoteLine),
    ...(heading ? faultsOfColumns(columns, asked.kind, reader) : []),
  ]
  const opened = await openRecords(client, asked.kind, asked.buildId, reader.role)
  const planning = { client, kind: asked.kind, buildId: asked.buildId, actor, reader, columns, opened }
  const planned = faults.length > 0 ? [] : await planRows(planning, rows)
  return {
    asked, separator, columns, faults, rows: planned, sample: rows[0]?.cells ?? [],
    fingerprint: fingerprintOf(text, asked.kind, asked.buildId, columns, planned),
  }
}

function faultsOfText(text: string, rows: number, openQuoteLine: number | null): string[] {
  if (text.trim() === '') return ['There is nothing to read. Choose a file, or paste the rows with their headings.']
  if (openQuoteLine !== null) return [`Line ${openQuoteLine}: a quote opens and never closes. Close it, or write a quote within a text twice.`]
  if (rows === 0) return ['There are headings and no rows below them.']
  return rows > MOST_ROWS ? [`There are ${rows.toLocaleString('en-US')} rows; ${MOST_ROWS.toLocaleString('en-US')} at most go in at once. Divide the file.`] : []
}

// Sheets keep columns at the end that hold nothing.
function withoutEmptyEnd(headings: readonly string[], rows: readonly { cells: readonly string[] }[]): readonly string[] {
  const holdsSomething = (index: number): boolean => (headings[index] ?? '').trim() !== '' || rows.some(({ cells }) => (cells[index] ?? '').trim() !== '')
  let length = headings.length
  while (length > 0 && !holdsSomething(length - 1)) length -= 1
  return headings.slice(0, length)
}

export const countOf = ({ rows }: Plan, action: PlannedRow['action']): number => rows.filter((row) => row.action === action).length
export const isReady = (plan: Plan): boolean => plan.faults.length === 0 && countOf(plan, 'error') === 0

/** Writes all that a plan says, or throws: the plan was made in the same transaction. */
export async function carryOut(write: Write, { asked: { kind, buildId }, rows }: Plan, actor: Actor): Promise<void> {
  const isPlain = !kind.after && Object.values(kind.fields).every(({ entry }) => entry.as !== 'references')
  if (!isPlain) return oneByOne(write, kind, buildId, rows, actor)
  const created = rows.filter(({ action }) => action === 'create')
  await createRecords(write, kind, created, buildId, actor)
  const changed = rows.flatMap(({ action, target, submitted, changes }) => (action === 'change' && target ? [{ row: target, submitted, changes }] : []))
  await changeRecords(write, kind, changed, actor)
}

// Where a record writes more than itself, or a rule looks at all records, as that one owner stays.
async function oneByOne(write: Write, kind: RecordKind, buildId: string | null, rows: readonly PlannedRow[], actor: Actor): Promise<void> {
  for (const { line, action, target, number, submitted } of rows) {
    try {
      const numbered = number === null ? submitted : { ...submitted, values: { ...submitted.values, number } }
      if (action === 'create') await createRecord(write, kind, buildId, numbered, actor)
      if (action === 'change' && target) await changeRecord(write, kind, target.id, target.version, submitted, actor)
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      throw new FieldProblems(error.fields.map(({ message }) => ({ field: 'text', message: `Line ${line}: ${message}` })))
    }
  }
}
