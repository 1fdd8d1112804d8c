import type { FastifyRequest } from 'fastify'
import { FieldProblems, Problem } from '../problems.ts'
import type { Shell } from '../shell.ts'
import { isFull, openPhotoFiles, type PhotoFiles } from './files.ts'
import { toPicture, type Picture } from './picture.ts'
import type { PhotoLimits, StoredPicture } from './rows.ts'
import { filesOf, tooLarge } from './upload.ts'

export const photoFilesOf = ({ photoFiles, config }: Shell): PhotoFiles => photoFiles ?? openPhotoFiles(config.photosDir)

export const limitsOf = ({ config }: Shell): PhotoLimits => ({ buildBytes: config.photosBuildMb * 1_000_000, storeBytes: config.photosMb * 1_000_000 })

/** Reads all pictures of a form and then writes them: one that cannot be read refuses the whole form, and nothing is stored. */
export async function takePictures(request: FastifyRequest, shell: Shell): Promise<StoredPicture[]> {
  const { stored, refused } = await takeReadable(request, shell, { isAllOrNothing: true })
  if (refused[0]) throw refused[0].problem
  return stored
}

export interface RefusedFile {
  readonly name: string
  readonly problem: Problem
}

interface Taken {
  readonly stored: StoredPicture[]
  readonly refused: readonly RefusedFile[]
}

/** Reads the pictures of a form one by one and writes those that can be read, so that one bad file costs none of its neighbors. */
export async function takeReadable(request: FastifyRequest, shell: Shell, { isAllOrNothing = false } = {}): Promise<Taken> {
  const pictures: Picture[] = []
  const refused: RefusedFile[] = []
  for await (const { name, data, isTooLarge } of filesOf(request)) {
    try {
      if (isTooLarge) throw tooLarge(name)
      pictures.push(await toPicture(name, data))
    } catch (problem) {
      if (!(problem instanceof Problem)) throw problem
      refused.push({ name, problem })
    }
  }
  const isKept = refused.length === 0 || !isAllOrNothing
  return { refused, stored: isKept ? await storePictures(photoFilesOf(shell), pictures) : [] }
}

/** What was wrong with a file, in one sentence. */
export const wordsOf = ({ problem }: RefusedFile): string => (problem instanceof FieldProblems ? problem.fields.map(({ message }) => message).join(' ') : problem.detail)

/** Reads to the end what need not be kept, so that the answer finds its way. */
export async function passOver(request: FastifyRequest): Promise<void> {
  for await (const { name } of filesOf(request)) if (request.raw.destroyed) throw new Problem(400, 'Not understood', `${name} broke off on the way.`)
}

export async function storePictures(files: PhotoFiles, pictures: readonly Picture[]): Promise<StoredPicture[]> {
  const stored: StoredPicture[] = []
  try {
    for (const { data, small, width, height } of pictures) {
      const hash = await files.store(data)
      await files.storeSmall(hash, small)
      stored.push({ hash, bytes: data.length, width, height })
    }
    return stored
  } catch (error) {
    if (isFull(error)) throw new Problem(507, 'The disk is full', 'The pictures were not saved. Tell whoever runs the server; what is saved already is safe.')
    throw error
  }
}
