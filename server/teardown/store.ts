import type { Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { invalid } from '../shared/problems.ts'
import { getKind, label } from '../shared/records/kind.ts'
import { createRecord } from '../shared/records/table.ts'

export const PLACE_UNSAID = 'place not noted'

export interface TeardownRecord {
  readonly id: string
  readonly factoryPartId: string
  readonly kind: string
  readonly at: Date
  readonly bin: { readonly number: number } | null
}

export interface TeardownBin {
  readonly id: string
  readonly number: number
  readonly place: string
  readonly parts: readonly { readonly number: number }[]
}

export interface Records {
  /** The newest first. */
  readonly removals: readonly TeardownRecord[]
  /** Those last used first, the others by number. */
  readonly bins: readonly TeardownBin[]
  readonly newBin: number
  /** Factory parts that a picture shows. */
  readonly shownIds: ReadonlySet<string>
  /** Factory parts that an alteration tells of. */
  readonly alteredIds: ReadonlySet<string>
}

/** What has been put down in the teardown of a build, in a constant number of queries. */
export async function loadRecords(reads: Reads, buildId: string): Promise<Records> {
  const standing = { buildId, removedAt: null }
  const [removals, bins, last, photos, alterations] = await Promise.all([
    reads.removal.findMany({
      where: { ...standing, kind: { not: 'went back' } }, orderBy: [{ at: 'desc' }, { id: 'desc' }],
      select: { id: true, factoryPartId: true, kind: true, at: true, binId: true, bin: { select: { number: true } } },
    }),
    reads.bin.findMany({ where: standing, orderBy: { number: 'asc' }, select: { id: true, number: true, place: true, factoryParts: { where: { removedAt: null }, select: { number: true } } } }),
    reads.bin.aggregate({ where: { buildId }, _max: { number: true } }),
    reads.photo.findMany({ where: { ...standing, subjectKind: { in: ['factory part', 'removal'] } }, distinct: ['subjectId'], select: { subjectId: true } }),
    reads.alteration.findMany({ where: { ...standing, factoryPartId: { not: null } }, select: { factoryPartId: true } }),
  ])
  const used = [...new Set(removals.flatMap(({ binId }) => binId ?? []))]
  const rank = (id: string): number => (used.indexOf(id) + 1) || used.length + 1
  const partOf = new Map(removals.map(({ id, factoryPartId }) => [id, factoryPartId]))
  return {
    removals: removals.map(({ binId: _, ...removal }) => removal),
    bins: bins.map(({ factoryParts, ...bin }) => ({ ...bin, parts: factoryParts })).toSorted((a, b) => rank(a.id) - rank(b.id) || a.number - b.number),
    newBin: (last._max.number ?? 0) + 1,
    shownIds: new Set(photos.map(({ subjectId }) => partOf.get(subjectId) ?? subjectId)),
    alteredIds: new Set(alterations.flatMap(({ factoryPartId }) => factoryPartId ?? [])),
  }
}

/** The factory part of a build with this number. Throws beside the field where there is none. */
export async function getPartNumbered(write: Write, buildId: string, number: string, field: string): Promise<string> {
  const part = /^\d{1,5}$/.test(number) ? await write.factoryPart.findUnique({ where: { buildId_number: { buildId, number: Number(number) } }, select: { id: true, removedAt: true } }) : null
  if (!part || part.removedAt) throw invalid(field, 'Choose a factory part from the list.')
  return part.id
}

/** The bin of a build with this number, made on the spot where there is none yet. */
export async function findOrMakeBin(write: Write, buildId: string, number: number, place: string, actor: Actor): Promise<string> {
  const there = await write.bin.findUnique({ where: { buildId_number: { buildId, number } }, select: { id: true, removedAt: true } })
  if (there?.removedAt) throw invalid('newBin', `Bin ${label('A', number)} was taken away. Choose another number, or take it back under Bins.`)
  if (there) return there.id
  const made = await createRecord(write, getKind('bin'), buildId, { values: { number, place: place === '' ? PLACE_UNSAID : place, note: '' }, entered: {} }, actor)
  return made.id
}
