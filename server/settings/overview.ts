import type { SettingsData, Holding } from '../../web/settings/settings.tsx'
import type { Role } from '../../web/shared/viewer.ts'
import { formatClock } from '../calc/clock.ts'
import type { Reads } from '../shared/database/database.ts'
import { delegate, type Row } from '../shared/database/delegate.ts'
import { getKind, type RecordKind } from '../shared/records/kind.ts'
import { firstDaySteps } from './firstDay.ts'
import { bay, department, shop, skill, taxCode } from './records.ts'

// What the schedule plans with, beside people and bays.
const FOR_THE_SCHEDULE = ['machine', 'outside finisher', 'closing', 'absence']

/** What the shop's settings hold, and what to enter first where they hold nothing yet. */
export async function settingsOverview(reads: Reads, role: Role, isAway: boolean): Promise<SettingsData> {
  const [row] = await listed(reads, shop)
  const counted = await Promise.all([department, skill, bay, taxCode, ...FOR_THE_SCHEDULE.map(getKind)].map(async (kind) => ({ kind, rows: await listed(reads, kind) })))
  const steps = await firstDaySteps(reads, role)
  return {
    shop: row ? factsOf(row) : [],
    holdings: counted.map(({ kind, rows }) => holdingOf(kind, rows)),
    steps: isAway ? [] : steps,
    areStepsAway: isAway && steps.length > 0,
  }
}

async function listed(reads: Reads, kind: RecordKind): Promise<Row[]> {
  return delegate(reads, kind.model).findMany({ where: { removedAt: null }, orderBy: kind.orderBy ?? [{ id: 'asc' }] })
}

function factsOf(row: Row): SettingsData['shop'] {
  return [
    { label: 'Name', text: String(row.name) },
    { label: 'Currency', text: String(row.currency) },
    { label: 'Time zone', text: String(row.timeZone) },
    { label: 'Open', text: `${formatClock(Number(row.opensAt))} to ${formatClock(Number(row.closesAt))}` },
  ]
}

function holdingOf(kind: RecordKind, rows: readonly Row[]): Holding {
  return { name: kind.plural, href: `/${kind.path}`, count: rows.length, titles: rows.map((row) => kind.title(row)) }
}
