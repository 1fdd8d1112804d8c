import type { Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { delegate, type Row } from '../shared/database/delegate.ts'
import { getKind, label } from '../shared/records/kind.ts'
import type { Plan, Target } from './plan.ts'
import type { Rows } from './scope.ts'
import { FIRST_NUMBER, KIND_OF, TABLES, type Table } from './tables.ts'

const ROWS_AT_ONCE = 400

/** A build that is taken from or into. */
export interface TemplateBuild {
  readonly id: string
  readonly number: number
  readonly title: string
  readonly copiedFromId: string | null
}

export function findTemplateBuild(client: Reads | Write, id: string): Promise<TemplateBuild | null> {
  return client.build.findFirst({ where: { id, removedAt: null }, select: { id: true, number: true, title: true, copiedFromId: true } })
}

export function findNumbered(client: Reads | Write, number: number): Promise<TemplateBuild | null> {
  return client.build.findFirst({ where: { number, removedAt: null }, select: { id: true, number: true, title: true, copiedFromId: true } })
}

// What a service visit took is no plan for another build.
const NOT_OF_A_VISIT = { visitId: null }

/** All records in use of a build that can be taken over, in the order of their numbers. */
export async function loadSourceRows(client: Reads | Write, buildId: string): Promise<Rows> {
  const entries = await Promise.all(TABLES.map(async (table): Promise<[Table, Row[]]> => {
    const orderBy = FIRST_NUMBER[table] === undefined && table !== 'operation' ? [{ id: 'asc' }] : [{ number: 'asc' }, { id: 'asc' }]
    return [table, await delegate(client, table).findMany({ where: { buildId, ...(table === 'zone' ? {} : { removedAt: null }), ...(table === 'operation' ? NOT_OF_A_VISIT : {}) }, orderBy })]
  }))
  const rows = Object.fromEntries(entries) as unknown as Record<Table, Row[]>
  return { ...rows, zone: rows.zone.filter((zone) => zone.removedAt === null || isUsed(zone, rows)) }
}

// A zone that was removed still holds what was taken back after it.
const isUsed = ({ id }: Row, { equipmentLine, fabricatedPart, factoryPart, mountingPlace }: Record<Table, Row[]>): boolean =>
  [equipmentLine, fabricatedPart, factoryPart, mountingPlace].some((rows) => rows.some(({ zoneId }) => zoneId === id))

export async function loadTarget(client: Reads | Write, buildId: string): Promise<Target> {
  const zones = await client.zone.findMany({ where: { buildId, removedAt: null }, orderBy: [{ number: 'asc' }], select: { id: true, number: true, name: true, place: true } })
  const last = await Promise.all(TABLES.filter((table) => FIRST_NUMBER[table] !== undefined).map(async (table) => {
    const row = await delegate(client, table).findFirst({ where: { buildId }, orderBy: { number: 'desc' } })
    return [table, row ? Number(row.number) : 0] as const
  }))
  return { buildId, zones, last: Object.fromEntries(last) }
}

/** Writes all rows of a plan with a line of history for each record that has one. */
export async function writePlan(write: Write, { rows, originOf }: Plan, source: TemplateBuild, actor: Actor): Promise<void> {
  for (const table of TABLES) {
    for (let from = 0; from < rows[table].length; from += ROWS_AT_ONCE) {
      await delegate(write, table).createMany({ data: rows[table].slice(from, from + ROWS_AT_ONCE).map((row) => ({ ...row, createdAt: actor.now })) })
    }
  }
  const { now, personId, personName, requestId } = actor
  const told = TABLES.flatMap((table) => (KIND_OF[table] ? rows[table].map(({ id }) => ({ table, id })) : []))
  await write.auditEntry.createMany({
    data: told.map(({ table, id }) => ({
      at: now, personId, personName, requestId, recordKind: KIND_OF[table] ?? '', recordId: id, changes: '[]',
      action: `copied from ${originInWords(table, originOf.get(id), source)}`,
    })),
  })
}

function originInWords(table: Table, origin: Row | undefined, source: TemplateBuild): string {
  const prefix = FIRST_NUMBER[table] === undefined ? '' : (getKind(KIND_OF[table] ?? '').number?.prefix ?? '')
  return [label('B', source.number), prefix === '' ? '' : label(prefix, Number(origin?.number))].filter((word) => word !== '').join(' ')
}

/** The first whole scope that is taken over says where the build comes from. */
export async function setOrigin(write: Write, buildId: string, sourceId: string): Promise<void> {
  await write.build.updateMany({ where: { id: buildId, copiedFromId: null }, data: { copiedFromId: sourceId, version: { increment: 1 } } })
}

/** The builds that the parts, lines and factory parts of a build were taken from. */
export async function listOrigins(reads: Reads, buildId: string): Promise<string[]> {
  const where = { buildId, removedAt: null, copiedFromId: { not: null } }
  const select = { copiedFromId: true } as const
  const [parts, lines, factoryParts] = await Promise.all([
    reads.fabricatedPart.findMany({ where, select }), reads.equipmentLine.findMany({ where, select }), reads.factoryPart.findMany({ where, select }),
  ])
  const id = { in: [...parts, ...lines, ...factoryParts].flatMap(({ copiedFromId }) => copiedFromId ?? []) }
  const owned = { select: { buildId: true }, distinct: ['buildId'] as 'buildId'[] }
  const found = await Promise.all([
    reads.fabricatedPart.findMany({ where: { id }, ...owned }), reads.equipmentLine.findMany({ where: { id }, ...owned }), reads.factoryPart.findMany({ where: { id }, ...owned }),
  ])
  return [...new Set(found.flat().map((row) => row.buildId))]
}

/** The operations of a part that were taken over, with where from. */
export async function listCopiedOperations(reads: Reads, partId: string): Promise<{ id: string, sourceId: string, sourceBuildId: string }[]> {
  const copies = await reads.operation.findMany({ where: { partId, removedAt: null, copiedFromId: { not: null } }, select: { id: true, copiedFromId: true } })
  const sources = await reads.operation.findMany({ where: { id: { in: copies.flatMap(({ copiedFromId }) => copiedFromId ?? []) } }, select: { id: true, buildId: true } })
  const buildOf = new Map(sources.map(({ id, buildId }) => [id, buildId]))
  return copies.flatMap(({ id, copiedFromId }) => {
    const sourceBuildId = buildOf.get(copiedFromId ?? '')
    return copiedFromId !== null && sourceBuildId !== undefined ? [{ id, sourceId: copiedFromId, sourceBuildId }] : []
  })
}
