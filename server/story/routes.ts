import { z } from 'zod'
import { StoryCardPage, StoryPreviewPage } from '../../web/story/story.tsx'
import type { StoryData } from '../../web/story/storyData.ts'
import { StoryFormPage } from '../../web/story/storyForm.tsx'
import { viewerOn } from '../shared/access.ts'
import { answerOnce } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems, notFound, VersionConflict } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { sendConflictPage } from '../shared/records/conflict.ts'
import { registerRecords } from '../shared/records/register.ts'
import { label } from '../shared/records/kind.ts'
import { idParams } from '../shared/records/schemas.ts'
import { readForm, type Body } from '../shared/records/submission.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { registerStoryApi } from './apiRoutes.ts'
import { chosenIn, storyForm } from './formData.ts'
import { buildStory } from './records.ts'
import { saveStory } from './saving.ts'
import { hiddenOf, registerSharedStory } from './sharedStory.ts'
import { loadStory } from './store.ts'
import { tellStory } from './told.ts'

const savedQuery = z.object({ saved: z.literal('yes').optional().catch(undefined) })
const formBody = z.looseObject({ _version: z.coerce.number().int().min(0).default(0) })

export function registerStory(app: App, shell: Shell): void {
  const { database } = shell
  const { reads } = database
  const config = { roles: MANAGERS }
  registerRecords(app, shell, [buildStory])
  registerSharedStory()
  registerStoryApi(app, shell)

  app.get('/builds/:id/story', { config, schema: { hide: true, params: idParams, querystring: savedQuery } }, async (request, reply) => {
    const { id } = request.params
    const [stored, hidden] = [await loadStory(reads, id), await hiddenOf(reads, id)]
    return sendPage(reply, StoryFormPage({ viewer: viewerOn(request), data: storyForm(stored, hidden, { saved: request.query.saved === 'yes' }) }))
  })

  app.post('/builds/:id/story', { config, schema: { hide: true, params: idParams, body: formBody } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { id } = request.params
    const typed: Body = request.body
    const stored = await loadStory(reads, id)
    try {
      const submitted = readForm(buildStory, viewer.role, stored.build.story === null, typed, viewer)
      const answer = await answerOnce(database, askedOf(request), async (write) => {
        await saveStory(write, id, submitted, chosenIn(typed), stored.build.story === null ? null : request.body._version, actorOf(request, shell))
        return { status: 303, location: `/builds/${id}/story?saved=yes` }
      })
      return await reply.redirect(answer.location ?? '/', 303)
    } catch (error) {
      if (error instanceof VersionConflict) return sendConflictPage(request, reply, shell, buildStory, error, typed)
      if (!(error instanceof FieldProblems)) throw error
      return sendPage(reply.status(422), StoryFormPage({ viewer, data: storyForm(stored, await hiddenOf(reads, id), { typed, problems: error.fields }) }))
    }
  })

  app.get('/builds/:id/story/preview', { config, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const { data, trail } = await told(request.params.id)
    return sendPage(reply, StoryPreviewPage({ viewer: viewerOn(request), data, trail: [...trail, { name: 'As it is read' }] }))
  })

  app.get('/builds/:id/story/card', { config, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const { data } = await told(request.params.id)
    return sendPage(reply, StoryCardPage({ viewer: viewerOn(request), data, backHref: `/builds/${request.params.id}/story` }))
  })

  async function told(id: string): Promise<{ data: StoryData, trail: { name: string, href: string }[] }> {
    const stored = await loadStory(reads, id)
    const data = tellStory(stored, await hiddenOf(reads, id), (photo, size) => `/photos/${photo.id}${size === 'small' ? '?size=small' : ''}`)
    if (!data) throw notFound('story')
    const page = `/builds/${id}`
    return { data, trail: [{ name: `${label('B', stored.build.number)} ${stored.build.title}`, href: page }, { name: 'Story', href: `${page}/story` }] }
  }
}
