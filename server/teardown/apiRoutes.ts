import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { BENCH } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { loadVehicleState } from '../restoration/store.ts'
import { answerSchema, recordAnswer } from './deeds.ts'
import { standingOf, toTeardownOrder } from './order.ts'
import { toRest } from './rest.ts'
import { loadRecords } from './store.ts'

const recorded = z.object({ id: z.string().describe('Of the removal'), factoryPartId: z.string(), kind: z.string(), at: z.string(), binId: z.string().nullable(), condition: z.string() })
const stand = z.object({
  nextIds: z.array(z.string()).describe('Factory parts that have to come out, in order'), settled: z.int(), total: z.int(),
  parts: z.array(z.object({ id: z.string(), standing: z.string().describe('In words, as “behind F-053”') })),
  missing: z.array(z.object({ name: z.string(), missing: z.string() })).describe('What was recorded incompletely'),
})
const tags = ['removal and restoration']

export function registerTeardownApi(app: App, shell: Shell): void {
  const { reads } = shell.database

  app.get('/api/builds/:id/teardown', {
    config: { roles: BENCH }, schema: { tags, summary: 'How far a teardown is, and what comes out next', params: idParams, response: { 200: stand, ...problemAnswers } },
  }, async (request) => {
    const { id } = request.params
    const [state, records] = await Promise.all([loadVehicleState(reads, id), loadRecords(reads, id)])
    const { factoryParts } = state.input
    const order = toTeardownOrder(state)
    return {
      nextIds: [...order.nextIds], settled: factoryParts.length - order.nextIds.length, total: factoryParts.length,
      parts: factoryParts.map((part) => ({ id: part.id, standing: standingOf(part, order).words })),
      missing: toRest(factoryParts, records, id).map(({ name, missing }) => ({ name, missing })),
    }
  })

  app.post('/api/builds/:id/teardown', {
    config: { roles: BENCH },
    schema: { tags, summary: 'Say what became of a factory part: its bin, or that it is loose, stays, was altered or broke', params: idParams, body: answerSchema, response: { 201: recorded, ...problemAnswers } },
  }, async (request, reply) => {
    const buildId = request.params.id
    const answer = await answerOnce(shell.database, askedOf(request), async (write): Promise<Answer> => {
      const row = await recordAnswer(write, buildId, request.body, viewerOn(request), actorOf(request, shell))
      const { id, factoryPartId, kind, at, binId, condition } = row
      return { status: 201, location: `/api/removals/${id}`, body: { id, factoryPartId, kind, at: (at as Date).toISOString(), binId, condition } }
    })
    reply.header('location', answer.location ?? '')
    return reply.status(201).send(answer.body as z.infer<typeof recorded>)
  })
}
