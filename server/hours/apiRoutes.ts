import type { FastifyRequest } from 'fastify'
import { z } from 'zod'
import { shopOf, viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { notFound } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { BENCH, MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { correctEntry, createEntry, getOwnEntry } from './entries.ts'
import { CORRECTION_FIELDS, ENTRY_FIELDS, readEntry } from './forms.ts'
import { bodyOf, mayCorrect } from './pageRoutes.ts'
import { correctionSchema, entryJson, entrySchema, newEntrySchema, startSchema, stopSchema, timerJson, timerSchema, timingJson, timingSchema } from './schemas.ts'
import { pageOfEntries } from './store.ts'
import { instantIn, settlementOf, stopOfBody, wantedOf } from './timerRoutes.ts'
import { findTimer, startTimer, stopTimer } from './timers.ts'

const listQuery = z.object({
  build: z.uuid().optional(), person: z.uuid().optional(), cursor: z.uuid().optional(), limit: z.coerce.number().int().min(1).max(200).default(50),
})
const tags = ['time entries']
const config = { roles: BENCH }

/** Hours and the timer under /api. */
export function registerHourApi(app: App, shell: Shell): void {
  const { database } = shell

  app.get('/api/time-entries', {
    config,
    schema: {
      tags, summary: 'List time entries as they were written; a technician gets their own', querystring: listQuery,
      response: { 200: z.object({ items: z.array(entrySchema), next: z.string().nullable() }), ...problemAnswers },
    },
  }, async (request) => {
    const { personId, role } = viewerOn(request)
    const isManager = MANAGERS.includes(role)
    if (!isManager && request.query.person && request.query.person !== personId) throw notFound('person')
    const { entries, next } = await pageOfEntries(database.reads, { ...request.query, person: isManager ? request.query.person : personId })
    return { items: entries.map(entryJson), next }
  })

  app.get('/api/time-entries/:id', {
    config, schema: { tags, summary: 'One time entry', params: idParams, response: { 200: entrySchema, ...problemAnswers } },
  }, async (request) => entryJson(await getOwnEntry(database.reads, request.params.id, mayCorrect(request))))

  app.post('/api/time-entries', {
    config, schema: { tags, summary: 'Log hours after the fact', body: newEntrySchema, response: { 201: entrySchema, ...problemAnswers } },
  }, async (request, reply) => {
    const viewer = viewerOn(request)
    const typed = readEntry(ENTRY_FIELDS, bodyOf(request), viewer, viewer.today)
    const personId = typed.personId ?? viewer.personId
    if (personId !== viewer.personId && !MANAGERS.includes(viewer.role)) throw notFound('person')
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      const entry = await createEntry(write, typed, await writingFor(request, personId))
      return { status: 201, location: `/api/time-entries/${entry.id}`, body: entryJson(entry) }
    })
    reply.header('location', answer.location ?? '')
    return reply.status(201).send(answer.body as z.infer<typeof entrySchema>)
  })

  app.post('/api/time-entries/:id/corrections', {
    config,
    schema: { tags, summary: 'Correct a time entry; the first one stays', params: idParams, body: correctionSchema, response: { 201: entrySchema, ...problemAnswers } },
  }, async (request, reply) => {
    const viewer = viewerOn(request)
    const typed = readEntry(CORRECTION_FIELDS, bodyOf(request), viewer, viewer.today)
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      const before = await getOwnEntry(write, request.params.id, mayCorrect(request))
      const entry = await correctEntry(write, before, typed, await writingFor(request, before.personId))
      return { status: 201, location: `/api/time-entries/${entry.id}`, body: entryJson(entry) }
    })
    reply.header('location', answer.location ?? '')
    return reply.status(201).send(answer.body as z.infer<typeof entrySchema>)
  })

  app.get('/api/timer', {
    config, schema: { tags: ['timer'], summary: 'What you are on now', response: { 200: z.object({ timer: timerSchema.nullable() }), ...problemAnswers } },
  }, async (request) => ({ timer: timerJson(await findTimer(database.reads, viewerOn(request).personId)) }))

  app.post('/api/timer', {
    config,
    schema: { tags: ['timer'], summary: 'Start a timer, or switch to it: what ran before is logged', body: startSchema, response: { 200: timingSchema, ...problemAnswers } },
  }, async (request) => {
    const body = bodyOf(request)
    const settlement = settlementOf(body, viewerOn(request), instantIn(body.at))
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => (
      { status: 200, body: timingJson(await startTimer(write, actorOf(request, shell), wantedOf(body), settlement)) }
    ))
    return answer.body as z.infer<typeof timingSchema>
  })

  app.post('/api/timer-stops', {
    config, schema: { tags: ['timer'], summary: 'Stop the timer and log its time', body: stopSchema, response: { 200: timingSchema, ...problemAnswers } },
  }, async (request) => {
    const body = bodyOf(request)
    const settlement = settlementOf(body, viewerOn(request), instantIn(body.at))
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => (
      { status: 200, body: timingJson(await stopTimer(write, actorOf(request, shell), stopOfBody(body), settlement)) }
    ))
    return answer.body as z.infer<typeof timingSchema>
  })

  async function writingFor(request: FastifyRequest, personId: string) {
    return { actor: actorOf(request, shell), personId, timeZone: (await shopOf(database.reads)).timeZone }
  }
}
