import { audit, type Actor } from '../audit.ts'
import type { Reads, Write } from '../database/database.ts'
import type { Row } from '../database/delegate.ts'
import { notFound, Problem } from '../problems.ts'
import { isId } from '../records/field.ts'
import { listKinds, type RecordKind } from '../records/kind.ts'
import { findRecord, getRecord } from '../records/table.ts'
import { BENCH } from '../roles.ts'
import type { Role } from '../../../web/shared/viewer.ts'

/** A record that pictures are attached to. */
export interface Subject {
  readonly kind: RecordKind
  readonly row: Row
  readonly buildId: string
}

export interface StoredPicture {
  readonly hash: string
  readonly bytes: number
  readonly width: number
  readonly height: number
}

export interface PhotoLimits {
  readonly buildBytes: number
  readonly storeBytes: number
}

export type PhotoOfRow = NonNullable<Awaited<ReturnType<typeof findPhoto>>>

const SELECT = {
  id: true, createdAt: true, removedAt: true, buildId: true, subjectKind: true, subjectId: true,
  hash: true, bytes: true, width: true, height: true, caption: true, moment: true, sentAs: true, personId: true,
} as const

/** Whoever works on the vehicle takes pictures, and whoever may change the record. */
export const mayAddPhotos = (kind: RecordKind, role: Role): boolean => BENCH.includes(role) || kind.changedBy.includes(role)

export const toSubject = (kind: RecordKind, row: Row): Subject => ({ kind, row, buildId: String(kind.name === 'build' ? row.id : row.buildId) })

/** The record that a picture belongs to, as far as this role may see it. Throws a 404. */
export async function getSubject(client: Reads | Write, role: Role, kindName: string, id: string): Promise<Subject> {
  const kind = listKinds().find(({ name, hasPhotos }) => name === kindName && hasPhotos === true)
  if (!kind || !isId(id) || !kind.seenBy.includes(role)) throw notFound('record with photos')
  const row = await getRecord(client, kind, id)
  return toSubject(kind, row)
}

export function findPhoto(client: Reads | Write, id: string) {
  return client.photo.findUnique({ where: { id }, select: SELECT })
}

export function listPhotos(client: Reads | Write, where: { buildId: string } | { subjectKind: string, subjectId: string }): Promise<PhotoOfRow[]> {
  return client.photo.findMany({ where: { ...where, removedAt: null }, orderBy: [{ createdAt: 'asc' }, { id: 'asc' }], select: SELECT })
}

/** Every picture that the records name, taken away or not. */
export const listStored = (reads: Reads): Promise<{ hash: string, bytes: number }[]> => reads.photo.findMany({ distinct: ['hash'], select: { hash: true, bytes: true } })

interface Asked {
  readonly build?: string | undefined
  readonly subjectKind?: string | undefined
  readonly subjectId?: string | undefined
  readonly cursor?: string | undefined
  readonly limit: number
}

/** One page of the photos that a role may see, in the order they were added, from after the photo `cursor`. */
export async function pageOfPhotos(reads: Reads, role: Role, { build, subjectKind, subjectId, cursor, limit }: Asked): Promise<{ photos: PhotoOfRow[], next: string | null }> {
  const seen = listKinds().filter((kind) => kind.hasPhotos === true && kind.seenBy.includes(role)).map(({ name }) => name)
  const found = await reads.photo.findMany({
    where: {
      removedAt: null, subjectKind: { in: subjectKind === undefined ? seen : seen.filter((name) => name === subjectKind) },
      ...(build === undefined ? {} : { buildId: build }), ...(subjectId === undefined ? {} : { subjectId }),
    },
    orderBy: [{ id: 'asc' }], take: limit + 1, select: SELECT, ...(cursor === undefined ? {} : { cursor: { id: cursor }, skip: 1 }),
  })
  const photos = found.slice(0, limit)
  return { photos, next: found.length > limit ? (photos.at(-1)?.id ?? null) : null }
}

/** When a picture was taken, seen from the work; empty where nobody said. */
export const MOMENTS = ['', 'before', 'during', 'after'] as const

export type Moment = typeof MOMENTS[number]

/** The pictures that arrived under these names of one sender, taken away since or not. */
export function listArrived(client: Reads | Write, personId: string, names: readonly string[]): Promise<PhotoOfRow[]> {
  return client.photo.findMany({ where: { personId, sentAs: { in: [...names] } }, orderBy: [{ id: 'asc' }], select: SELECT })
}

