import { z } from 'zod'
import { OrderPage } from '../../web/changeorders/order.tsx'
import { OrdersPage } from '../../web/changeorders/orders.tsx'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { notFound } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { registerRecords } from '../shared/records/register.ts'
import { idParams } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { registerOrderApi } from './apiRoutes.ts'
import { freezeOrder } from './drawing.ts'
import { loadOrder, loadOrders, orderPage, ordersPage, ordersWorkings, orderTrail, orderWorkings } from './pageData.ts'
import { prepareOrder } from './preparing.ts'
import { changeOrder } from './records.ts'

const orderParams = idParams.extend({ oid: z.uuid() })
const howQuery = z.object({ how })
const orderQuery = howQuery.extend({ saved: z.string().max(36).optional().catch(undefined) })

/** Changes to what was accepted: drawn up by hand or from the forecast, frozen for the customer's answer. */
export function registerChangeOrders(app: App, shell: Shell): void {
  registerRecords(app, shell, [changeOrder])
  registerOrderApi(app, shell)
  const { database } = shell
  const { reads } = database
  const config = { roles: MANAGERS }

  app.get('/builds/:id/change-orders', { config, schema: { hide: true, params: idParams, querystring: howQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const loaded = await loadOrders(reads, request.params.id)
    const data = ordersPage(loaded, viewer)
    if (request.query.how === undefined) return sendPage(reply, OrdersPage({ viewer, data }))
    const trail = [{ name: `${data.number} ${data.title}`, href: `/builds/${request.params.id}` }, { name: 'Change orders', href: `/builds/${request.params.id}/change-orders` }]
    return sendWorking(reply, viewer, { workings: ordersWorkings(loaded), how: request.query.how, place: 'builds', trail })
  })

  app.post('/builds/:id/change-orders', { config, schema: { hide: true, params: idParams, body: z.looseObject({ from: z.literal('forecast') }) } }, async (request, reply) => {
    const { id } = request.params
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> =>
      ({ status: 303, location: `/builds/${id}/change-orders/${await prepareOrder(write, id, actorOf(request, shell))}` }))
    return reply.redirect(answer.location ?? '/', 303)
  })

  app.get('/builds/:id/change-orders/:oid', { config, schema: { hide: true, params: orderParams, querystring: orderQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const loaded = await loadOrder(reads, request.params.oid)
    if (loaded.order.buildId !== request.params.id) throw notFound('change order')
    if (request.query.how === undefined) return sendPage(reply, OrderPage({ viewer, data: orderPage(loaded, viewer, request.query.saved) }))
    const trail = orderTrail(loaded).map(({ name, href }) => ({ name, href: href === '' ? `/builds/${request.params.id}/change-orders/${request.params.oid}` : href }))
    return sendWorking(reply, viewer, { workings: orderWorkings(loaded), how: request.query.how, place: 'builds', trail })
  })

  app.post('/builds/:id/change-orders/:oid/revisions', { config, schema: { hide: true, params: orderParams } }, async (request, reply) => {
    const { id, oid } = request.params
    await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      await freezeOrder(write, oid, viewerOn(request), actorOf(request, shell))
      return { status: 303 }
    })
    return reply.redirect(`/builds/${id}/change-orders/${oid}?saved=frozen`, 303)
  })
}
