import { writeDay } from '../../web/shared/day.ts'
import { addDays } from '../calc/calendar.ts'
import type { Change } from '../shared/audit.ts'
import type { Reads } from '../shared/database/database.ts'
import { delegate, type Row } from '../shared/database/delegate.ts'
import { nameOf, titlesFor } from '../shared/records/display.ts'
import { getKind } from '../shared/records/kind.ts'
import { instantOf } from '../shared/shopTime.ts'

/** A change to what the sheet and the as-built record are drawn from. */
export interface VehicleChange {
  readonly at: Date
  readonly who: string
  readonly action: string
  readonly name: string
  readonly href: string
  /** Labels of the fields that changed. */
  readonly fields: readonly string[]
}

// A removal changes its factory part and a swap its line: they are told there.
const DRAWN_FROM = ['factory part', 'fastener', 'order of removal', 'alteration', 'equipment line', 'made part', 'bin'] as const

interface Delivered {
  readonly buildId: string
  readonly deliveredOn: string | null
  readonly timeZone: string
}

/** What changed in the vehicle's records after the day of delivery, the newest first; nothing before it. */
export async function listChangesSince(reads: Reads, { buildId, deliveredOn, timeZone }: Delivered): Promise<VehicleChange[]> {
  if (deliveredOn === null) return []
  const from = instantOf(timeZone, addDays(deliveredOn, 1), '00:00')
  const changes = await Promise.all(DRAWN_FROM.map((name) => changesOf(reads, name, buildId, from)))
  return changes.flat().toSorted((a, b) => b.at.getTime() - a.at.getTime())
}

async function changesOf(reads: Reads, kindName: string, buildId: string, from: Date): Promise<VehicleChange[]> {
  const kind = getKind(kindName)
  const rows = await delegate(reads, kind.model).findMany({ where: { buildId } })
  const entries = await reads.auditEntry.findMany({
    where: { recordKind: kind.name, recordId: { in: rows.map(({ id }) => id) }, at: { gte: from } },
    select: { recordId: true, at: true, personName: true, action: true, changes: true },
  })
  const changed = rows.filter(({ id }) => entries.some(({ recordId }) => recordId === id))
  const owners = await titlesFor(reads, kind, changed)
  const about = (row: Row): string => ['factoryPartId', 'beforeId', 'afterId'].flatMap((field) => owners.get(String(row[field])) ?? []).join(' → ')
  const names = new Map(changed.map((row) => [row.id, [nameOf(kind, row), kind.number ? '' : about(row)].filter((text) => text !== '').join(', ')]))
  return entries.map(({ recordId, at, personName, action, changes }) => ({
    at, who: personName, action, name: names.get(recordId) ?? '', href: `/${kind.path}/${recordId}`,
    fields: action === 'changed' ? (JSON.parse(changes) as Change[]).map(({ field }) => kind.fields[field]?.label.toLowerCase() ?? field) : [],
  }))
}

/**
 * How a sheet stands against the day of delivery, for its title block.
 *
 * @example stateInWords([], String) // 'no change since delivery'
 */
export function stateInWords(changes: readonly VehicleChange[], dayOf: (instant: Date) => string): string {
  const [latest] = changes
  if (!latest) return 'no change since delivery'
  return `as of ${dayOf(latest.at)}, ${changes.length} ${changes.length === 1 ? 'change' : 'changes'} since delivery`
}

export interface ChangeInWords {
  readonly when: string
  readonly who: string
  readonly what: string
  readonly href: string
}

/** Changes as pages list them. */
export function changesInWords(changes: readonly VehicleChange[], dayOf: (at: Date) => string): ChangeInWords[] {
  return changes.map(({ at, who, action, name, href, fields }) => ({ when: writeDay(dayOf(at)), who, href, what: `${name} ${action}${fields.length === 0 ? '' : `: ${fields.join(', ')}`}` }))
}
