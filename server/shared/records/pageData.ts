import { randomUUID } from 'node:crypto'
import type { ListPageData } from '../../../web/records/list.tsx'
import type { Fact, RecordPageData, Related } from '../../../web/records/record.tsx'
import { capital, withArticle } from '../../../web/shared/text.ts'
import type { Viewer } from '../../../web/shared/viewer.ts'
import { shopOf } from '../access.ts'
import type { Reads } from '../database/database.ts'
import { delegate, type Row } from '../database/delegate.ts'
import { nameOf, showField, titleOf, titlesFor, trailOf, type Titles } from './display.ts'
import type { Field } from './field.ts'
import { historyInWords } from './history.ts'
import { photosOf } from '../photos/shown.ts'
import { originOf } from './origin.ts'
import { getKind, kindsReferredTo, listKinds, numbered, type RecordKind } from './kind.ts'
import { seenFields } from './submission.ts'
import { buildOf, findRecord, listRecords } from './table.ts'
import { MANAGERS } from '../roles.ts'

interface ListScope {
  readonly build?: string | undefined
  readonly isRemoved: boolean
}

export async function listData(reads: Reads, kind: RecordKind, scope: ListScope, viewer: Viewer): Promise<ListPageData> {
  const rows = await listRecords(reads, kind, { isRemoved: scope.isRemoved, ...(scope.build ? { buildId: scope.build } : {}) })
  const titles = await titlesFor(reads, kind, rows)
  const listed = seenFields(kind, viewer.role).filter(([, field]) => field.isListed)
  const bearing = await kind.bearing?.of(reads, rows)
  const beside = kind.bearing && bearing && bearing.size > 0 ? [{ name: kind.bearing.label, of: (row: Row): string => bearing.get(row.id) ?? '' }] : []
  const inBuild = kind.isOfBuild && scope.build ? `build=${scope.build}` : ''
  const mayAdd = kind.changedBy.includes(viewer.role) && !kind.isSingle && (!kind.isOfBuild || inBuild !== '')
  const place = { buildId: scope.build } as unknown as Row
  return {
    place: kind.place as ListPageData['place'],
    trail: kind.isOfBuild ? (await trailOf(reads, kind, place)).slice(0, 1) : [],
    kindName: kind.name,
    plural: kind.plural,
    columns: [...listed.map(([, field]) => ({ name: field.label, isFigure: isFigure(field) })), ...beside.map(({ name }) => ({ name, isFigure: false }))],
    rows: rows.map((row) => ({
      href: `/${kind.path}/${row.id}`,
      number: numbered(kind, row),
      title: titleOf(kind, row, titles),
      cells: [...listed.map(([name, field]) => showField(name, field, row, viewer, titles)), ...beside.map(({ of }) => of(row))],
    })),
    addHref: mayAdd ? `/${kind.path}/new?${inBuild}` : null,
    begin: beginningFor(kind, null, viewer),
    otherHref: `/${kind.path}?${[inBuild, scope.isRemoved ? '' : 'removed=yes'].filter((part) => part !== '').join('&')}`,
    isRemoved: scope.isRemoved,
    neighbors: neighborsOf(kind, viewer),
    exchange: exchangeOf(kind, scope.build, viewer),
    firstStep: kind.firstStep,
  }
}

function beginningFor(kind: RecordKind, row: Row | null, { role }: Viewer): { href: string; name: string } | undefined {
  const begin = kind.begin?.(row)
  return begin?.roles.includes(role) ? { href: begin.href, name: begin.name } : undefined
}

const isFigure = (field: Field): boolean => ['quantity', 'money', 'whole'].includes(field.entry.as)

/** Where a list goes to a spreadsheet and comes from one. */
function exchangeOf(kind: RecordKind, build: string | undefined, viewer: Viewer): ListPageData['exchange'] {
  if (!kind.knownBy || !MANAGERS.includes(viewer.role) || (kind.isOfBuild && !build)) return null
  const inBuild = kind.isOfBuild && build ? { build } : {}
  return {
    exportHref: `/exports/${kind.path}${build && kind.isOfBuild ? `?build=${build}` : ''}`,
    importHref: `/imports?${new URLSearchParams({ kind: kind.path, ...inBuild }).toString()}`,
  }
}

/** The other kinds that stand in the same place, for the shop's own records. */
function neighborsOf(kind: RecordKind, viewer: Viewer): ListPageData['neighbors'] {
  if (kind.isOfBuild) return []
  return listKinds()
    .filter((other) => other.place === kind.place && other !== kind && !other.isOfBuild && other.seenBy.includes(viewer.role))
    .map((other) => ({ href: other.isSingle ? `/${other.path}/${other.model}` : `/${other.path}`, name: other.plural }))
}

