import { z } from 'zod'
import { BuildPhotosPage } from '../../web/photos/buildPhotos.tsx'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import type { Subject } from '../shared/photos/rows.ts'
import { idParams } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { buildPhotosData } from './buildPhotos.ts'
import { addSentPhotos, captionField, changePhoto } from './deeds.ts'
import { photoParams } from './fileRoutes.ts'

const back = z.string().regex(/^\/(?!\/)[\w/?=&.-]*$/).optional().catch(undefined)
const sent = z.looseObject({ subjectKind: z.string().max(60), subjectId: z.string().max(60), caption: captionField.default(''), back })
const backOnly = z.looseObject({ back }).optional()
const captioned = z.looseObject({ caption: captionField, back })

const pageOf = ({ kind, row, buildId }: Subject): string => (kind.name === 'build' ? `/builds/${buildId}/photos` : `/${kind.path}/${row.id}`)

export function registerPhotoUpload(scope: App, shell: Shell): void {
  scope.post('/photos', { config: { roles: EVERYBODY, takesFiles: true }, schema: { hide: true, body: sent } }, async (request, reply) => {
    const answer = await addSentPhotos(request, shell, request.body, async (subject) => ({ status: 303, location: `${request.body.back ?? pageOf(subject)}#photos` }))
    return reply.redirect(answer.location ?? '/', 303)
  })
}

export function registerPhotoPages(app: App, shell: Shell): void {
  app.get('/builds/:id/photos', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    return sendPage(reply, BuildPhotosPage({ viewer, data: await buildPhotosData(shell.database.reads, request.params.id, viewer) }))
  })

  for (const [address, isRemoved] of [['removal', true], ['recovery', false]] as const) {
    app.post(`/photos/:id/${address}`, { config: { roles: EVERYBODY }, schema: { hide: true, params: photoParams, body: backOnly } }, async (request, reply) => {
      const to = request.body?.back
      const answer = await changePhoto(request, shell, request.params.id, { isRemoved }, (subject) => ({ status: 303, location: `${to ?? pageOf(subject)}#photos` }))
      return reply.redirect(answer.location ?? '/', 303)
    })
  }

  app.post('/photos/:id/captions', { config: { roles: EVERYBODY }, schema: { hide: true, params: photoParams, body: captioned } }, async (request, reply) => {
    const { caption, back: to } = request.body
    const answer = await changePhoto(request, shell, request.params.id, { caption }, (subject) => ({ status: 303, location: `${to ?? pageOf(subject)}#photos` }))
    return reply.redirect(answer.location ?? '/', 303)
  })
}
