import { audit, changesBetween, type Actor } from '../audit.ts'
import type { Reads, Write } from '../database/database.ts'
import { delegate, type Row } from '../database/delegate.ts'
import { invalid, notFound, VersionConflict } from '../problems.ts'
import type { EntryKind } from './field.ts'
import { kindsReferredTo, type Draft, type RecordKind, type Values } from './kind.ts'
import { loadLinks, storeLinks } from './links.ts'

/** Which records a list shows. */
export interface Scope {
  readonly buildId?: string
  readonly isRemoved?: boolean
}

/** Values that passed their fields, with what was typed. */
export interface Submitted {
  readonly values: Values
  readonly entered: Readonly<Record<string, string>>
}

export async function findRecord(client: Reads | Write, kind: RecordKind, id: string): Promise<Row | null> {
  const row = await delegate(client, kind.model).findFirst({ where: { id } })
  return row ? loadLinks(client, kind, row) : null
}

/** A record by id. Throws a 404 where there is none. */
export async function getRecord(client: Reads | Write, kind: RecordKind, id: string): Promise<Row> {
  const row = await findRecord(client, kind, id)
  if (!row) throw notFound(kind.name)
  return row
}

export async function listRecords(client: Reads | Write, kind: RecordKind, scope: Scope = {}): Promise<Row[]> {
  return delegate(client, kind.model).findMany({ where: whereOf(kind, scope), orderBy: kind.orderBy ?? [{ id: 'asc' }] })
}

/** One page of a list in the order of creation, from after the record `cursor`. */
export async function pageOfRecords(
  client: Reads, kind: RecordKind, scope: Scope, page: { limit: number; cursor?: string | undefined },
): Promise<{ rows: Row[]; next: string | null }> {
  const after = page.cursor ? { cursor: { id: page.cursor }, skip: 1 } : {}
  const found = await delegate(client, kind.model).findMany({
    where: whereOf(kind, scope), orderBy: [{ id: 'asc' }], take: page.limit + 1, ...after,
  })
  const rows = await Promise.all(found.slice(0, page.limit).map((row) => loadLinks(client, kind, row)))
  return { rows, next: found.length > page.limit ? (rows.at(-1)?.id ?? null) : null }
}

function whereOf(kind: RecordKind, scope: Scope): Record<string, unknown> {
  return {
    removedAt: scope.isRemoved ? { not: null } : null,
    ...(kind.isOfBuild && scope.buildId ? { buildId: scope.buildId } : {}),
  }
}

export async function createRecord(
  write: Write, kind: RecordKind, buildId: string | null, submitted: Submitted, actor: Actor,
): Promise<Row> {
  const own = { ...submitted.values, ...(kind.isOfBuild ? { buildId } : {}) }
  const draft: Draft = { id: null, before: null, values: own, actor }
  if (kind.isOfBuild) await checkBuild(write, buildId)
  await checkReferences(write, kind, draft, buildId)
  const values = { ...own, ...(await kind.check?.(write, draft)), ...(await nextNumber(write, kind, own)) }
  const { columns, links } = splitLinks(kind, values)
  const row = await delegate(write, kind.model).create({ data: { ...columns, entered: JSON.stringify(submitted.entered) } })
  await storeLinks(write, kind, row.id, links)
  await audit(write, actor, { action: 'created', recordKind: kind.name, recordId: row.id, changes: changesBetween(null, values) })
  await kind.after?.(write, row, draft)
  return getRecord(write, kind, row.id)
}

export async function changeRecord(
  write: Write, kind: RecordKind, id: string, version: number, submitted: Submitted, actor: Actor,
): Promise<Row> {
  const before = await getRecord(write, kind, id)
  if (before.removedAt) throw notFound(kind.name)
  if (before.version !== version) throw new VersionConflict(before)
  const whole = { ...fieldsOf(kind, before), ...submitted.values }
  const draft: Draft = { id, before, values: whole, actor }
  await checkReferences(write, kind, draft, buildOf(before))
  const values = { ...submitted.values, ...(await kind.check?.(write, draft)) }
  const changes = changesBetween(before, values)
  if (changes.length === 0) return before
  const { columns, links } = splitLinks(kind, values)
  const entered = JSON.stringify(mergeEntered(before, submitted))
  const { count } = await delegate(write, kind.model).updateMany({
    where: { id, version }, data: { ...columns, entered, version: { increment: 1 } },
  })
  if (count === 0) throw new VersionConflict(await getRecord(write, kind, id))
  await storeLinks(write, kind, id, links)
  await audit(write, actor, { action: 'changed', recordKind: kind.name, recordId: id, changes })
  const row = await getRecord(write, kind, id)
  await kind.after?.(write, row, draft)
  return row
}

