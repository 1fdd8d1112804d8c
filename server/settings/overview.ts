import type { SettingsData, Holding } from '../../web/settings/settings.tsx'
import type { FirstStep } from '../../web/shared/empty.tsx'
import type { Role } from '../../web/shared/viewer.ts'
import { formatQuantity } from '../calc/figures.ts'
import type { Reads } from '../shared/database/database.ts'
import { delegate, type Row } from '../shared/database/delegate.ts'
import { getKind, type RecordKind } from '../shared/records/kind.ts'
import { bay, department, shop, skill, taxCode } from './records.ts'

/** What the shop's settings hold, and what to enter first where they hold nothing yet. */
export async function settingsOverview(reads: Reads, role: Role): Promise<SettingsData> {
  const [row] = await listed(reads, shop)
  const people = getKind('person')
  const kinds = [department, skill, people, bay, taxCode]
  const counted = await Promise.all(kinds.map(async (kind) => ({ kind, rows: await listed(reads, kind) })))
  // The first owner is a person already, so people are still to enter while there is one.
  const isEmpty = ({ kind, rows }: (typeof counted)[number]): boolean => rows.length <= (kind === people ? 1 : 0)
  const shopStep = row?.version === 1 && shop.changedBy.includes(role) ? [stepFor(shop, '/shop/shop/form')] : []
  return {
    shop: row ? factsOf(row) : [],
    holdings: counted.filter(({ kind }) => kind !== people).map(({ kind, rows }) => holdingOf(kind, rows)),
    steps: [...shopStep, ...counted.filter(isEmpty).map(({ kind }) => stepFor(kind, `/${kind.path}/new`))],
  }
}

async function listed(reads: Reads, kind: RecordKind): Promise<Row[]> {
  return delegate(reads, kind.model).findMany({ where: { removedAt: null }, orderBy: kind.orderBy ?? [{ id: 'asc' }] })
}

function factsOf(row: Row): SettingsData['shop'] {
  const clock = (seconds: unknown): string => formatQuantity(Number(seconds), 'time', 'metric')
  return [
    { label: 'Name', text: String(row.name) },
    { label: 'Currency', text: String(row.currency) },
    { label: 'Time zone', text: String(row.timeZone) },
    { label: 'Open', text: `${clock(row.opensAt)} to ${clock(row.closesAt)}` },
  ]
}

function holdingOf(kind: RecordKind, rows: readonly Row[]): Holding {
  return { name: kind.plural, href: `/${kind.path}`, count: rows.length, titles: rows.map((row) => kind.title(row)) }
}

function stepFor(kind: RecordKind, href: string): FirstStep {
  const isShop = kind === shop
  return {
    title: isShop ? 'The shop' : kind.plural.charAt(0).toUpperCase() + kind.plural.slice(1),
    ...kind.firstStep, href, button: isShop ? 'Set up the shop' : `Add a ${kind.name}`,
  }
}
