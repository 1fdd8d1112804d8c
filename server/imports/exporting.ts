import { writeCsv } from '../shared/csv/writeCsv.ts'
import { guarded } from '../shared/csv/guard.ts'
import type { Reads } from '../shared/database/database.ts'
import type { Field } from '../shared/records/field.ts'
import { numbered, type RecordKind } from '../shared/records/kind.ts'
import { loadLinks } from '../shared/records/links.ts'
import { listRecords } from '../shared/records/table.ts'
import { toCell } from './cells.ts'
import { fieldsFor, type Reader } from './columns.ts'
import { loadAllNames } from './opened.ts'

/** All records of a kind as a CSV file that reads back as the same. */
export async function exportCsv(reads: Reads, kind: RecordKind, buildId: string | null, reader: Reader): Promise<string> {
  const fields = Object.entries(fieldsFor(kind, reader))
  const names = await loadAllNames(reads, kind, buildId)
  const rows = await listRecords(reads, kind, buildId ? { buildId } : {})
  const ordered = kind.number ? [...rows].sort((one, other) => Number(one.number) - Number(other.number)) : rows
  const whole = await Promise.all(ordered.map((row) => loadLinks(reads, kind, row)))
  return writeCsv([
    [...(kind.number ? ['Number'] : []), ...fields.map(([, field]) => headingOf(field, reader.currency))],
    ...whole.map((row) => [
      ...(kind.number ? [numbered(kind, row)] : []),
      ...fields.map(([name, field]) => toCell(name, field, row, reader.currency, names.get(name))),
    ]),
  ])
}

const headingOf = (field: Field, currency: string): string => guarded(field.entry.as === 'money' ? `${field.label} (${currency})` : field.label)
