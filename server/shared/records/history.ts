import type { Change } from '../audit.ts'
import type { Reads } from '../database/database.ts'
import { clockTimeIn, calendarDateIn } from '../shopTime.ts'
import { writeDay } from '../../../web/shared/day.ts'
import type { HistoryEntry } from '../../../web/shared/history.tsx'
import type { Role } from '../../../web/shared/viewer.ts'
import { showValue, type Reader, type Titles } from './display.ts'
import type { RecordKind } from './kind.ts'

interface Happened {
  readonly at: Date
  readonly personName: string
  readonly action: string
  readonly changes: Change[]
}

/** Who changed what in a record, newest first, with only the fields this role may see. */
export async function historyOf(reads: Reads, kind: RecordKind, id: string, role: Role): Promise<Happened[]> {
  const entries = await reads.auditEntry.findMany({
    where: { recordKind: kind.name, recordId: id },
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    select: { at: true, personName: true, action: true, changes: true },
    take: 200,
  })
  return entries.map((entry) => ({
    ...entry,
    changes: (JSON.parse(entry.changes) as Change[]).filter(({ field }) => kind.fields[field]?.seenBy.includes(role) ?? true),
  }))
}

/** The same in words. */
export async function historyInWords(
  reads: Reads, kind: RecordKind, id: string, reader: Reader & { role: Role }, timeZone: string, titles: Titles,
): Promise<HistoryEntry[]> {
  const happened = await historyOf(reads, kind, id, reader.role)
  return happened.map((entry) => ({
    when: `${writeDay(calendarDateIn(timeZone, entry.at))} ${clockTimeIn(timeZone, entry.at)}`,
    who: entry.personName,
    action: entry.action,
    changes: entry.action === 'created' ? [] : entry.changes.map((change) => inWords(kind, change, reader, titles)),
  }))
}

function inWords(kind: RecordKind, change: Change, reader: Reader, titles: Titles): HistoryEntry['changes'][number] {
  const field = kind.fields[change.field]
  const words = (value: unknown): string =>
    field ? showValue(field, value, reader, titles) || unnamed(value, field.entry.as) : String(value ?? '')
  return { field: field?.label ?? change.field, before: words(change.before), after: words(change.after) }
}

// A record that was referred to before may no longer be among the titles at hand.
const unnamed = (value: unknown, as: string): string => (as === 'reference' && value ? 'another' : '')
