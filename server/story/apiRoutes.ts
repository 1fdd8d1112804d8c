import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { notFound } from '../shared/problems.ts'
import { idParams, problemAnswers, recordSchema, toJson } from '../shared/records/schemas.ts'
import { readJson } from '../shared/records/submission.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { buildStory, MOMENTS } from './records.ts'
import { saveStory } from './saving.ts'
import { hiddenOf } from './sharedStory.ts'
import { loadStory } from './store.ts'
import { tellStory } from './told.ts'

const words = z.string().max(200).default('')
const storyBody = z.object({
  title: z.string(), opening: z.string().default(''), closing: z.string().default(''), showsPeople: z.boolean().default(false), showsHours: z.boolean().default(true), showsMaterials: z.boolean().default(true),
  pictures: z.array(z.object({ photoId: z.uuid(), moment: z.enum(MOMENTS), words })).max(200).default([]), parts: z.array(z.object({ partId: z.uuid(), words })).max(200).default([]),
})
const picture = z.object({ src: z.string(), large: z.string(), words: z.string(), says: z.string(), width: z.int(), height: z.int() })
const storySchema = z.object({
  shopName: z.string(), title: z.string(), opening: z.string(), closing: z.string(), vehicle: z.string(), kind: z.string(),
  moments: z.array(z.object({ moment: z.string(), pictures: z.array(picture) })),
  parts: z.array(z.object({ name: z.string(), family: z.string(), words: z.string(), hours: z.string(), people: z.array(z.string()), materials: z.string() })),
  hours: z.object({ total: z.string(), by: z.array(z.object({ name: z.string(), hours: z.string() })) }).nullable(), people: z.array(z.string()),
})

export function registerStoryApi(app: App, shell: Shell): void {
  const { database } = shell
  const config = { roles: MANAGERS }
  const tags = [buildStory.plural]

  app.get('/api/builds/:id/story', { config, schema: { tags, summary: 'The story of a build as anybody would read it', params: idParams, response: { 200: storySchema, ...problemAnswers } } }, async (request) => {
    const { id } = request.params
    const told = tellStory(await loadStory(database.reads, id), await hiddenOf(database.reads, id), (photo) => `/api/photos/${photo.id}/file`)
    if (!told) throw notFound('story')
    return { ...told, moments: told.moments.map(({ moment, pictures }) => ({ moment, pictures: [...pictures] })), parts: told.parts.map((part) => ({ ...part, people: [...part.people] })), people: [...told.people], hours: told.hours && { ...told.hours, by: [...told.hours.by] } }
  })

  app.post('/api/builds/:id/stories', {
    config, schema: { tags, summary: 'Write the story of a build, its pictures and parts as they are to be shown', params: idParams, body: storyBody, response: { 201: recordSchema(buildStory), ...problemAnswers } },
  }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { pictures, parts, ...fields } = request.body
    const submitted = readJson(buildStory, viewer.role, true, fields, viewer)
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      const row = await saveStory(write, request.params.id, submitted, { pictures, parts }, null, actorOf(request, shell))
      return { status: 201, location: `/api/${buildStory.path}/${row.id}`, body: toJson(buildStory, row, viewer.role) }
    })
    reply.header('location', answer.location ?? '')
    return reply.status(201).send(answer.body as Record<string, unknown>)
  })
}
