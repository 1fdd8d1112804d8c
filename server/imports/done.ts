import { z } from 'zod'
import type { ImportsData } from '../../web/imports/imports.tsx'
import type { Reads } from '../shared/database/database.ts'
import { delegate } from '../shared/database/delegate.ts'
import { getKind } from '../shared/records/kind.ts'
import { countOf, type Plan } from './importing.ts'
import { exchangedKinds } from './requests.ts'

const count = z.coerce.number().int().min(0).max(100_000).optional()
export const doneQuery = z.object({ kind: z.string().max(60).optional(), build: z.string().max(60).optional(), created: count, changed: count, skipped: count })

/** Where an import leads: its counts stand in the address. */
export function locationOf(plan: Plan): string {
  const { kind, buildId } = plan.asked
  return `/imports?${new URLSearchParams({
    kind: kind.path, ...(buildId ? { build: buildId } : {}), created: String(countOf(plan, 'create')), changed: String(countOf(plan, 'change')), skipped: String(countOf(plan, 'skip')),
  }).toString()}`
}

/** What an import has done, and who cannot sign in yet. */
export async function doneIn(reads: Reads, query: Partial<z.infer<typeof doneQuery>>): Promise<Pick<ImportsData, 'saved' | 'savedHref' | 'withoutPassword'>> {
  const kind = exchangedKinds().find(({ path }) => path === query.kind)
  if (!kind || query.created === undefined) return { saved: null, savedHref: null, withoutPassword: [] }
  const isPeople = kind === getKind('person')
  const people = isPeople ? await delegate(reads, kind.model).findMany({ where: { removedAt: null, isActive: true, passwordHash: '' }, orderBy: { name: 'asc' } }) : []
  return {
    saved: `${kind.plural}: ${query.created} created, ${query.changed ?? 0} changed, ${query.skipped ?? 0} skipped`,
    savedHref: kind.isOfBuild && query.build ? `/${kind.path}?build=${query.build}` : `/${kind.path}`,
    withoutPassword: people.map((row) => ({ href: `/people/${row.id}/codes`, name: String(row.name) })),
  }
}
