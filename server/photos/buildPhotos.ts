import type { BuildPhotosData } from '../../web/photos/buildPhotos.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { listPhotos, type PhotoOfRow } from '../shared/photos/rows.ts'
import { photosOf, shownOf } from '../shared/photos/shown.ts'
import { nameOf } from '../shared/records/display.ts'
import { getKind } from '../shared/records/kind.ts'
import { findRecord, getRecord } from '../shared/records/table.ts'

const MOST_ON_A_PAGE = 80

/** The pictures of a build, record by record, those of the build itself first; page by page from after the photo `after`. */
export async function buildPhotosData(reads: Reads, buildId: string, viewer: Viewer, after?: string): Promise<BuildPhotosData> {
  const build = getKind('build')
  const row = await getRecord(reads, build, buildId)
  const { timeZone } = await shopOf(reads)
  const own = await photosOf(reads, build, row, viewer, `/builds/${buildId}/photos`)
  const ownIds = new Set(own.photos.map(({ id }) => id))
  const all = (await listPhotos(reads, { buildId })).filter((photo) => !ownIds.has(photo.id) && getKind(photo.subjectKind).seenBy.includes(viewer.role))
  const first = all.findIndex(({ id }) => id === after) + 1
  const others = all.slice(first, first + MOST_ON_A_PAGE)
  const last = others.at(-1)
  const ids = [...new Set(others.map(({ subjectId }) => subjectId))]
  const records = await Promise.all(ids.map((id) => groupOf(reads, others.filter(({ subjectId }) => subjectId === id), timeZone)))
  return {
    trail: [{ name: nameOf(build, row), href: `/builds/${buildId}` }, { name: 'Photos' }],
    name: nameOf(build, row), count: all.length + own.photos.length, own: { ...own, earlier: null },
    more: last && first + others.length < all.length ? { count: all.length - first - others.length, href: `/builds/${buildId}/photos?after=${last.id}` } : null,
    records: records.toSorted((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true })),
  }
}

async function groupOf(reads: Reads, photos: readonly PhotoOfRow[], timeZone: string): Promise<BuildPhotosData['records'][number]> {
  const [first] = photos
  const kind = getKind(first?.subjectKind ?? '')
  const row = await findRecord(reads, kind, first?.subjectId ?? '')
  const name = row ? nameOf(kind, row) : kind.name
  return { name, kindName: kind.name, href: `/${kind.path}/${first?.subjectId ?? ''}`, photos: photos.map((photo) => shownOf(photo, name, timeZone)) }
}
