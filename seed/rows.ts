import { changesBetween, type Change } from '../server/shared/audit.ts'
import type { Database, Write } from '../server/shared/database/database.ts'
import type { RecordKind } from '../server/shared/records/kind.ts'
import type { Checked, Field } from '../server/shared/records/field.ts'

export type Columns = Readonly<Record<string, unknown>>

/** Who enters the following records, and when. */
export interface Author {
  readonly id: string | null
  readonly name: string
  readonly at: Date
}

/** Rows of the demo, collected before they are written. */
export interface Rows {
  /** A record as somebody would type it into its form, with a first line of history. Returns its id. */
  add(kind: RecordKind, typed: Columns, own?: Columns): string
  /** A row that is no record of its own. */
  plain(table: Table, columns: Columns): void
  /** Of what is not stored yet. Throws where there is none. */
  find(table: Table, isIt: (row: Columns) => boolean): Columns
  changed(kind: RecordKind, id: string, changes: readonly Change[]): void
  newId(at: Date): string
  by(author: Author): void
  /** From here on only records of these kinds get a first line of history. */
  tellOnlyOf(kinds: readonly RecordKind[]): void
  /** Writes what was collected since the last time, in transactions that end well before they expire. */
  store(database: Database): Promise<void>
}

// Each table after those it points to.
const TABLES = [
  'department', 'skill', 'bay', 'taxCode', 'person', 'personSkill', 'machine', 'outsideFinisher', 'closing', 'absence', 'material', 'kit', 'kitPart', 'equipmentItem', 'standardFitting', 'customer', 'vehicle',
  'build', 'zone', 'bin', 'mountingPlace', 'equipmentLine', 'fabricatedPart', 'finish', 'partUse', 'factoryPart', 'fastener', 'removal', 'custodyMove', 'orderEdge', 'alteration', 'replacementPart',
  'intake', 'conditionMark', 'faultCode', 'delivery',
  'openPoint', 'serviceVisit', 'makerClaim', 'serialSwap', 'operation', 'operationPredecessor', 'materialNeed', 'timeEntry', 'timer', 'auditEntry',
] as const
type Table = (typeof TABLES)[number]

const ROWS_AT_ONCE = 400

// Small rows whose first line of history would say no more than the rows themselves.
const WITHOUT_HISTORY = ['fastener', 'order', 'predecessor', 'use in an assembly', 'material need', 'kit part']

const READER = { units: 'metric', currency: 'USD' } as const

export function collectRows(first: Author): Rows {
  let author = first
  let isTold = (kind: RecordKind): boolean => !WITHOUT_HISTORY.includes(kind.name)
  let sequence = 0
  let collected = emptyTables()

  const newId = (at: Date): string => {
    sequence += 1
    const moment = at.getTime().toString(16).padStart(12, '0')
    return `${moment.slice(0, 8)}-${moment.slice(8)}-7000-8000-${sequence.toString(16).padStart(12, '0')}`
  }
  const plain = (table: Table, columns: Columns): void => {
    collected[table].push(columns)
  }
  const tell = (action: string, kind: RecordKind, recordId: string, changes: readonly Change[]): void => plain('auditEntry', {
    id: newId(author.at), at: author.at, personId: author.id, personName: author.name, action,
    recordKind: kind.name, recordId, changes: JSON.stringify(changes), requestId: 'demo',
  })

  return {
    plain,
    newId,
    add: (kind, typed, own = {}) => {
      const { values, entered } = readTyped(kind, typed)
      const id = newId(author.at)
      const columns = withoutLinks(kind, values)
      plain(kind.model as Table, { id, createdAt: author.at, entered: JSON.stringify(entered), ...columns, ...own })
      if (isTold(kind)) tell('created', kind, id, changesBetween(null, columns))
      return id
    },
    find: (table, isIt) => {
      const found = collected[table].find(isIt)
      if (!found) throw new Error(`the demo has no such ${table}`)
      return found
    },
    changed: (kind, id, changes) => tell('changed', kind, id, changes),
    by: (next) => { author = next },
    tellOnlyOf: (kinds) => { isTold = (kind) => kinds.includes(kind) },
    store: async (database) => {
      for (const table of TABLES) {
        for (let from = 0; from < collected[table].length; from += ROWS_AT_ONCE) {
          const data = collected[table].slice(from, from + ROWS_AT_ONCE)
          await database.write((write) => createMany(write, table, data))
        }
      }
      collected = emptyTables()
    },
  }
}

const emptyTables = (): Record<Table, Columns[]> =>
  Object.fromEntries(TABLES.map((table) => [table, []])) as unknown as Record<Table, Columns[]>

/** Reads what was typed by the fields of the form. Throws where one would refuse it, or does not exist. */
function readTyped(kind: RecordKind, typed: Columns): { values: Columns; entered: Columns } {
  const strange = Object.keys(typed).find((name) => !(name in kind.fields))
  if (strange) throw new Error(`a ${kind.name} has no field ${strange}`)
  const checked = Object.entries(kind.fields).map(([name, field]): [string, Checked] => {
    const reading = inputOf(field).safeParse(name in typed ? typed[name] : field.initial)
    if (!reading.success) throw new Error(`${kind.name}, ${name}: ${reading.error.issues[0]?.message ?? 'refused'}`)
    return [name, reading.data]
  })
  return {
    values: Object.fromEntries(checked.map(([name, { value }]) => [name, value])),
    entered: Object.fromEntries(checked.flatMap(([name, { entered }]) => (entered === undefined ? [] : [[name, entered]]))),
  }
}

// A field makes its schema anew for every form; thousands of rows are read faster by one.
const inputs = new WeakMap<Field, ReturnType<Field['input']>>()
function inputOf(field: Field): ReturnType<Field['input']> {
  const input = inputs.get(field) ?? field.input(READER)
  inputs.set(field, input)
  return input
}

// Many-to-many fields have tables of their own.
function withoutLinks(kind: RecordKind, values: Columns): Columns {
  return Object.fromEntries(Object.entries(values).filter(([name]) => kind.fields[name]?.entry.as !== 'references'))
}

// The generated client types every table by itself; this is the one place that sees them alike.
async function createMany(write: Write, table: Table, data: readonly Columns[]): Promise<void> {
  const model = write[table] as unknown as { createMany(query: { data: readonly Columns[] }): Promise<unknown> }
  await model.createMany({ data })
}
