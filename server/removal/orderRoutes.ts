import { z } from 'zod'
import { RemovalPage } from '../../web/restoration/removal.tsx'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems, Problem } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { readForm, type Body } from '../shared/records/submission.ts'
import { createRecord } from '../shared/records/table.ts'
import { BENCH, EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { loadVehicleState } from '../restoration/store.ts'
import { notFound } from '../shared/problems.ts'
import type { RemovalOrder } from '../calc/removal/removalOrder.ts'
import { toOrders } from './orders.ts'
import { viewAsked } from './orderView.ts'
import { removal } from './records.ts'
import { removalData, waysOf } from './removalData.ts'
import { removalWorkings } from './removalWorkings.ts'
import { listThingsWithWays } from './waysData.ts'

const pageQuery = z.object({ part: z.uuid().optional(), of: z.string().max(20).optional(), zone: z.coerce.number().int().min(0).max(100_000).optional(), out: z.uuid().optional(), answered: z.uuid().optional(), rule: z.uuid().optional(), did: z.enum(['added', 'removed', 'recovered', 'changed']).optional(), how })
const apiQuery = z.object({ part: z.uuid().optional().describe('What must come out before this factory part; all of them without it') })

const waySchema = z.object({
  afterId: z.string(), way: z.string(), takesIds: z.array(z.string()), seconds: z.int().nullable().describe('s, out and back; null where it cannot be gone'), isLeast: z.boolean(),
}).describe('A named way in, for all that comes out on it')

const orderSchema = z.object({
  steps: z.array(z.object({
    id: z.string(), number: z.string(), name: z.string(), depth: z.enum(['out', 'loosened']), waitsForIds: z.array(z.string()),
  })),
  takeOut: z.int().describe('s'),
  refused: z.string().nullable().describe('The ring that makes an order impossible, in words'),
})

/** What must come out before what, and one press for what came out. */
export function registerRemovalOrder(app: App, shell: Shell): void {
  const { reads } = shell.database

  app.get('/builds/:id/removal', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: pageQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { out, how: key, rule, did, answered, ...asked } = request.query
    const data = await removalData(reads, viewer, { buildId: request.params.id, asked, savedId: out ?? null, did: rule && did ? { ruleId: rule, did } : undefined, answeredId: answered })
    if (key === undefined) return sendPage(reply, RemovalPage({ viewer, data }))
    const href = `/builds/${request.params.id}`
    const trail = [{ name: data.trail[0]?.name ?? '', href }, { name: 'Order of removal', href: `${href}/removal${data.address === '' ? '' : `?${data.address}`}` }]
    const state = await loadVehicleState(reads, request.params.id)
    return sendWorking(reply, viewer, { workings: new Map([...removalWorkings(state.input, data), ...waysOf(state, asked)]), how: key, place: 'builds', trail, places: key === 'found' || key === 'built' ? 1 : 2 })
  })

  app.post('/builds/:id/removals', { config: { roles: BENCH }, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const buildId = request.params.id
    const body = { kind: 'came out', ...(request.body as Body) }
    try {
      const submitted = readForm(removal, viewer.role, true, body, viewer)
      const answer = await answerOnce(shell.database, askedOf(request), async (write): Promise<Answer> => {
        const row = await createRecord(write, removal, buildId, submitted, actorOf(request, shell))
        return { status: 303, location: `/builds/${buildId}/removal?out=${String(row.factoryPartId)}` }
      })
      return await reply.redirect(answer.location ?? '/', 303)
    } catch (error) {
      // A press has no form to come back to: it says what is wrong, and the page shows how things stand.
      if (error instanceof FieldProblems) throw new Problem(409, 'Not recorded', error.fields.map(({ message }) => message).join(' '))
      throw error
    }
  })

  app.get('/api/builds/:id/removal-order', {
    config: { roles: EVERYBODY },
    schema: {
      tags: ['removal and restoration'], summary: 'What must come out before what, as found and as built', params: idParams, querystring: apiQuery,
      response: { 200: z.object({ asFound: orderSchema, asBuilt: orderSchema, readyIds: z.array(z.string()), differences: z.array(z.string()), ways: z.array(waySchema) }), ...problemAnswers },
    },
  }, async (request) => {
    const state = await loadVehicleState(reads, request.params.id)
    const { part } = request.query
    if (part && !state.input.factoryParts.some(({ id }) => id === part)) throw notFound('factory part')
    const orders = toOrders(state, part === undefined ? 'all' : [part])
    const { things, asFound, asBuilt, readyIds, differences } = orders
    const ways = listThingsWithWays(viewAsked(state, { part }), orders, state)
      .flatMap(({ id, ways: own }) => own.map(({ way, steps, seconds, isLeast }) => ({ afterId: id, way, takesIds: steps.map((step) => step.id), seconds, isLeast })))
    const toJson = (order: RemovalOrder): z.infer<typeof orderSchema> => {
      if (order.kind === 'refused') return { steps: [], takeOut: 0, refused: order.sentence }
      const steps = order.steps.map(({ id, depth, waitsForIds }) => ({ id, depth, number: things.get(id)?.number ?? '', name: things.get(id)?.name ?? '', waitsForIds: [...waitsForIds] }))
      return { steps, takeOut: order.takeOutS, refused: null }
    }
    return { asFound: toJson(asFound), asBuilt: toJson(asBuilt), readyIds: [...readyIds], differences: [...differences], ways }
  })
}
