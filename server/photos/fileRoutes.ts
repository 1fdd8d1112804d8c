import { z } from 'zod'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { problemAnswers } from '../shared/records/schemas.ts'
import { photoFilesOf } from '../shared/photos/taking.ts'
import type { PhotoSize } from '../shared/photos/files.ts'
import { readPicture } from '../shared/photos/reading.ts'
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
    const data = await readPicture(photoFilesOf(shell), photo.hash, size)
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
