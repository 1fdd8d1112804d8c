import { randomUUID } from 'node:crypto'
import type { PhotoShown, PhotosProps } from '../../../web/shared/photos.tsx'
import { writeDay } from '../../../web/shared/day.ts'
import type { Viewer } from '../../../web/shared/viewer.ts'
import { shopOf } from '../access.ts'
import type { Reads } from '../database/database.ts'
import type { Row } from '../database/delegate.ts'
import { nameOf } from '../records/display.ts'
import type { RecordKind } from '../records/kind.ts'
import { calendarDateIn, clockTimeIn } from '../shopTime.ts'
import { listPhotos, mayAddPhotos, type PhotoOfRow } from './rows.ts'

/** The photos of one record with the form that adds to them, for any page: show it as <Photos {...photos} />. */
export async function photosOf(reads: Reads, kind: RecordKind, row: Row, viewer: Viewer, backHref = `/${kind.path}/${row.id}`): Promise<PhotosProps> {
  const found = await listPhotos(reads, { subjectKind: kind.name, subjectId: row.id })
  const { timeZone } = await shopOf(reads)
  const mayAdd = mayAddPhotos(kind, viewer.role) && !row.removedAt
  const of = nameOf(kind, row)
  return {
    of, csrfToken: viewer.csrfToken,
    photos: found.map((photo) => ({ ...shownOf(photo, of, timeZone), ...(mayAdd ? { removal: removalOf(photo, backHref) } : {}) })),
    upload: mayAdd ? { key: randomUUID(), subjectKind: kind.name, subjectId: row.id, backHref } : null,
  }
}

/** A picture as pages show it. */
export function shownOf(photo: PhotoOfRow, of: string, timeZone: string): PhotoShown {
  const taken = `${writeDay(calendarDateIn(timeZone, photo.createdAt))} ${clockTimeIn(timeZone, photo.createdAt)}`
  return { id: photo.id, caption: photo.caption, says: photo.caption || `Photo of ${of}`, taken, width: photo.width, height: photo.height }
}

const removalOf = ({ id }: PhotoOfRow, backHref: string): PhotoShown['removal'] =>
  ({ action: `/photos/${id}/removal`, idempotencyKey: randomUUID(), values: [['back', backHref]] })
