import { randomUUID } from 'node:crypto'
import type { FastifyRequest } from 'fastify'
import type { PhotoFormData } from '../../web/photos/photoForm.tsx'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { MOMENTS } from '../shared/photos/rows.ts'
import { shownOf } from '../shared/photos/shown.ts'
import { notFound } from '../shared/problems.ts'
import { nameOf } from '../shared/records/display.ts'
import { getOwnPhoto } from './getPhoto.ts'

interface Asked {
  readonly back?: string | undefined
  readonly typed?: Readonly<Record<string, unknown>>
  readonly problems?: readonly FieldProblem[]
}

/** What can be changed about a photo: its caption, when it was taken, whether it stays. */
export async function photoForm(reads: Reads, request: FastifyRequest, { back, typed, problems = [] }: Asked): Promise<PhotoFormData> {
  const { id } = request.params as { id: string }
  const { photo, subject: { kind, row, buildId } } = await getOwnPhoto(reads, request, id)
  if (photo.removedAt) throw notFound('photo')
  const { timeZone } = await shopOf(reads)
  const of = nameOf(kind, row)
  const backHref = back ?? (kind.name === 'build' ? `/builds/${buildId}/photos` : `/${kind.path}/${row.id}`)
  const text = (name: 'caption' | 'moment'): string => String(typed?.[name] ?? photo[name])
  return {
    of, photo: shownOf(photo, of, timeZone), backHref, action: `/photos/${id}/captions`, key: String(typed?._key ?? randomUUID()),
    caption: text('caption'), moment: text('moment'), moments: MOMENTS.filter((moment) => moment !== ''), problems,
    removal: { action: `/photos/${id}/removal`, idempotencyKey: randomUUID(), values: [['back', backHref]] },
  }
}
