import type { Fact } from '../../../web/records/record.tsx'
import type { Reads } from '../database/database.ts'
import { delegate, type Row } from '../database/delegate.ts'
import { nameOf } from './display.ts'
import { getKind, numbered, type RecordKind } from './kind.ts'
import { buildOf } from './table.ts'

/** Where a record was taken over from, as "B-0231 P-510 Record bin"; nothing for those entered here. */
export async function originOf(reads: Reads, kind: RecordKind, row: Row): Promise<Fact[]> {
  const origin = typeof row.copiedFromId === 'string' ? await delegate(reads, kind.model).findFirst({ where: { id: row.copiedFromId } }) : null
  if (!origin) return []
  const buildId = buildOf(origin)
  const build = buildId === null ? null : await delegate(reads, 'build').findFirst({ where: { id: buildId } })
  const text = [build ? numbered(getKind('build'), build) : '', nameOf(kind, origin)].filter((part) => part !== '').join(' ')
  return [{ label: 'Copied from', text, href: `/${kind.path}/${origin.id}` }]
}
