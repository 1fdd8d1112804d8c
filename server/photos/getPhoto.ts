import type { FastifyRequest } from 'fastify'
import { viewerOn } from '../shared/access.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { findPhoto, getSubject, mayAddPhotos, type PhotoOfRow, type Subject } from '../shared/photos/rows.ts'
import { forbidden, notFound } from '../shared/problems.ts'

/** A picture that was not removed, of a record this role may see. Throws a 404. */
export async function getPhoto(client: Reads | Write, request: FastifyRequest, id: string): Promise<PhotoOfRow> {
  const photo = await findPhoto(client, id)
  if (!photo || photo.removedAt) throw notFound('photo')
  await getSubject(client, viewerOn(request).role, photo.subjectKind, photo.subjectId)
  return photo
}

/** The same, removed or not, for those who may change it. */
export async function getOwnPhoto(client: Reads | Write, request: FastifyRequest, id: string): Promise<{ photo: PhotoOfRow, subject: Subject }> {
  const photo = await findPhoto(client, id)
  if (!photo) throw notFound('photo')
  const subject = await getSubject(client, viewerOn(request).role, photo.subjectKind, photo.subjectId)
  refuseOthers(request, subject)
  return { photo, subject }
}

export function refuseOthers(request: FastifyRequest, { kind }: Subject): void {
  const { role } = viewerOn(request)
  if (!mayAddPhotos(kind, role)) throw forbidden(`Photos of this are for those who work on it. Ask the manager if you need it.`)
}
