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
import { listPhotos, mayAddPhotos, toSubject, type PhotoOfRow } from './rows.ts'

// A row of 200 would make a page too heavy for a poor network.
const MOST_SHOWN = 60

/** The photos of one record with the form that adds to them, for any page: show it as <Photos {...photos} />. */
export async function photosOf(reads: Reads, kind: RecordKind, row: Row, viewer: Viewer, backHref = `/${kind.path}/${row.id}`): Promise<PhotosProps> {
  const found = await listPhotos(reads, { subjectKind: kind.name, subjectId: row.id })
  const { timeZone } = await shopOf(reads)
  const mayAdd = mayAddPhotos(kind, viewer.role) && !row.removedAt
  const of = nameOf(kind, row)
  const newest = found.slice(-MOST_SHOWN)
  return {
    of, csrfToken: viewer.csrfToken, personId: viewer.personId,
    photos: newest.map((photo) => ({ ...shownOf(photo, of, timeZone), ...(mayAdd ? { changeHref: `/photos/${photo.id}/form?${new URLSearchParams({ back: backHref }).toString()}` } : {}) })),
    earlier: found.length > newest.length ? { count: found.length - newest.length, href: `/builds/${toSubject(kind, row).buildId}/photos` } : null,
    upload: mayAdd ? { key: randomUUID(), subjectKind: kind.name, subjectId: row.id, backHref, moment: kind.photoMoment ?? '' } : null,
  }
}

/** A picture as pages show it. */
export function shownOf(photo: PhotoOfRow, of: string, timeZone: string): PhotoShown {
  const taken = `${writeDay(calendarDateIn(timeZone, photo.createdAt))} ${clockTimeIn(timeZone, photo.createdAt)}`
  return { id: photo.id, caption: photo.caption, moment: photo.moment, says: photo.caption || `Photo of ${of}`, taken, width: photo.width, height: photo.height }
}
