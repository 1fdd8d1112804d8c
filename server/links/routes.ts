import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import { LinksPage } from '../../web/links/links.tsx'
import { viewerOn } from '../shared/access.ts'
import { wholeAddress } from '../shared/links/address.ts'
import { answerOnce } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams } from '../shared/records/schemas.ts'
import { COUNTER } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { registerLinkApi } from './apiRoutes.ts'
import { registerOpenLinks } from './openRoutes.ts'
import { listOffered, readGiven, readOrder } from './orders.ts'
import { linksData } from './pageData.ts'
import { createLink, revokeLink } from './store.ts'

const savedQuery = z.object({ saved: z.literal('withdrawn').optional().catch(undefined) })

/** Links without sign-in: made, listed, withdrawn, and what stands behind them. */
export function registerLinks(app: App, shell: Shell): void {
  const { database } = shell
  const config = { roles: COUNTER }
  registerOpenLinks(app, shell)
  registerLinkApi(app, shell)

  app.get('/builds/:id/links', { config, schema: { hide: true, params: idParams, querystring: savedQuery } }, (request, reply) =>
    show(request, reply, request.params.id, { isWithdrawn: request.query.saved === 'withdrawn' }))

  app.post('/builds/:id/links', { config, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const { id } = request.params
    try {
      const order = readOrder(request.body, id, await listOffered(database.reads, id, viewerOn(request)))
      let address: string | null = null
      await answerOnce(database, askedOf(request), async (write) => {
        address = wholeAddress(shell.config, (await createLink(write, order, actorOf(request, shell))).secret)
        return { status: 200 }
      })
      return await show(request, reply, id, { made: { name: `${order.subjectName}, for ${order.note}`, address } })
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      return show(request, reply.status(422), id, { problems: error.fields, typed: readGiven(request.body) })
    }
  })

  app.post('/links/:id/revocations', { config, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const answer = await answerOnce(database, askedOf(request), async (write) => {
      const { buildId } = await revokeLink(write, request.params.id, viewerOn(request).role, actorOf(request, shell))
      return { status: 303, location: `/builds/${buildId}/links?saved=withdrawn` }
    })
    return reply.redirect(answer.location ?? '/', 303)
  })

  async function show(request: FastifyRequest, reply: FastifyReply, buildId: string, state: Parameters<typeof linksData>[4]): Promise<FastifyReply> {
    const viewer = viewerOn(request)
    return sendPage(reply, LinksPage({ viewer, data: await linksData(database.reads, buildId, viewer, shell.clock(), state) }))
  }
}
