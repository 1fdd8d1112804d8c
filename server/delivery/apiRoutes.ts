import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { inputSchema } from '../shared/records/inputSchema.ts'
import { getKind } from '../shared/records/kind.ts'
import { idParams, problemAnswers, recordSchema, toJson } from '../shared/records/schemas.ts'
import { readJson, type Body } from '../shared/records/submission.ts'
import { createRecord, getRecord } from '../shared/records/table.ts'
import { COUNTER, EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { packRecords } from './packing.ts'
import { pricesFor } from './packRoutes.ts'
import { delivery } from './records.ts'
import { receive } from './saving.ts'
import { moneyQuery, packSchema, receiptBody } from './schemas.ts'

const tags = [delivery.plural]
const received = z.object({ receivedBy: z.string() })

/** A build has one delivery, so it is made under its build; from then on it is a record like others. */
export function registerDeliveryApi(app: App, shell: Shell): void {
  const { database } = shell
  app.post('/api/builds/:id/deliveries', {
    config: { roles: COUNTER },
    schema: { tags, summary: 'Begin the delivery of a build', params: idParams, body: inputSchema(delivery, false), response: { 201: recordSchema(delivery), ...problemAnswers } },
  }, async (request, reply) => {
    const viewer = viewerOn(request)
    await getRecord(database.reads, getKind('build'), request.params.id)
    const submitted = readJson(delivery, viewer.role, true, request.body as Body, viewer)
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      const row = await createRecord(write, delivery, request.params.id, submitted, actorOf(request, shell))
      return { status: 201, location: `/api/${delivery.path}/${row.id}`, body: toJson(delivery, row, viewer.role) }
    })
    reply.header('location', answer.location ?? '')
    return reply.status(201).send(answer.body as Record<string, unknown>)
  })

  app.post('/api/builds/:id/receipts', {
    config: { roles: COUNTER },
    schema: { tags, summary: 'Say who received the vehicle', params: idParams, body: receiptBody, response: { 201: received, ...problemAnswers } },
  }, async (request, reply) => {
    const { receivedBy, signature } = request.body
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      await receive(write, request.params.id, { receivedBy, signature, version: null }, actorOf(request, shell))
      return { status: 201, body: { receivedBy } }
    })
    return reply.status(201).send(answer.body as z.infer<typeof received>)
  })

  app.get('/api/builds/:id/delivery-pack', {
    config: { roles: EVERYBODY },
    schema: { tags, summary: 'What the delivery pack holds; prices only where a manager asks', params: idParams, querystring: moneyQuery, response: { 200: packSchema, ...problemAnswers } },
  }, async (request) => packRecords(database.reads, request.params.id, pricesFor(viewerOn(request).role, request.query.money)))
}
