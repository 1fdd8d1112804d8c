import type { TimeEntry, TimeKind } from '../calc/timeEntries.ts'
import type { Reads, Write } from '../shared/database/database.ts'

const ENTRY = {
  id: true, createdAt: true, operationId: true, personId: true, kind: true, seconds: true, correctsId: true,
  operation: { select: { partId: true, departmentId: true } },
} as const

/** All hours of a build for costing, with their corrections, in the order they were written. */
export async function loadTimeEntries(reads: Reads | Write, buildId: string): Promise<TimeEntry[]> {
  const rows = await reads.timeEntry.findMany({ where: { buildId }, orderBy: [{ createdAt: 'asc' }, { id: 'asc' }], select: ENTRY })
  return inOrderWritten(rows).map((row) => ({
    id: row.id, operationId: row.operationId, partId: row.operation.partId, departmentId: row.operation.departmentId,
    personId: row.personId, kind: row.kind as TimeKind, seconds: row.seconds, correctsId: row.correctsId,
  }))
}

interface Chained {
  readonly id: string
  readonly correctsId: string | null
}

/** Puts every correction after what it corrects, whatever the clock said; else the order stays. */
export function inOrderWritten<Entry extends Chained>(entries: readonly Entry[]): Entry[] {
  const byId = new Map(entries.map((entry) => [entry.id, entry]))
  const depthOf = (entry: Entry, seen = 0): number => {
    const earlier = entry.correctsId === null ? undefined : byId.get(entry.correctsId)
    return earlier && seen < entries.length ? 1 + depthOf(earlier, seen + 1) : 0
  }
  const depths = new Map(entries.map((entry) => [entry.id, depthOf(entry)]))
  return entries.toSorted((a, b) => (depths.get(a.id) ?? 0) - (depths.get(b.id) ?? 0))
}
