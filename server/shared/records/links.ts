import type { Reads, Write } from '../database/database.ts'
import type { Row } from '../database/delegate.ts'
import type { Link } from './field.ts'
import type { RecordKind, Values } from './kind.ts'

/** A row with the ids of its many-to-many fields. */
export async function loadLinks(client: Reads | Write, kind: RecordKind, row: Row): Promise<Row> {
  const linked: Record<string, string[]> = {}
  for (const [name, field] of Object.entries(kind.fields)) {
    if (field.entry.as === 'references') linked[name] = await idsOf(client, field.entry.link, row.id)
  }
  return { ...row, ...linked }
}

async function idsOf(client: Reads | Write, link: Link, id: string): Promise<string[]> {
  const pairs = await linkTable(client, link).findMany({ where: { [link.own]: id } })
  return pairs.map((pair) => String(pair[link.other])).sort()
}

export async function storeLinks(write: Write, kind: RecordKind, id: string, links: Values): Promise<void> {
  for (const [name, ids] of Object.entries(links)) {
    const entry = kind.fields[name]?.entry
    if (entry?.as !== 'references' || !Array.isArray(ids)) continue
    const table = linkTable(write, entry.link)
    await table.deleteMany({ where: { [entry.link.own]: id } })
    for (const other of ids) await table.create({ data: { [entry.link.own]: id, [entry.link.other]: String(other) } })
  }
}

interface LinkTable {
  findMany(query: { where: object }): Promise<Record<string, unknown>[]>
  deleteMany(query: { where: object }): Promise<unknown>
  create(query: { data: object }): Promise<unknown>
}

const linkTable = (client: Reads | Write, link: Link): LinkTable => client[link.model] as unknown as LinkTable
