import type { Mark, MarkKind } from '../calc/restoration/sheetProgress.ts'
import { audit, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { notFound, Problem } from '../shared/problems.ts'
import { hashOfContent, sheetNumber, type FrozenContent, type FrozenPicture } from './content.ts'

const SELECT = {
  id: true, version: true, createdAt: true, buildId: true, number: true, title: true, basis: true, content: true, contentHash: true,
  frozenById: true, startedOn: true, closedOn: true, outcome: true, note: true, build: { select: { number: true, title: true } },
} as const

/** A frozen sheet with its content read. */
export interface StoredSheet {
  readonly id: string
  readonly version: number
  readonly createdAt: Date
  readonly buildId: string
  readonly number: string
  readonly title: string
  readonly content: FrozenContent
  readonly contentHash: string
  readonly closedOn: string | null
  readonly outcome: string
  readonly note: string
  readonly buildName: string
}

type Row = Awaited<ReturnType<typeof findRow>>
const findRow = (client: Reads | Write, id: string) => client.restorationSheet.findFirst({ where: { id, removedAt: null, build: { removedAt: null } }, select: SELECT })

/** Throws a 404 where there is no such sheet, a 500 where its content is not what was frozen. */
export async function getSheet(client: Reads | Write, id: string): Promise<StoredSheet> {
  const row = await findRow(client, id)
  if (!row) throw notFound('sheet')
  return toSheet(row)
}

export async function findSheet(client: Reads, id: string): Promise<StoredSheet | null> {
  const row = await findRow(client, id)
  return row && toSheet(row)
}

function toSheet({ content, contentHash, build, number, ...row }: NonNullable<Row>): StoredSheet {
  if (hashOfContent(content) !== contentHash) throw new Problem(500, 'This sheet is damaged', 'Its content is not what was frozen. Do not work by it; restore a backup or freeze a new one.')
  return {
    id: row.id, version: row.version, createdAt: row.createdAt, buildId: row.buildId, title: row.title, contentHash, closedOn: row.closedOn, outcome: row.outcome, note: row.note,
    number: sheetNumber(build.number, number), content: JSON.parse(content) as FrozenContent, buildName: build.title,
  }
}

export interface SheetFacts {
  readonly id: string
  readonly number: string
  readonly title: string
  readonly createdAt: Date
  readonly contentHash: string
  readonly closedOn: string | null
  readonly outcome: string
}

/** The sheets of a build, newest first. */
export async function listSheets(client: Reads | Write, buildId: string): Promise<SheetFacts[]> {
  const rows = await client.restorationSheet.findMany({
    where: { buildId, removedAt: null }, orderBy: { number: 'desc' },
    select: { id: true, number: true, title: true, createdAt: true, contentHash: true, closedOn: true, outcome: true, build: { select: { number: true } } },
  })
  return rows.map(({ build, number, ...row }) => ({ ...row, number: sheetNumber(build.number, number) }))
}

export async function nextNumber(write: Write, buildId: string): Promise<number> {
  const last = await write.restorationSheet.findFirst({ where: { buildId }, orderBy: { number: 'desc' }, select: { number: true } })
  return (last?.number ?? 0) + 1
}

export async function createSheet(write: Write, buildId: string, number: number, content: FrozenContent, actor: Actor): Promise<string> {
  const text = JSON.stringify(content)
  const { id } = await write.restorationSheet.create({
    data: {
      buildId, number, title: content.sheet.scope.slice(0, 500), basis: content.asked.basis, content: text, contentHash: hashOfContent(text),
      frozenById: actor.personId ?? '', createdAt: actor.now,
    },
    select: { id: true },
  })
  const named = content.sheet.titleBlock.number
  await audit(write, actor, { action: `froze the return-to-stock sheet ${named}`, recordKind: 'build', recordId: buildId })
  await audit(write, actor, { action: 'created', recordKind: 'restoration sheet', recordId: id })
  return id
}

const MARK = { id: true, createdAt: true, step: true, kind: true, at: true, personId: true, torque: true, text: true, signedName: true, signature: true } as const

export async function listMarks(client: Reads | Write, sheetId: string): Promise<Mark[]> {
  const rows = await client.sheetMark.findMany({ where: { sheetId }, orderBy: [{ at: 'asc' }, { createdAt: 'asc' }, { id: 'asc' }], select: MARK })
  const people = await client.person.findMany({ where: { id: { in: [...new Set(rows.map(({ personId }) => personId))] } }, select: { id: true, name: true } })
  const names = new Map(people.map(({ id, name }) => [id, name]))
  return rows.map(({ at, createdAt, kind, personId, torque, ...row }) =>
    ({ ...row, kind: kind as MarkKind, atMs: at.getTime(), cameMs: createdAt.getTime(), who: names.get(personId) ?? 'somebody', torqueMnm: torque }))
}

/** When somebody last put something down on each step, ms. */
export async function latestOwn(write: Write, sheetId: string, personId: string): Promise<Map<string, number>> {
  const rows = await write.sheetMark.findMany({ where: { sheetId, personId }, orderBy: { at: 'asc' }, select: { step: true, at: true } })
  return new Map(rows.map(({ step, at }) => [step, at.getTime()]))
}

export type NewMark = Omit<Mark, 'who' | 'cameMs'>

/** Adds a mark unless it is there already; tells whether it was new. Throws a 409 where another mark has its id. */
export async function addMark(write: Write, sheetId: string, mark: NewMark, actor: Actor): Promise<boolean> {
  const { atMs, torqueMnm, ...row } = mark
  const there = await write.sheetMark.findUnique({ where: { id: mark.id }, select: { sheetId: true, step: true, kind: true } })
  if (there) {
    if (there.sheetId === sheetId && there.step === mark.step && there.kind === mark.kind) return false
    throw new Problem(409, 'Another mark has this id', 'Give each mark an id of its own; nothing of this request was written.')
  }
  await write.sheetMark.create({ data: { ...row, sheetId, at: new Date(atMs), torque: torqueMnm, personId: actor.personId ?? '', createdAt: actor.now } })
  return true
}

export async function noteBegun(write: Write, sheetId: string, today: string): Promise<void> {
  await write.restorationSheet.updateMany({ where: { id: sheetId, startedOn: null }, data: { startedOn: today } })
}

export async function storeClosing(write: Write, { id, version }: Pick<StoredSheet, 'id' | 'version'>, closing: { closedOn: string, outcome: string, note: string }): Promise<number> {
  const { count } = await write.restorationSheet.updateMany({ where: { id, version, closedOn: null }, data: { ...closing, version: { increment: 1 } } })
  return count
}

// Before first: that is how it has to look again.
const MOMENTS = ['before', 'during', 'after', '']
const MOST_OF_ONE = 2

/** Pictures of what a build's sheets are about, by the id of the factory part or alteration; of a removal they are its part's. */
export async function listPictures(client: Reads | Write, buildId: string): Promise<Record<string, FrozenPicture[]>> {
  const [photos, removals] = await Promise.all([
    client.photo.findMany({
      where: { buildId, removedAt: null, subjectKind: { in: ['factory part', 'removal', 'alteration'] } }, orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
      select: { subjectKind: true, subjectId: true, hash: true, caption: true, moment: true, width: true, height: true },
    }),
    client.removal.findMany({ where: { buildId, removedAt: null }, select: { id: true, factoryPartId: true } }),
  ])
  const partOf = new Map(removals.map(({ id, factoryPartId }) => [id, factoryPartId]))
  const pictures: Record<string, FrozenPicture[]> = {}
  for (const { subjectKind, subjectId, hash, caption, width, height } of photos.toSorted((a, b) => MOMENTS.indexOf(a.moment) - MOMENTS.indexOf(b.moment))) {
    const id = subjectKind === 'removal' ? partOf.get(subjectId) : subjectId
    if (id === undefined) continue
    const own = pictures[id] ??= []
    if (own.length < MOST_OF_ONE && !own.some((one) => one.hash === hash)) own.push({ hash, says: caption, width, height })
  }
  return pictures
}

/** Of these pictures, those that nobody has taken away since. */
export async function listStanding(client: Reads, buildId: string, hashes: readonly string[]): Promise<ReadonlySet<string>> {
  const rows = await client.photo.findMany({ where: { buildId, removedAt: null, hash: { in: [...hashes] } }, select: { hash: true } })
  return new Set(rows.map(({ hash }) => hash))
}
