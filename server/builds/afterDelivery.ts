import type { TimeKind } from '../calc/hours/timeEntries.ts'
import { visitHours, type VisitHours } from '../calc/hours/visitHours.ts'
import { inOrderWritten } from '../hours/store.ts'
import { label } from '../shared/records/kind.ts'
import type { StoredBuild } from './store.ts'

/** What service visits have taken since delivery, or null where nothing was logged on any. */
export function toAfterDelivery(stored: StoredBuild): VisitHours | null {
  if (stored.visitEntries.length === 0) return null
  const departmentOf = new Map(stored.visitOperations.map(({ id, departmentId }) => [id, departmentId]))
  const entries = inOrderWritten(stored.visitEntries).map(({ id, operationId, personId, kind, seconds, correctsId }) => ({
    id, operationId, personId, kind: kind as TimeKind, seconds, correctsId, partId: null, departmentId: departmentOf.get(operationId) ?? null,
  }))
  return visitHours(
    stored.visitOperations.map((operation) => ({ id: operation.id, name: `${ownerName(stored, operation)}, ${operation.number} ${operation.kind}`, departmentId: operation.departmentId })),
    entries, stored.departments.map(({ id, name, costRate }) => ({ id, name, costRateMinor: costRate })),
  )
}

function ownerName({ parts, lines, factoryParts }: StoredBuild, { partId, lineId, factoryPartId }: StoredBuild['operations'][number]): string {
  const named = (prefix: string, rows: readonly { id: string, number: number, name: string }[], id: string | null): string[] =>
    rows.filter((row) => row.id === id).map(({ number, name }) => `${label(prefix, number)} ${name}`)
  return [...named('P', parts, partId), ...named('E', lines, lineId), ...named('F', factoryParts, factoryPartId)].join('')
}
