import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import { listArrived, listPhotos, pageOfPhotos, type PhotoOfRow } from '../shared/photos/rows.ts'
import { wordsOf } from '../shared/photos/taking.ts'
import { problemAnswers } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { addSentPhotos, captionField, changePhoto, momentField, sentAsField } from './deeds.ts'
import { photoParams } from './fileRoutes.ts'
import { getPhoto } from './getPhoto.ts'

const photoSchema = z.object({
  id: z.string(), buildId: z.string(), subjectKind: z.string().describe('The kind of record it is of, by its name'), subjectId: z.string(),
  caption: z.string(), moment: z.string().describe('before, during or after the work; empty where nobody said'),
  sentAs: z.string().nullable().describe('The name that its sender gave it'), bytes: z.int(), width: z.int(), height: z.int(), hash: z.string().describe('SHA-256 of the file, hexadecimal'),
  createdAt: z.string(), removedAt: z.string().nullable(),
}).meta({ id: 'Photo' })

const listQuery = z.object({
  build: z.uuid().optional().describe('All pictures of a build'),
  subjectKind: z.string().max(60).optional().describe('Of one kind of record, by its name'), subjectId: z.uuid().optional().describe('Of one record'),
  cursor: z.uuid().optional(),
  limit: z.coerce.number().int().min(1).max(200).default(50),
})

const sent = z.looseObject({
  subjectKind: z.string().max(60).describe('The kind of record by its name, as “factory part”'), subjectId: z.string().max(60), caption: captionField.default(''),
  moment: momentField.optional().describe('Left out, what is usual for such a record: before for marks of the intake, during for removals'),
  sentAs: sentAsField.optional().describe('A name of the sender’s own making for the one picture sent: sent again under it, nothing is added'),
  files: z.unknown().optional().meta({ type: 'array', items: { type: 'string', contentMediaType: 'image/jpeg' }, description: 'JPEG, PNG or WebP; files come after all other entries' }),
})

const tags = ['photos']
const seen = { roles: EVERYBODY }
const items = z.object({ items: z.array(photoSchema) })
const added = z.object({ items: z.array(photoSchema), refused: z.array(z.object({ name: z.string(), message: z.string() })).describe('Files of the row that could not be kept, and why') })
const names = z.object({ sentAs: z.string().regex(/^[0-9a-f-]{36}(?:,[0-9a-f-]{36}){0,99}$/, 'Up to 100 names, with commas between them.').optional().describe('Names that the asking person gave to pictures, up to 100 with commas between them') })
const page = z.object({ items: z.array(photoSchema), next: z.string().nullable() })

export function registerPhotoUploadApi(scope: App, shell: Shell): void {
  scope.post('/api/photos', {
    config: { ...seen, takesFiles: true },
    schema: { tags, summary: 'Attach pictures to a record', consumes: ['multipart/form-data'], body: sent, response: { 201: added, ...problemAnswers } },
  }, async (request, reply) => {
    const { answer } = await addSentPhotos(request, shell, request.body, async (subject, ids, refused, write) => {
      const all = await listPhotos(write, { subjectKind: subject.kind.name, subjectId: subject.row.id })
      const first = ids[0] ?? ''
      return { status: 201, location: `/api/photos/${first}`, body: { items: all.filter(({ id }) => ids.includes(id)).map(toJson), refused: refused.map((one) => ({ name: one.name, message: wordsOf(one) })) } }
    })
    reply.header('location', answer.location ?? '')
    return reply.status(201).send(answer.body as z.infer<typeof added>)
  })
}

export function registerPhotoApi(app: App, shell: Shell): void {
  const { reads } = shell.database

  app.get('/api/photos', { config: seen, schema: { tags, summary: 'List photos of a build or of one record', querystring: listQuery, response: { 200: page, ...problemAnswers } } }, async (request) => {
    const { photos, next } = await pageOfPhotos(reads, viewerOn(request).role, request.query)
    return { items: photos.map(toJson), next }
  })

  app.get('/api/photos/arrived', { config: seen, schema: { tags, summary: 'Which of the pictures that you sent have arrived', querystring: names, response: { 200: items, ...problemAnswers } } }, async (request) => {
    const { sentAs = '' } = request.query
    return { items: (await listArrived(reads, viewerOn(request).personId, sentAs.split(','))).map(toJson) }
  })

  app.get('/api/photos/:id', { config: seen, schema: { tags, summary: 'One photo', params: photoParams, response: { 200: photoSchema, ...problemAnswers } } },
    async (request) => toJson(await getPhoto(reads, request, request.params.id)))

  for (const [address, isRemoved, summary] of [['removal', true, 'Take a photo away'], ['recovery', false, 'Take a photo back']] as const) {
    app.post(`/api/photos/:id/${address}`, { config: seen, schema: { tags, summary, params: photoParams, response: { 200: photoSchema, ...problemAnswers } } }, async (request) => {
      const answer = await changePhoto(request, shell, request.params.id, { isRemoved }, (_, photo) => ({ status: 200, body: toJson(photo) }))
      return answer.body as z.infer<typeof photoSchema>
    })
  }

  app.post('/api/photos/:id/captions', {
    config: seen, schema: { tags, summary: 'Give a photo another caption, or say when it was taken', params: photoParams, body: z.object({ caption: captionField, moment: momentField.optional() }), response: { 200: photoSchema, ...problemAnswers } },
  }, async (request) => {
    const answer = await changePhoto(request, shell, request.params.id, request.body, (_, photo) => ({ status: 200, body: toJson(photo) }))
    return answer.body as z.infer<typeof photoSchema>
  })
}

function toJson({ createdAt, removedAt, personId: _, ...photo }: PhotoOfRow): z.infer<typeof photoSchema> {
  return { ...photo, createdAt: createdAt.toISOString(), removedAt: removedAt?.toISOString() ?? null }
}