/** Takes a record away, or back: nothing is deleted. */
export async function setRemoved(write: Write, kind: RecordKind, id: string, isRemoved: boolean, actor: Actor): Promise<Row> {
  const before = await getRecord(write, kind, id)
  if (Boolean(before.removedAt) === isRemoved) return before
  const held = isRemoved ? await kind.holds?.(write, before) : null
  if (held) throw invalid('id', held)
  const removedAt = isRemoved ? actor.now : null
  await delegate(write, kind.model).updateMany({ where: { id }, data: { removedAt, version: { increment: 1 } } })
  await audit(write, actor, { action: isRemoved ? 'removed' : 'recovered', recordKind: kind.name, recordId: id })
  await kind.afterRemoval?.(write, before, actor)
  return getRecord(write, kind, id)
}

export const buildOf = (row: Row): string | null => (typeof row.buildId === 'string' ? row.buildId : null)

/** A record's own fields, without what every record has. */
export function fieldsOf(kind: RecordKind, row: Row): Record<string, unknown> {
  return Object.fromEntries(Object.keys(kind.fields).map((name) => [name, row[name]]))
}

/** What was typed for each measured field. */
export function enteredOf(row: Row): Record<string, string> {
  return JSON.parse(row.entered) as Record<string, string>
}

function mergeEntered(before: Row, submitted: Submitted): Record<string, string> {
  const kept = Object.entries(enteredOf(before)).filter(([name]) => !(name in submitted.values))
  return { ...Object.fromEntries(kept), ...submitted.entered }
}

async function nextNumber(write: Write, kind: RecordKind, values: Values): Promise<Values> {
  if (!kind.number || typeof values.number === 'number') return {}
  const { within, first = 1 } = kind.number
  const where = within === 'shop' ? {} : within === 'build' ? { buildId: values.buildId } : { [within]: values[within] }
  const last = await delegate(write, kind.model).findFirst({ where, orderBy: { number: 'desc' } })
  return { number: last ? Number(last.number) + 1 : first }
}

function splitLinks(kind: RecordKind, values: Values): { columns: Values; links: Values } {
  const isLink = ([name]: [string, unknown]): boolean => kind.fields[name]?.entry.as === 'references'
  const entries = Object.entries(values)
  return {
    columns: Object.fromEntries(entries.filter((entry) => !isLink(entry))),
    links: Object.fromEntries(entries.filter(isLink)),
  }
}

async function checkBuild(write: Write, buildId: string | null): Promise<void> {
  const count = await write.build.count({ where: { id: buildId ?? '', removedAt: null } })
  if (count === 0) throw invalid('buildId', 'There is no such build, or it was taken away. Choose one from the list of builds.')
}

async function checkReferences(write: Write, kind: RecordKind, draft: Draft, buildId: string | null): Promise<void> {
  for (const [name, field] of Object.entries(kind.fields)) {
    for (const id of referredIds(field.entry, draft.values[name])) {
      const found = await findReferred(write, kindsReferredTo(field.entry), id)
      const isNew = draft.before?.[name] !== id
      const what = 'kind' in field.entry ? field.entry.kind : 'record'
      if (!found || (found.row.removedAt && isNew)) throw invalid(name, `${field.label}: there is no such ${what}. Choose one from the list.`)
      if (found.kind.isOfBuild && buildOf(found.row) !== buildId) throw invalid(name, `${field.label}: that ${what} belongs to another build.`)
    }
  }
}

/** The record with this id among several kinds. */
export async function findReferred(client: Reads | Write, kinds: readonly RecordKind[], id: string): Promise<{ kind: RecordKind; row: Row } | null> {
  for (const kind of kinds) {
    const row = await delegate(client, kind.model).findFirst({ where: { id } })
    if (row) return { kind, row }
  }
  return null
}

function referredIds(entry: EntryKind, value: unknown): string[] {
  if (entry.as === 'reference') return typeof value === 'string' ? [value] : []
  return entry.as === 'references' && Array.isArray(value) ? value.map(String) : []
}