/** The picture that arrived under this name, whoever sent it. */
export const findSentAs = (client: Reads | Write, sentAs: string) => client.photo.findUnique({ where: { sentAs }, select: SELECT })

interface Adding {
  readonly caption: string
  readonly limits: PhotoLimits
  readonly actor: Actor
  /** Left out, what is usual for such a record. */
  readonly moment?: Moment | undefined
  /** The sender's own name for the one picture sent. */
  readonly sentAs?: string | undefined
}

/** Attaches pictures that lie in the store already; one that the record has is not attached again. Returns the ids of all. */
export async function addPhotos(
  write: Write, subject: Subject, pictures: readonly StoredPicture[], { caption, limits, actor, moment, sentAs }: Adding,
): Promise<string[]> {
  const { kind, row, buildId } = subject
  const ids: string[] = []
  if (row.removedAt) throw notFound(kind.name)
  if (pictures.length > 0) await kind.checkPhotos?.(write, row)
  for (const { hash, bytes, width, height } of pictures) {
    const own = { subjectKind: kind.name, subjectId: row.id, hash }
    const there = await write.photo.findFirst({ where: { ...own, removedAt: null }, select: { id: true } })
    if (there) {
      ids.push(there.id)
      continue
    }
    await refuseBeyond(write, buildId, bytes, limits)
    const made = await write.photo.create({ data: { ...own, buildId, bytes, width, height, caption, moment: moment ?? kind.photoMoment ?? '', sentAs: sentAs ?? null, createdAt: actor.now, personId: actor.personId ?? '' }, select: { id: true } })
    await tell(write, actor, subject, { before: null, after: caption || 'without a caption' })
    ids.push(made.id)
  }
  return ids
}

/** Takes a picture away, or back; its file stays. */
export async function setPhotoRemoved(write: Write, photo: PhotoOfRow, isRemoved: boolean, actor: Actor): Promise<void> {
  if (Boolean(photo.removedAt) === isRemoved) return
  const subject = await subjectOf(write, photo)
  await write.photo.update({ where: { id: photo.id }, data: { removedAt: isRemoved ? actor.now : null } })
  const words = photo.caption || 'without a caption'
  await tell(write, actor, subject, isRemoved ? { before: words, after: null } : { before: null, after: words })
}

/** Gives a picture another caption, or says when it was taken. */
export async function changeCaption(write: Write, photo: PhotoOfRow, { caption, moment = photo.moment }: { caption: string, moment?: string | undefined }, actor: Actor): Promise<void> {
  if (photo.caption === caption && photo.moment === moment) return
  const subject = await subjectOf(write, photo)
  await write.photo.update({ where: { id: photo.id }, data: { caption, moment } })
  await tell(write, actor, subject, { before: inWords(photo), after: inWords({ caption, moment }) })
}

const inWords = ({ caption, moment }: { caption: string, moment: string }): string => [caption, moment].filter((word) => word !== '').join(', ') || 'without a caption'

async function subjectOf(write: Write, photo: PhotoOfRow): Promise<Subject> {
  const kind = listKinds().find(({ name }) => name === photo.subjectKind)
  const row = kind ? await findRecord(write, kind, photo.subjectId) : null
  if (!kind || !row) throw notFound('record with photos')
  await kind.checkPhotos?.(write, row)
  return toSubject(kind, row)
}

function tell(write: Write, actor: Actor, { kind, row }: Subject, change: { before: string | null, after: string | null }): Promise<void> {
  return audit(write, actor, { action: 'changed', recordKind: kind.name, recordId: row.id, changes: [{ field: 'Photo', ...change }] })
}

async function refuseBeyond(write: Write, buildId: string, bytes: number, { buildBytes, storeBytes }: PhotoLimits): Promise<void> {
  const sumOf = async (where: { buildId?: string }): Promise<number> => (await write.photo.aggregate({ where, _sum: { bytes: true } }))._sum.bytes ?? 0
  if (await sumOf({ buildId }) + bytes > buildBytes) {
    throw new Problem(413, 'No room for more photos of this build', `It may hold ${inMb(buildBytes)} MB of pictures. Whoever runs the server can raise PHOTOS_BUILD_MB.`)
  }
  if (await sumOf({}) + bytes > storeBytes) {
    throw new Problem(413, 'No room for more photos', `The store may hold ${inMb(storeBytes)} MB of pictures. Whoever runs the server can raise PHOTOS_MB.`)
  }
}

const inMb = (bytes: number): string => String(bytes / 1_000_000)
