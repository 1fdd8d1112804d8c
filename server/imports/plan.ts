import { createHash } from 'node:crypto'
import type { Reads, Write } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { changesBetween, type Actor, type Change } from '../shared/audit.ts'
import { FieldProblems } from '../shared/problems.ts'
import type { RecordKind } from '../shared/records/kind.ts'
import { readJson } from '../shared/records/submission.ts'
import { fieldsOf, type Submitted } from '../shared/records/table.ts'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { fieldsFor, isHeadingAgain, type Column, type Reader } from './columns.ts'
import type { Opened } from './opened.ts'
import { bodyOf } from './rowBody.ts'
import type { CsvRow } from '../shared/csv/readCsv.ts'

/** What one row of the file would do. */
export interface PlannedRow {
  readonly line: number
  readonly action: 'create' | 'change' | 'skip' | 'error'
  readonly target: Row | null
  readonly number: number | null
  /** What would be stored: all values of a new record, the changed ones of one that stands. */
  readonly submitted: Submitted
  readonly changes: readonly Change[]
  readonly problems: readonly FieldProblem[]
  /** Why it is skipped. */
  readonly remark: string
  /** The row as the file has it, by field. */
  readonly given: Readonly<Record<string, string>>
}

interface Planning {
  readonly client: Reads | Write
  readonly kind: RecordKind
  readonly buildId: string | null
  readonly actor: Actor
  readonly reader: Reader
  readonly columns: readonly Column[]
  readonly opened: Opened
}

const NOTHING: Submitted = { values: {}, entered: {} }

/** What each row of a file would do, by the same readings and rules as the forms; nothing is written. */
export async function planRows(planning: Planning, rows: readonly CsvRow[]): Promise<PlannedRow[]> {
  const headings = planning.columns.map(({ heading }) => heading)
  const about: About = { lines: new Map(), doubled: new Map() }
  const planned: PlannedRow[] = []
  for (const row of rows) {
    planned.push(isHeadingAgain(row.cells, headings) ? skipped(row.line, 'the headings again') : await planRow(planning, row, about))
  }
  // The first of two rows about one record is as doubtful as the second.
  return planned.map((row) => {
    const problem = about.doubled.get(row.line)
    return problem ? { ...row, action: 'error', submitted: NOTHING, changes: [], problems: [problem, ...row.problems] } : row
  })
}

/** Which line is about which record, and which first lines have a second. */
interface About {
  readonly lines: Map<string, number>
  readonly doubled: Map<number, FieldProblem>
}

const skipped = (line: number, remark: string, target: Row | null = null, given: PlannedRow['given'] = {}): PlannedRow =>
  ({ line, action: 'skip', target, number: null, submitted: NOTHING, changes: [], problems: [], remark, given })

async function planRow(planning: Planning, row: CsvRow, about: About): Promise<PlannedRow> {
  const { kind, columns, opened } = planning
  const read = bodyOf(row, columns, fieldsFor(kind, planning.reader), opened.names)
  const failed = (problems: readonly FieldProblem[]): PlannedRow => ({ ...skipped(row.line, '', null, read.given), action: 'error', problems })
  const identity = opened.register.identify(read.given.number ?? '', read.given)
  if ('message' in identity) return failed([identity, ...read.problems])
  const key = 'row' in identity ? identity.row.id : identity.key
  const earlier = about.lines.get(key)
  if (earlier !== undefined) {
    const problem = { field: 'number', message: `Lines ${earlier} and ${row.line} are about the same ${kind.name}. Keep one of them.` }
    about.doubled.set(earlier, about.doubled.get(earlier) ?? problem)
    return failed([problem])
  }
  about.lines.set(key, row.line)
  if (read.problems.length > 0) return failed(read.problems)
  try {
    const planned = 'row' in identity
      ? await planChange(planning, row.line, identity.row, read)
      : await planCreation(planning, row.line, identity.number, read)
    return ofOwners(planned) && planning.reader.role !== 'owner' ? failed([OWNERS_ONLY]) : planned
  } catch (error) {
    if (!(error instanceof FieldProblems)) throw error
    return failed(error.fields)
  }
}

const OWNERS_ONLY: FieldProblem = { field: 'role', message: 'Role: only an owner makes or changes an owner. Leave the row out, or let an owner import it.' }

// A token may be of a lesser role than its maker, whom the rule of the record knows.
const ofOwners = ({ action, target, submitted }: PlannedRow): boolean =>
  action !== 'skip' && (target?.role === 'owner' || submitted.values.role === 'owner')

type Read = ReturnType<typeof bodyOf>

async function planCreation({ client, kind, buildId, actor, reader }: Planning, line: number, number: number | null, { body, given }: Read): Promise<PlannedRow> {
  const submitted = readJson(kind, reader.role, true, body, reader)
  const own = { ...submitted.values, ...(kind.isOfBuild ? { buildId } : {}) }
  const values = { ...own, ...(await kind.check?.(client, { id: null, before: null, values: own, actor })) }
  return {
    line, action: 'create', target: null, number, submitted: { values, entered: submitted.entered },
    changes: changesBetween(null, submitted.values), problems: [], remark: '', given,
  }
}

async function planChange({ client, kind, actor, reader, opened }: Planning, line: number, row: Row, { body, given }: Read): Promise<PlannedRow> {
  const submitted = readJson(kind, reader.role, false, opened.changeable(body), reader)
  const same = skipped(line, 'the same as in the shop', row, given)
  if (changesBetween(row, submitted.values).length === 0) return same
  const checked = await kind.check?.(client, { id: row.id, before: row, values: { ...fieldsOf(kind, row), ...submitted.values }, actor })
  const changes = changesBetween(row, { ...submitted.values, ...checked })
  if (changes.length === 0) return same
  const changed = new Set(changes.map(({ field }) => field))
  const isChanged = ([name]: [string, unknown]): boolean => changed.has(name)
  const values = Object.fromEntries(Object.entries({ ...submitted.values, ...checked }).filter(isChanged))
  const entered = Object.fromEntries(Object.entries(submitted.entered).filter(isChanged))
  return { line, action: 'change', target: row, number: null, submitted: { values, entered }, changes, problems: [], remark: '', given }
}

/** The same file against the same records makes the same print; anything else another. */
export function fingerprintOf(text: string, kind: RecordKind, buildId: string | null, columns: readonly Column[], rows: readonly PlannedRow[]): string {
  const plan = rows.map(({ line, action, target, number, submitted }) => [line, action, target?.id ?? null, number, submitted.values])
  const mapping = columns.map(({ field, unit }) => [field, unit])
  return createHash('sha256').update(JSON.stringify([kind.name, buildId, text, mapping, plan])).digest('hex')
}
