import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import { calendarAddress } from '../shared/links/address.ts'
import { answerOnce } from '../shared/once.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { SUBJECT_KINDS } from './events.ts'
import { LONGEST_DAYS, readOrder, USUAL_DAYS } from './orders.ts'
import { createCalendarLink, listCalendarLinks, listSubjects, revokeCalendarLink, type CalendarLinkFacts } from './store.ts'

const linkSchema = z.object({
  id: z.string(), subjectKind: z.enum(SUBJECT_KINDS), subjectId: z.string(), note: z.string().describe('For whom'),
  createdAt: z.string(), expiresAt: z.string(), revokedAt: z.string().nullable(),
}).meta({ id: 'CalendarLink' })

const newLinkSchema = z.object({ address: z.string().nullable().describe('The whole address. Only in the first answer; null when the request is repeated.'), link: linkSchema })

const orderSchema = z.looseObject({
  subject: z.unknown().optional().describe('Whose days, which bay or build, as "person:", "bay:" or "build:" and the id. Required.'),
  note: z.unknown().optional().describe('For whom. Required.'),
  days: z.unknown().optional().describe(`How long it is valid, at most ${LONGEST_DAYS} days; ${USUAL_DAYS} without it.`),
})

/** Links to calendars under /api; the secret is in the first answer alone. */
export function registerCalendarApi(app: App, shell: Shell): void {
  const { database } = shell
  const config = { roles: EVERYBODY }
  const tags = ['links without sign-in']

  app.get('/api/calendars', {
    config, schema: { tags, summary: 'List the links to calendars: all for managers, to their own days for others', response: { 200: z.object({ items: z.array(linkSchema) }), ...problemAnswers } },
  }, async (request) => ({ items: (await listCalendarLinks(database.reads, viewerOn(request))).map(toJson) }))

  app.post('/api/calendars', {
    config, schema: { tags, summary: 'Make a link to the calendar of a person, a bay or a build', body: orderSchema, response: { 201: newLinkSchema, ...problemAnswers } },
  }, async (request, reply) => {
    const order = readOrder(request.body, await listSubjects(database.reads, viewerOn(request)))
    let address: string | null = null
    const answer = await answerOnce(database, askedOf(request), async (write) => {
      const { secret, link } = await createCalendarLink(write, order, actorOf(request, shell))
      address = calendarAddress(shell.config, secret)
      return { status: 201, body: toJson(link) }
    })
    return reply.status(201).send({ address, link: answer.body as z.infer<typeof linkSchema> })
  })

  app.post('/api/calendars/:id/revocations', {
    config, schema: { tags, summary: 'Withdraw a link to a calendar', params: idParams, response: { 200: linkSchema, ...problemAnswers } },
  }, async (request) => {
    const answer = await answerOnce(database, askedOf(request), async (write) =>
      ({ status: 200, body: toJson(await revokeCalendarLink(write, request.params.id, viewerOn(request), actorOf(request, shell))) }))
    return answer.body as z.infer<typeof linkSchema>
  })
}

function toJson({ createdAt, expiresAt, revokedAt, createdById: _, ...rest }: CalendarLinkFacts): z.infer<typeof linkSchema> {
  return { ...rest, createdAt: createdAt.toISOString(), expiresAt: expiresAt.toISOString(), revokedAt: revokedAt?.toISOString() ?? null }
}
