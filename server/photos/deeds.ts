import type { FastifyRequest } from 'fastify'
import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { addPhotos, changeCaption, findSentAs, getSubject, MOMENTS, setPhotoRemoved, type Moment, type PhotoOfRow, type StoredPicture, type Subject } from '../shared/photos/rows.ts'
import { limitsOf, passOver, takeReadable, wordsOf, type RefusedFile } from '../shared/photos/taking.ts'
import { FieldProblems, invalid, Problem } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import type { Shell } from '../shared/shell.ts'
import type { Write } from '../shared/database/database.ts'
import { getOwnPhoto, refuseOthers } from './getPhoto.ts'

export const LONGEST_CAPTION = 200
export const captionField = z.string().trim().max(LONGEST_CAPTION, `Caption is at most ${LONGEST_CAPTION} characters long.`)

export const momentField = z.enum(MOMENTS, 'A photo was taken before, during or after the work; leave it empty where nobody knows.')
export const sentAsField = z.uuid('The name of a sent picture is an UUID, made by its sender.')

interface Sent {
  readonly subjectKind: string
  readonly subjectId: string
  readonly caption: string
  readonly moment?: Moment | undefined
  readonly sentAs?: string | undefined
}

export interface AddedPhotos {
  readonly answer: Answer
  /** What could not be kept of the row; the rest was. */
  readonly refused: readonly RefusedFile[]
}

/** Takes the pictures of a form, writes them and attaches them to their record; one that arrived under its name before is not taken again. */
export async function addSentPhotos(
  request: FastifyRequest, shell: Shell, sent: Sent, answerOf: (subject: Subject, ids: string[], refused: readonly RefusedFile[], write: Write) => Promise<Answer>,
): Promise<AddedPhotos> {
  const { role } = viewerOn(request)
  const { subjectKind, subjectId, sentAs } = sent
  refuseOthers(request, await getSubject(shell.database.reads, role, subjectKind, subjectId))
  const arrived = sentAs === undefined ? null : await findSentAs(shell.database.reads, sentAs)
  const { stored, refused } = arrived ? await alreadyThere(request) : await takeReadable(request, shell)
  if (!arrived) refuseNothing(stored, refused)
  if (sentAs !== undefined && stored.length > 1) throw invalid('sentAs', 'A name stands for one picture. Send them one by one.')
  const asked = { ...askedOf(request), body: { body: request.body, hashes: stored.map(({ hash }) => hash) } }
  const answer = await answerOnce(shell.database, arrived ? { ...asked, key: null } : asked, async (write) => {
    const subject = await getSubject(write, role, subjectKind, subjectId)
    const there = sentAs === undefined ? null : await findSentAs(write, sentAs)
    if (there) refuseStranger(there, subject, viewerOn(request).personId)
    const ids = there ? [there.id] : await addPhotos(write, subject, stored, { ...sent, limits: limitsOf(shell), actor: actorOf(request, shell) })
    return answerOf(subject, ids, refused, write)
  })
  return { answer, refused }
}

async function alreadyThere(request: FastifyRequest): Promise<{ stored: StoredPicture[], refused: RefusedFile[] }> {
  await passOver(request)
  return { stored: [], refused: [] }
}

function refuseNothing(stored: readonly StoredPicture[], refused: readonly RefusedFile[]): void {
  const [first, ...others] = refused
  if (stored.length > 0) return
  if (!first) throw invalid('files', 'Choose at least one picture.')
  throw others.length === 0 ? first.problem : new FieldProblems(refused.map((one) => ({ field: 'files', message: wordsOf(one) })))
}

function refuseStranger(there: PhotoOfRow, { kind, row }: Subject, personId: string): void {
  if (there.personId === personId && there.subjectKind === kind.name && there.subjectId === row.id) return
  throw new Problem(409, 'Name used before', 'Another picture was sent under this name. Give each picture a name of its own.')
}

export type PhotoChange = { readonly isRemoved: boolean } | { readonly caption: string, readonly moment?: Moment | undefined }

/** Takes a picture away or back, or gives it another caption. */
export function changePhoto(
  request: FastifyRequest, shell: Shell, id: string, change: PhotoChange, answerOf: (subject: Subject, photo: PhotoOfRow) => Answer,
): Promise<Answer> {
  return answerOnce(shell.database, askedOf(request), async (write) => {
    const { photo, subject } = await getOwnPhoto(write, request, id)
    const actor = actorOf(request, shell)
    if ('caption' in change) await changeCaption(write, photo, change, actor)
    else await setPhotoRemoved(write, photo, change.isRemoved, actor)
    return answerOf(subject, (await getOwnPhoto(write, request, id)).photo)
  })
}
