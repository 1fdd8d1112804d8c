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

/** All records in use of a build that can be taken over, in the order of their numbers. */
export async function loadSourceRows(client: Reads | Write, buildId: string): Promise<Rows> {
  const entries = await Promise.all(TABLES.map(async (table): Promise<[Table, Row[]]> => {
    const orderBy = FIRST_NUMBER[table] === undefined && table !== 'operation' ? [{ id: 'asc' }] : [{ number: 'asc' }, { id: 'asc' }]
    return [table, await delegate(client, table).findMany({ where: { buildId, ...(table === 'zone' ? {} : { removedAt: null }) }, orderBy })]
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
      action: `taken over from ${originInWords(table, originOf.get(id), source)}`,
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
