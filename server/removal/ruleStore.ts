import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { nameThings, type NamedThing } from '../restoration/naming.ts'
import type { VehicleState } from '../restoration/store.ts'

/** One rule of order as it was recorded. */
export interface StoredRule {
  readonly id: string
  readonly graph: string
  readonly kind: string
  readonly beforeId: string
  readonly afterId: string
  readonly way: string
  readonly note: string
}

export const loadRules = (reads: Reads, buildId: string): Promise<StoredRule[]> => reads.orderEdge.findMany({
  where: { buildId, removedAt: null }, orderBy: { id: 'asc' },
  select: { id: true, graph: true, kind: true, beforeId: true, afterId: true, way: true, note: true },
})

/** A rule of any build, also one that was taken away; null where there is none. */
export const findRule = (reads: Reads, id: string): Promise<(StoredRule & { buildId: string, removedAt: Date | null }) | null> => reads.orderEdge.findFirst({
  where: { id }, select: { id: true, buildId: true, removedAt: true, graph: true, kind: true, beforeId: true, afterId: true, way: true, note: true },
})

/** The names of all things that rules speak of, those taken away from the build too. */
export async function nameAll(reads: Reads, state: VehicleState, rules: readonly StoredRule[]): Promise<ReadonlyMap<string, NamedThing>> {
  const known = nameThings(state)
  const strange = [...new Set(rules.flatMap(({ beforeId, afterId }) => [beforeId, afterId]))].filter((id) => !known.has(id))
  if (strange.length === 0) return known
  const query = { where: { id: { in: strange } }, select: { id: true, number: true, name: true } }
  const [factoryParts, lines, parts] = await Promise.all([reads.factoryPart.findMany(query), reads.equipmentLine.findMany(query), reads.fabricatedPart.findMany(query)])
  const named = (prefix: string, path: string, rows: typeof lines): [string, NamedThing][] =>
    rows.map(({ id, number, name }) => [id, { number: label(prefix, number), name, href: `/${path}/${id}`, isBuilt: prefix !== 'F' }])
  return new Map([...known, ...named('F', 'factory-parts', factoryParts), ...named('E', 'equipment-lines', lines), ...named('P', 'parts', parts)])
}
