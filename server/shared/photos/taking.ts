import type { FastifyRequest } from 'fastify'
import { Problem } from '../problems.ts'
import type { Shell } from '../shell.ts'
import { isFull, openPhotoFiles, type PhotoFiles } from './files.ts'
import { toPicture, type Picture } from './picture.ts'
import type { PhotoLimits, StoredPicture } from './rows.ts'
import { filesOf } from './upload.ts'

export const photoFilesOf = ({ photoFiles, config }: Shell): PhotoFiles => photoFiles ?? openPhotoFiles(config.photosDir)

export const limitsOf = ({ config }: Shell): PhotoLimits => ({ buildBytes: config.photosBuildMb * 1_000_000, storeBytes: config.photosMb * 1_000_000 })

/** Reads all pictures of a form and then writes them: one that cannot be read refuses the whole form, and nothing is stored. */
export async function takePictures(request: FastifyRequest, shell: Shell): Promise<StoredPicture[]> {
  const pictures: Picture[] = []
  for await (const { name, data } of filesOf(request)) pictures.push(await toPicture(name, data))
  return storePictures(photoFilesOf(shell), pictures)
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
