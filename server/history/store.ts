import type { LaborInput } from '../calc/estimate/operations.ts'
import type { ClosedBuild } from '../calc/estimate/hourCoverage.ts'
import { loggedOf } from '../calc/estimate/hourCoverage.ts'
import { groupBy } from '../calc/grouping.ts'
import { chainEntries } from '../calc/hours/timeEntries.ts'
import { loadOperationEntries } from '../hours/store.ts'
import { ESTIMATED, toOperation } from '../operations/toOperation.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'

/** The newest builds that are learned from: older ones were built by another shop of the same name. */
export const MOST_BUILDS = 300

const NAMED = { id: true, number: true, name: true } as const

/** Operations that are done, of the newest builds that have any; service visits stand apart. */
export async function loadClosed(reads: Reads): Promise<ClosedBuild[]> {
  const builds = await reads.build.findMany({
    where: { removedAt: null, operations: { some: DONE } }, orderBy: [{ number: 'desc' }], take: MOST_BUILDS, select: { id: true, number: true, title: true, stage: true },
  })
  const rows = await loadRows(reads, builds.map(({ id }) => id))
  const entries = groupBy(chainEntries(await loadOperationEntries(reads, rows.operations.map(({ id }) => id))).map(({ effective }) => effective), ({ operationId }) => operationId)
  const [operations, parts, uses, lines, factoryParts] = [byBuild(rows.operations), byBuild(rows.parts), byBuild(rows.uses), byBuild(rows.lines), byBuild(rows.factoryParts)]
  return builds.map(({ id, number, title, stage }) => {
    const own = { operations: operations.get(id) ?? [], parts: parts.get(id) ?? [], uses: uses.get(id) ?? [], lines: lines.get(id) ?? [], factoryParts: factoryParts.get(id) ?? [] }
    const labor = toLabor(own, rows.departments)
    return {
      id, label: `${label('B', number)} ${title}`, isDelivered: stage === 'delivered', labor,
      logged: loggedOf(labor.operations.flatMap((operation) => entries.get(operation.id) ?? [])),
    }
  })
}

const DONE = { state: 'done', removedAt: null, visitId: null } as const

async function loadRows(reads: Reads, buildIds: readonly string[]) {
  const where = { buildId: { in: [...buildIds] }, removedAt: null }
  const [operations, parts, uses, lines, factoryParts, departments] = await Promise.all([
    reads.operation.findMany({ where: { ...where, ...DONE }, orderBy: [{ id: 'asc' }], select: { ...ESTIMATED, buildId: true, partId: true, lineId: true, factoryPartId: true } }),
    reads.fabricatedPart.findMany({ where, select: { ...NAMED, buildId: true, quantity: true } }),
    reads.partUse.findMany({ where, select: { buildId: true, parentId: true, partId: true, quantity: true } }),
    reads.equipmentLine.findMany({ where, select: { ...NAMED, buildId: true, quantity: true } }),
    reads.factoryPart.findMany({ where, select: { ...NAMED, buildId: true } }),
    listDepartments(reads),
  ])
  return { operations, parts, uses, lines, factoryParts, departments }
}

/** Taken away ones too: what they took stays. */
export function listDepartments(reads: Reads) {
  return reads.department.findMany({ orderBy: [{ name: 'asc' }], select: { id: true, name: true, reworkAllowance: true } })
}

const USUAL_TOGETHER = 300

/** Thousandths. */
export async function togetherAsSet(reads: Reads): Promise<number> {
  const shop = await reads.shop.findFirst({ select: { goWrongTogether: true } })
  return shop?.goWrongTogether ?? USUAL_TOGETHER
}

type Rows = Awaited<ReturnType<typeof loadRows>>

const byBuild = <Row extends { readonly buildId: string }>(rows: readonly Row[]): Map<string, Row[]> => groupBy(rows, ({ buildId }) => buildId)

// Zones and money play no part in hours.
function toLabor({ operations, parts, uses, lines, factoryParts }: Omit<Rows, 'departments'>, departments: Rows['departments']): LaborInput {
  const known = new Set([...parts, ...lines, ...factoryParts].map(({ id }) => id))
  return {
    parts: parts.map(({ id, number, name, quantity }) => ({ id, number: label('P', number), name, zoneId: null, quantity })),
    partUses: uses.filter(({ parentId, partId }) => known.has(parentId) && known.has(partId)),
    equipment: lines.map(({ id, number, name, quantity }) => ({
      id, number: label('E', number), name, zoneId: null, quantity, suppliedBy: 'shop', costMinor: 0, priceMinor: 0, leadDays: 0, expectedOn: null,
    })),
    factoryParts: factoryParts.map(({ id, number, name }) => ({ id, number: label('F', number), name, zoneId: null })),
    zones: [],
    departments: departments.map(({ id, name, reworkAllowance }) => ({ id, name, costRateMinor: 0, sellRateMinor: 0, reworkThousandths: reworkAllowance })),
    operations: operations.filter(({ partId, lineId, factoryPartId }) => known.has(partId ?? lineId ?? factoryPartId ?? ''))
      .map((operation) => toOperation(operation, { partId: operation.partId, equipmentLineId: operation.lineId, factoryPartId: operation.factoryPartId }, null)),
  }
}
