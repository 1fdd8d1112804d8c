import { z } from 'zod'
import { BuildPhotosPage } from '../../web/photos/buildPhotos.tsx'
import { PhotoFormPage } from '../../web/photos/photoForm.tsx'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import type { Subject } from '../shared/photos/rows.ts'
import { wordsOf } from '../shared/photos/taking.ts'
import { HeldProblem } from '../shared/problems.ts'
import { idParams } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { buildPhotosData } from './buildPhotos.ts'
import { addSentPhotos, captionField, changePhoto, momentField, sentAsField } from './deeds.ts'
import { photoParams } from './fileRoutes.ts'
import { photoForm } from './photoForm.ts'

const back = z.string().regex(/^\/(?!\/)[\w/?=&.-]*$/).optional().catch(undefined)
const sent = z.looseObject({ subjectKind: z.string().max(60), subjectId: z.string().max(60), caption: captionField.default(''), moment: momentField.optional(), sentAs: sentAsField.optional(), back })
const backOnly = z.looseObject({ back }).optional()
const captioned = z.looseObject({ caption: z.string(), moment: z.string().optional(), back })
const caption = z.object({ caption: captionField, moment: momentField.optional() })
const backQuery = z.object({ back })
const pageQuery = z.object({ after: z.uuid().optional() })

const pageOf = ({ kind, row, buildId }: Subject): string => (kind.name === 'build' ? `/builds/${buildId}/photos` : `/${kind.path}/${row.id}`)

export function registerPhotoUpload(scope: App, shell: Shell): void {
  scope.post('/photos', { config: { roles: EVERYBODY, takesFiles: true }, schema: { hide: true, body: sent } }, async (request, reply) => {
    const { answer, refused } = await addSentPhotos(request, shell, request.body, async (subject) => ({ status: 303, location: `${request.body.back ?? pageOf(subject)}#photos` }))
    const href = answer.location ?? '/'
    if (refused.length > 0) throw new HeldProblem('Not every picture was kept', `${refused.map(wordsOf).join(' ')} The others are kept.`, { href, name: 'Back to the photos' }, 422)
    return reply.redirect(href, 303)
  })
}

export function registerPhotoPages(app: App, shell: Shell): void {
  app.get('/builds/:id/photos', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: pageQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    return sendPage(reply, BuildPhotosPage({ viewer, data: await buildPhotosData(shell.database.reads, request.params.id, viewer, request.query.after) }))
  })

  for (const [address, isRemoved] of [['removal', true], ['recovery', false]] as const) {
    app.post(`/photos/:id/${address}`, { config: { roles: EVERYBODY }, schema: { hide: true, params: photoParams, body: backOnly } }, async (request, reply) => {
      const to = request.body?.back
      const answer = await changePhoto(request, shell, request.params.id, { isRemoved }, (subject) => ({ status: 303, location: `${to ?? pageOf(subject)}#photos` }))
      return reply.redirect(answer.location ?? '/', 303)
    })
  }

  app.get('/photos/:id/form', { config: { roles: EVERYBODY }, schema: { hide: true, params: photoParams, querystring: backQuery } }, async (request, reply) => {
    return sendPage(reply, PhotoFormPage({ viewer: viewerOn(request), data: await photoForm(shell.database.reads, request, request.query) }))
  })

  app.post('/photos/:id/captions', { config: { roles: EVERYBODY }, schema: { hide: true, params: photoParams, body: captioned } }, async (request, reply) => {
    const { back: to, ...typed } = request.body
    const read = caption.safeParse(typed)
    if (!read.success) {
      const problems = read.error.issues.map(({ path, message }) => ({ field: String(path[0]), message }))
      return sendPage(reply.status(422), PhotoFormPage({ viewer: viewerOn(request), data: await photoForm(shell.database.reads, request, { back: to, typed, problems }) }))
    }
    const answer = await changePhoto(request, shell, request.params.id, read.data, (subject) => ({ status: 303, location: `${to ?? pageOf(subject)}#photos` }))
    return reply.redirect(answer.location ?? '/', 303)
  })
}
