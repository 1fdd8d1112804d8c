import { z } from 'zod'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { problemAnswers } from '../shared/records/schemas.ts'
import { photoFilesOf } from '../shared/photos/taking.ts'
import { toSmall } from '../shared/photos/picture.ts'
import type { PhotoFiles, PhotoSize } from '../shared/photos/files.ts'
import { notFound } from '../shared/problems.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { getPhoto } from './getPhoto.ts'

export const photoParams = z.object({ id: z.uuid() })
const sizeQuery = z.object({ size: z.literal('small').optional() })

/** The pictures themselves, for those who may see what they are of. */
export function registerPhotoFiles(app: App, shell: Shell): void {
  const send = async (request: FastifyRequest, reply: FastifyReply, id: string, size: PhotoSize): Promise<FastifyReply> => {
    const photo = await getPhoto(shell.database.reads, request, id)
    const data = await readFile(photoFilesOf(shell), photo.hash, size)
    if (data === null) {
      request.log.error({ photo: id, hash: photo.hash }, 'the file of a photo is missing')
      throw notFound('photo')
    }
    return reply.type('image/jpeg').header('cache-control', 'private, max-age=31536000, immutable').header('content-disposition', 'inline').send(data)
  }

  app.get('/photos/:id', { config: { roles: EVERYBODY }, schema: { hide: true, params: photoParams, querystring: sizeQuery } },
    (request, reply) => send(request, reply, request.params.id, request.query.size ?? 'large'))

  app.get('/api/photos/:id/file', {
    config: { roles: EVERYBODY },
    schema: {
      tags: ['photos'], summary: 'The picture, JPEG', params: photoParams, querystring: sizeQuery,
      response: { 200: { description: 'The picture', content: { 'image/jpeg': { schema: z.any() } } }, ...problemAnswers },
    },
  }, (request, reply) => send(request, reply, request.params.id, request.query.size ?? 'large'))
}

/** The small size can be made anew at any time, so a copy of the store need not hold it. */
async function readFile(files: PhotoFiles, hash: string, size: PhotoSize): Promise<Buffer | null> {
  const there = await files.read(hash, size)
  if (there !== null || size === 'large') return there
  const large = await files.read(hash, 'large')
  if (large === null) return null
  const small = await toSmall(large)
  await files.storeSmall(hash, small)
  return small
}
