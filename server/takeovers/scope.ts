import type { Row } from '../shared/database/delegate.ts'
import { REFERENCES, TABLES, type Table } from './tables.ts'

export const SCOPES = ['whole scope', 'made part', 'removal order'] as const

/** The records in use of a build, table by table, in the order of their numbers. */
export type Rows = Readonly<Record<Table, readonly Row[]>>

export interface Scope {
  readonly what: (typeof SCOPES)[number]
  /** The made part that comes with all its pieces. */
  readonly partId: string | null
  /** The zone whose order of removal is taken. */
  readonly zoneId: string | null
  readonly leftOut: ReadonlySet<string>
}

// What stands in front of what once something is built in is known when it is built in.
const ORDERS_OF_REMOVAL: readonly unknown[] = ['as found', 'going back']
const OF_PART: readonly Table[] = ['zone', 'fabricatedPart', 'partUse', 'operation', 'operationPredecessor', 'materialNeed', 'finish']
const OF_REMOVAL: readonly Table[] = ['zone', 'factoryPart', 'fastener', 'orderEdge']

/** The rows of the source that are wanted and hang together: what stands on something left out stays there with it. */
export function chosenRows(source: Rows, scope: Scope): Rows {
  const { what, leftOut } = scope
  const isWanted = filterOf(source, scope)
  const tables = what === 'made part' ? OF_PART : what === 'removal order' ? OF_REMOVAL : TABLES
  const known = new Set<string>()
  return Object.fromEntries(TABLES.map((table) => {
    const rows = tables.includes(table) ? source[table].filter((row) => !leftOut.has(row.id) && isWanted(table, row) && hasAll(table, row, known)) : []
    for (const { id } of rows) known.add(id)
    return [table, rows]
  })) as unknown as Rows
}

const hasAll = (table: Table, row: Row, known: ReadonlySet<string>): boolean =>
  Object.entries(REFERENCES[table]).every(([name, need]) => need === 'optional' || typeof row[name] !== 'string' || known.has(row[name]))

function filterOf(source: Rows, { what, partId, zoneId }: Scope): (table: Table, row: Row) => boolean {
  if (what === 'removal order') {
    return (table, row) => (table === 'zone' ? row.id === zoneId : table === 'factoryPart' ? row.zoneId === zoneId : table !== 'orderEdge' || ORDERS_OF_REMOVAL.includes(row.graph))
  }
  // Work after delivery is no part of the build.
  const isOfBuild = (table: Table, row: Row): boolean => table !== 'operation' || row.visitId === null
  if (what === 'whole scope') return isOfBuild
  const parts = listPieces(source, partId ?? '')
  const zones = new Set(source.fabricatedPart.filter(({ id }) => parts.has(id)).map((part) => part.zoneId))
  return (table, row) => isOfBuild(table, row) && (table === 'fabricatedPart' ? parts.has(row.id) : table === 'zone' ? zones.has(row.id) : true)
}

/** A part and all that goes into it, however deep. */
export function listPieces({ partUse }: Pick<Rows, 'partUse'>, partId: string): Set<string> {
  const found = new Set([partId])
  const queue = [partId]
  for (let id = queue.pop(); id !== undefined; id = queue.pop()) {
    for (const use of partUse.filter(({ parentId }) => parentId === id)) {
      const piece = String(use.partId)
      if (!found.has(piece)) queue.push(piece)
      found.add(piece)
    }
  }
  return found
}
