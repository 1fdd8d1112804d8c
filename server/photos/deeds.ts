import type { FastifyRequest } from 'fastify'
import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { addPhotos, changeCaption, getSubject, setPhotoRemoved, type PhotoOfRow, type Subject } from '../shared/photos/rows.ts'
import { limitsOf, takePictures } from '../shared/photos/taking.ts'
import { invalid } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import type { Shell } from '../shared/shell.ts'
import type { Write } from '../shared/database/database.ts'
import { getOwnPhoto, refuseOthers } from './getPhoto.ts'

export const LONGEST_CAPTION = 200
export const captionField = z.string().trim().max(LONGEST_CAPTION, `Caption is at most ${LONGEST_CAPTION} characters long.`)

interface Sent {
  readonly subjectKind: string
  readonly subjectId: string
  readonly caption: string
}

/** Takes the pictures of a form, writes them and attaches them to their record. */
export async function addSentPhotos(
  request: FastifyRequest, shell: Shell, { subjectKind, subjectId, caption }: Sent, answerOf: (subject: Subject, ids: string[], write: Write) => Promise<Answer>,
): Promise<Answer> {
  const { role } = viewerOn(request)
  refuseOthers(request, await getSubject(shell.database.reads, role, subjectKind, subjectId))
  const pictures = await takePictures(request, shell)
  if (pictures.length === 0) throw invalid('files', 'Choose at least one picture.')
  const asked = { ...askedOf(request), body: { body: request.body, hashes: pictures.map(({ hash }) => hash) } }
  return answerOnce(shell.database, asked, async (write) => {
    const subject = await getSubject(write, role, subjectKind, subjectId)
    const ids = await addPhotos(write, subject, pictures, { caption, limits: limitsOf(shell), actor: actorOf(request, shell) })
    return answerOf(subject, ids, write)
  })
}

export type PhotoChange = { readonly isRemoved: boolean } | { readonly caption: string }

/** Takes a picture away or back, or gives it another caption. */
export function changePhoto(
  request: FastifyRequest, shell: Shell, id: string, change: PhotoChange, answerOf: (subject: Subject, photo: PhotoOfRow) => Answer,
): Promise<Answer> {
  return answerOnce(shell.database, askedOf(request), async (write) => {
    const { photo, subject } = await getOwnPhoto(write, request, id)
    const actor = actorOf(request, shell)
    if ('caption' in change) await changeCaption(write, photo, change.caption, actor)
    else await setPhotoRemoved(write, photo, change.isRemoved, actor)
    return answerOf(subject, (await getOwnPhoto(write, request, id)).photo)
  })
}
