import type { BackOn, Fitted } from '../calc/removal/backOn.ts'
import type { Change } from '../shared/audit.ts'
import type { Reads } from '../shared/database/database.ts'
import type { VehicleState } from '../restoration/store.ts'

/** How the history of a factory part says that somebody answered what stands in front of what about it. */
export const ANSWERED = 'asked what stands in front, as built'

/** The factory parts that went back on last, and what is fitted with when that was noted; few queries, whatever the build. */
export async function loadBackOn(reads: Reads, { build, input }: VehicleState): Promise<{ backOn: BackOn[], fitted: Fitted[] }> {
  const items = input.installedItems.filter(({ isFitted }) => isFitted)
  if (items.length === 0) return { backOn: [], fitted: [] }
  const removals = await reads.removal.findMany({
    where: { buildId: build.id, removedAt: null }, orderBy: [{ at: 'asc' }, { id: 'asc' }], select: { factoryPartId: true, kind: true, at: true },
  })
  const zones = new Set(items.map(({ zoneId }) => zoneId))
  const candidates = input.factoryParts.filter(({ zoneId }) => zones.has(zoneId)).flatMap(({ id, zoneId }) => {
    const own = removals.filter(({ factoryPartId }) => factoryPartId === id)
    const [last, out] = [own.at(-1), own.findLast(({ kind }) => kind === 'came out')]
    return last?.kind === 'went back' && out ? [{ partId: id, zoneId, outAt: out.at.getTime(), backAt: last.at.getTime() }] : []
  })
  if (candidates.length === 0) return { backOn: [], fitted: [] }
  const [answers, changes] = await Promise.all([
    reads.auditEntry.findMany({ where: { recordKind: 'factory part', recordId: { in: candidates.map(({ partId }) => partId) }, action: ANSWERED }, select: { recordId: true, at: true } }),
    reads.auditEntry.findMany({ where: { recordId: { in: items.map(({ id }) => id) }, changes: { contains: '"isFitted"' } }, orderBy: { at: 'asc' }, select: { recordId: true, at: true, changes: true } }),
  ])
  const latest = (entries: readonly { recordId: string, at: Date }[], id: string): number | null => entries.findLast(({ recordId }) => recordId === id)?.at.getTime() ?? null
  const fittings = changes.filter(({ changes: text }) => (JSON.parse(text) as Change[]).some(({ field, after }) => field === 'isFitted' && after === true))
  return {
    backOn: candidates.map((one) => ({ ...one, answeredAt: latest(answers.toSorted((a, b) => a.at.getTime() - b.at.getTime()), one.partId) })),
    fitted: items.map(({ id, zoneId }) => ({ id, zoneId, fittedAt: latest(fittings, id) })),
  }
}
