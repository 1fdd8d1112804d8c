import type { PartTimeEntry } from '../../web/parts/partData.ts'
import { writeHours } from '../../web/shared/amount.ts'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { BENCH, MANAGERS } from '../shared/roles.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import type { PartSources } from './partPage.ts'

/** Hours on a part, newest first: what counts, and what stood there before a correction. */
export function toPartEntries({ stored, figures, operations }: PartSources, viewer: Viewer): PartTimeEntry[] {
  const numbers = new Map(operations.map(({ operation }) => [operation.id, operation.number]))
  const rows = new Map(stored.entries.map((entry) => [entry.id, entry]))
  const names = new Map(stored.people.map(({ id, name }) => [id, name]))
  const timeZone = stored.shop?.timeZone ?? 'UTC'
  return figures.costing.chains.flatMap(({ effective, history }) => {
    const row = rows.get(effective.id)
    const operation = numbers.get(effective.operationId ?? '')
    if (!row || operation === undefined) return []
    const first = history[0]
    const isCorrected = first !== undefined && history.length > 1
    return [{
      startedAt: row.startedAt, when: whenIn(timeZone, row.startedAt), who: names.get(row.personId) ?? '', operation,
      kind: effective.kind, seconds: row.seconds, why: row.why,
      correction: isCorrected ? `first written ${writeHours(first.seconds, 2)} h, corrected by ${names.get(row.enteredById) ?? ''} ${writeDay(calendarDateIn(timeZone, row.createdAt))}` : '',
      correctHref: mayCorrect(viewer, row.personId) ? `/hours/${row.id}/correction` : undefined,
    }]
  }).toSorted((a, b) => b.startedAt.getTime() - a.startedAt.getTime()).map(({ startedAt: _, ...entry }) => entry)
}

const mayCorrect = ({ role, personId }: Viewer, ownerId: string): boolean => MANAGERS.includes(role) || (BENCH.includes(role) && personId === ownerId)

// Hours entered after the fact carry their day, not a time of day: they begin as the day does.
function whenIn(timeZone: string, instant: Date): string {
  const clock = clockTimeIn(timeZone, instant)
  const day = writeDay(calendarDateIn(timeZone, instant))
  return clock === '00:00' ? day : `${day} ${clock}`
}
