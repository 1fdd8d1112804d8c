import { z } from 'zod'
import { DeliveryPage } from '../../web/delivery/delivery.tsx'
import { checkOf } from '../checks/checked.ts'
import { viewerOn } from '../shared/access.ts'
import { answerOnce } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems, VersionConflict } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { sendConflictPage } from '../shared/records/conflict.ts'
import { registerRecords } from '../shared/records/register.ts'
import { idParams } from '../shared/records/schemas.ts'
import { readForm, type Body } from '../shared/records/submission.ts'
import { COUNTER, EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { registerDeliveryApi } from './apiRoutes.ts'
import { registerPackFiles } from './packRoutes.ts'
import { deliveryData } from './pageData.ts'
import { delivery } from './records.ts'
import { receive, saveDelivery } from './saving.ts'
import { receiptForm } from './schemas.ts'
import { loadDelivery } from './store.ts'

const savedQuery = z.object({ saved: z.enum(['delivery', 'receipt']).optional().catch(undefined) })
const formBody = z.looseObject({ _version: z.coerce.number().int().min(0).default(0) })

export function registerDelivery(app: App, shell: Shell): void {
  const { database } = shell
  registerRecords(app, shell, [delivery])
  registerDeliveryApi(app, shell)
  registerPackFiles(app, shell)

  app.get('/builds/:id/delivery', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: savedQuery } }, async (request, reply) => {
    const { id } = request.params
    const [stored, checked] = [await loadDelivery(database.reads, id), await checkOf(database.reads, id)]
    const viewer = viewerOn(request)
    return sendPage(reply, DeliveryPage({ viewer, data: deliveryData(stored, checked, viewer, { saved: request.query.saved }) }))
  })

  app.post('/builds/:id/delivery', { config: { roles: COUNTER }, schema: { hide: true, params: idParams, body: formBody } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { id } = request.params
    const typed: Body = request.body
    const stored = await loadDelivery(database.reads, id)
    try {
      const submitted = readForm(delivery, viewer.role, stored.build.delivery === null, typed, viewer)
      const answer = await answerOnce(database, askedOf(request), async (write) => {
        await saveDelivery(write, id, submitted, request.body._version, actorOf(request, shell))
        return { status: 303, location: `/builds/${id}/delivery?saved=delivery` }
      })
      return await reply.redirect(answer.location ?? '/', 303)
    } catch (error) {
      if (error instanceof VersionConflict) return sendConflictPage(request, reply, shell, delivery, error, typed)
      if (!(error instanceof FieldProblems)) throw error
      return sendPage(reply.status(422), DeliveryPage({ viewer, data: deliveryData(stored, await checkOf(database.reads, id), viewer, { typed, problems: error.fields }) }))
    }
  })

  app.post('/builds/:id/receipts', { config: { roles: COUNTER }, schema: { hide: true, params: idParams, body: receiptForm } }, async (request, reply) => {
    const { id } = request.params
    const { receivedBy, signature, _version } = request.body
    const answer = await answerOnce(database, askedOf(request), async (write) => {
      await receive(write, id, { receivedBy, signature, version: _version }, actorOf(request, shell))
      return { status: 303, location: `/builds/${id}/delivery?saved=receipt` }
    })
    return reply.redirect(answer.location ?? '/', 303)
  })
}
