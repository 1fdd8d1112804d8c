import { randomBytes } from 'node:crypto'
import { changesBetween, type Actor, type Change } from '../audit.ts'
import type { Write } from '../database/database.ts'
import { delegate, type Row } from '../database/delegate.ts'
import { VersionConflict } from '../problems.ts'
import type { RecordKind, Values } from './kind.ts'
import { enteredOf, type Submitted } from './table.ts'

const ROWS_AT_ONCE = 200

export interface Creation {
  readonly submitted: Submitted
  /** Our number where it is given; else the next. */
  readonly number: number | null
}

export interface RecordChange {
  readonly row: Row
  readonly submitted: Submitted
  readonly changes: readonly Change[]
}

/** Many checked records at once, each with its first line of history; in the order given. */
export async function createRecords(write: Write, kind: RecordKind, creations: readonly Creation[], buildId: string | null, actor: Actor): Promise<void> {
  const newId = idsFrom(actor.now)
  const next = await nextNumbers(write, kind, buildId, creations)
  const records = creations.map(({ submitted, number }): { id: string; values: Values; entered: string } => {
    const values = { ...submitted.values, ...(kind.number ? { number: number ?? next() } : {}) }
    return { id: newId(), values, entered: JSON.stringify(submitted.entered) }
  })
  for (const part of inParts(records)) {
    await delegate(write, kind.model).createMany({ data: part.map(({ id, values, entered }) => ({ id, ...values, entered })) })
    await tell(write, kind, actor, 'created', part.map(({ id, values }) => ({ id, changes: changesBetween(null, values) })))
  }
}

/** Many checked changes at once. Throws a VersionConflict where a record was changed since it was read. */
export async function changeRecords(write: Write, kind: RecordKind, changed: readonly RecordChange[], actor: Actor): Promise<void> {
  for (const { row, submitted } of changed) {
    const kept = Object.entries(enteredOf(row)).filter(([name]) => !(name in submitted.values))
    const entered = JSON.stringify({ ...Object.fromEntries(kept), ...submitted.entered })
    const data = { ...submitted.values, entered, version: { increment: 1 } }
    const { count } = await delegate(write, kind.model).updateMany({ where: { id: row.id, version: row.version }, data })
    if (count === 0) throw new VersionConflict(row)
  }
  for (const part of inParts(changed)) {
    await tell(write, kind, actor, 'changed', part.map(({ row, changes }) => ({ id: row.id, changes })))
  }
}

async function tell(write: Write, kind: RecordKind, actor: Actor, action: string, records: readonly { id: string; changes: readonly Change[] }[]): Promise<void> {
  const { now, personId, personName, requestId } = actor
  await write.auditEntry.createMany({
    data: records.map(({ id, changes }) => (
      { at: now, personId, personName, requestId, action, recordKind: kind.name, recordId: id, changes: JSON.stringify(changes) })),
  })
}

async function nextNumbers(write: Write, kind: RecordKind, buildId: string | null, creations: readonly Creation[]): Promise<() => number> {
  if (!kind.number) return () => 0
  const where = kind.number.within === 'build' ? { buildId } : {}
  const last = await delegate(write, kind.model).findFirst({ where, orderBy: { number: 'desc' } })
  const given = creations.map(({ number }) => number ?? 0)
  let number = given.reduce((largest, one) => Math.max(largest, one), last ? Number(last.number) : (kind.number.first ?? 1) - 1)
  return () => {
    number += 1
    return number
  }
}

function inParts<Item>(items: readonly Item[]): Item[][] {
  return Array.from({ length: Math.ceil(items.length / ROWS_AT_ONCE) }, (_, part) => items.slice(part * ROWS_AT_ONCE, (part + 1) * ROWS_AT_ONCE))
}

/** UUIDv7s in rising order (RFC 9562, 6.2, method 1: a counter of 12 bits after the milliseconds). */
function idsFrom(now: Date): () => string {
  let made = -1
  return () => {
    made += 1
    const moment = (now.getTime() + Math.floor(made / 4096)).toString(16).padStart(12, '0')
    const count = (made % 4096).toString(16).padStart(3, '0')
    const random = randomBytes(8).toString('hex')
    const variant = (8 + (Number.parseInt(random.charAt(0), 16) % 4)).toString(16)
    return `${moment.slice(0, 8)}-${moment.slice(8)}-7${count}-${variant}${random.slice(1, 4)}-${random.slice(4)}`
  }
}
