import type { BuildPhotosData } from '../../web/photos/buildPhotos.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { listPhotos, type PhotoOfRow } from '../shared/photos/rows.ts'
import { photosOf, shownOf } from '../shared/photos/shown.ts'
import { nameOf } from '../shared/records/display.ts'
import { getKind } from '../shared/records/kind.ts'
import { findRecord, getRecord } from '../shared/records/table.ts'

/** All pictures of a build, record by record, those of the build itself first. */
export async function buildPhotosData(reads: Reads, buildId: string, viewer: Viewer): Promise<BuildPhotosData> {
  const build = getKind('build')
  const row = await getRecord(reads, build, buildId)
  const { timeZone } = await shopOf(reads)
  const others = (await listPhotos(reads, { buildId })).filter((photo) => photo.subjectKind !== build.name && getKind(photo.subjectKind).seenBy.includes(viewer.role))
  const ids = [...new Set(others.map(({ subjectId }) => subjectId))]
  const records = await Promise.all(ids.map((id) => groupOf(reads, others.filter(({ subjectId }) => subjectId === id), timeZone)))
  return {
    trail: [{ name: nameOf(build, row), href: `/builds/${buildId}` }, { name: 'Photos' }],
    name: nameOf(build, row), count: others.length, own: await photosOf(reads, build, row, viewer, `/builds/${buildId}/photos`),
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
