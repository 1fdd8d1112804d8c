import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import { CalendarsPage } from '../../web/calendars/calendars.tsx'
import { viewerOn } from '../shared/access.ts'
import { calendarAddress } from '../shared/links/address.ts'
import { answerOnce } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { registerCalendarApi } from './apiRoutes.ts'
import { registerFeeds } from './feedRoutes.ts'
import { readGiven, readOrder } from './orders.ts'
import { calendarsData, nameOfSubject } from './pageData.ts'
import { createCalendarLink, listSubjects, revokeCalendarLink } from './store.ts'

const savedQuery = z.object({ saved: z.literal('withdrawn').optional().catch(undefined) })

/** Calendars of people, bays and builds by link: made, listed, withdrawn, and fetched. */
export function registerCalendars(app: App, shell: Shell): void {
  const { database } = shell
  const config = { roles: EVERYBODY }
  registerFeeds(app, shell)
  registerCalendarApi(app, shell)

  app.get('/calendars', { config, schema: { hide: true, querystring: savedQuery } }, (request, reply) => show(request, reply, { isWithdrawn: request.query.saved === 'withdrawn' }))

  app.post('/calendars', { config, schema: { hide: true, body: z.looseObject({}) } }, async (request, reply) => {
    try {
      const order = readOrder(request.body, await listSubjects(database.reads, viewerOn(request)))
      let address: string | null = null
      await answerOnce(database, askedOf(request), async (write) => {
        address = calendarAddress(shell.config, (await createCalendarLink(write, order, actorOf(request, shell))).secret)
        return { status: 200 }
      })
      return await show(request, reply, { made: { name: `${nameOfSubject(order.subject)}, for ${order.note}`, address } })
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      return show(request, reply.status(422), { problems: error.fields, typed: readGiven(request.body) })
    }
  })

  app.post('/calendars/:id/revocations', { config, schema: { hide: true, params: idParams, body: z.looseObject({}) } }, async (request, reply) => {
    const answer = await answerOnce(database, askedOf(request), async (write) => {
      await revokeCalendarLink(write, request.params.id, viewerOn(request), actorOf(request, shell))
      return { status: 303, location: '/calendars?saved=withdrawn' }
    })
    return reply.redirect(answer.location ?? '/', 303)
  })

  async function show(request: FastifyRequest, reply: FastifyReply, state: Parameters<typeof calendarsData>[3]): Promise<FastifyReply> {
    const viewer = viewerOn(request)
    return sendPage(reply, CalendarsPage({ viewer, data: await calendarsData(database.reads, viewer, shell.clock(), state) }))
  }
}