export async function recordData(reads: Reads, kind: RecordKind, row: Row, viewer: Viewer, saved: string | null): Promise<RecordPageData> {
  const whole = (await findRecord(reads, kind, row.id)) ?? row
  const titles = await titlesFor(reads, kind, [whole])
  const { timeZone } = await shopOf(reads)
  const mayChange = kind.changedBy.includes(viewer.role)
  const isRemoved = Boolean(row.removedAt)
  return {
    place: kind.place as RecordPageData['place'],
    trail: await trailOf(reads, kind, row),
    kindName: capital(kind.name),
    number: numbered(kind, row),
    title: titleOf(kind, whole, titles),
    facts: [...seenFields(kind, viewer.role).map(([name, field]) => factOf(name, field, whole, viewer, titles)), ...(await bearingOn(reads, kind, whole)), ...(await originOf(reads, kind, whole))],
    photos: kind.hasPhotos ? await photosOf(reads, kind, row, viewer) : undefined,
    related: await relatedTo(reads, kind, row, viewer),
    changeHref: mayChange && !isRemoved ? `/${kind.path}/${row.id}/form` : null,
    begin: isRemoved ? undefined : beginningFor(kind, row, viewer),
    removal: mayChange && !kind.isSingle
      ? { action: `/${kind.path}/${row.id}/${isRemoved ? 'recovery' : 'removal'}`, key: randomUUID() } : null,
    isRemoved,
    warning: isRemoved ? '' : (await kind.warns?.(reads, row)) ?? '',
    saved: saved ? `${nameOf(kind, row)}, ${saved}` : null,
    nextHref: saved === 'created' ? `/${kind.path}/new?${kind.isOfBuild ? `build=${String(row.buildId)}` : ''}` : null,
    history: await historyInWords(reads, kind, row.id, viewer, timeZone, titles),
  }
}

async function bearingOn(reads: Reads, kind: RecordKind, row: Row): Promise<Fact[]> {
  const text = (await kind.bearing?.of(reads, [row]))?.get(row.id)
  return text === undefined || !kind.bearing ? [] : [{ label: kind.bearing.label, text }]
}

function factOf(name: string, field: Field, row: Row, viewer: Viewer, titles: Titles): Fact {
  const text = showField(name, field, row, viewer, titles)
  if (field.entry.as !== 'reference' || typeof row[name] !== 'string' || field.entry.orKinds) return { label: field.label, text }
  const other = getKind(field.entry.kind)
  return other.seenBy.includes(viewer.role) ? { label: field.label, text, href: `/${other.path}/${row[name]}` } : { label: field.label, text }
}

/** Records whose form refers to this one, as the fasteners of a factory part. */
async function relatedTo(reads: Reads, kind: RecordKind, row: Row, viewer: Viewer): Promise<Related[]> {
  const related: Related[] = []
  for (const other of listKinds()) {
    if (!other.seenBy.includes(viewer.role)) continue
    for (const [name, field] of seenFields(other, viewer.role)) {
      if (field.entry.as !== 'reference' || !kindsReferredTo(field.entry).includes(kind)) continue
      related.push(await relatedBy(reads, other, name, field, row, viewer))
    }
  }
  return related
}

const MOST_RELATED = 200

async function relatedBy(reads: Reads, other: RecordKind, name: string, field: Field, row: Row, viewer: Viewer): Promise<Related> {
  const rows = await delegate(reads, other.model).findMany({
    where: { [name]: row.id, removedAt: null }, orderBy: other.orderBy ?? [{ id: 'asc' }], take: MOST_RELATED,
  })
  const titles = await titlesFor(reads, other, rows)
  const listed = seenFields(other, viewer.role).filter(([own, each]) => each.isListed && own !== name)
  const bearing = await other.bearing?.of(reads, rows)
  const build = other.isOfBuild ? (buildOf(row) ?? (other.isOfBuild && name === 'buildId' ? row.id : null)) : null
  const address = new URLSearchParams({ ...(build ? { build } : {}), [name]: row.id }).toString()
  return {
    title: field.heading === '' ? capital(other.plural) : field.heading,
    rows: rows.map((each) => ({
      href: `/${other.path}/${each.id}`,
      name: other.titleBy ? titleOf(other, each, titles) : nameOf(other, each),
      more: [...listed.map(([own, one]) => inShort(own, one, each, viewer, titles)), bearing?.get(each.id) ?? ''].filter((text) => text !== '').join(' · '),
    })),
    addHref: other.changedBy.includes(viewer.role) && !other.isSingle && !row.removedAt && (!other.isOfBuild || build) ? `/${other.path}/new?${address}` : null,
    addName: `Add ${withArticle(other.name)}`,
  }
}

/** In a line of values a tick stands by its label, and is left out where it is not set. */
function inShort(name: string, field: Field, row: Row, viewer: Viewer, titles: Titles): string {
  if (field.entry.as === 'check') return row[name] === true ? field.label.toLowerCase() : ''
  return showField(name, field, row, viewer, titles)
}
