import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { getRevision } from '../quotes/revisionStore.ts'
import { freezeOrder } from './drawing.ts'
import { guardOf, prepareOrder } from './preparing.ts'
import { getOrder } from './store.ts'

const tags = ['change orders']
const minor = z.int().describe('Minor units, without tax')
const guardSchema = z.object({
  acceptedMinor: minor.nullable().describe('Null while nothing is accepted'), forecastMinor: minor.nullable(), missingMinor: minor, state: z.string().nullable(),
  lines: z.array(z.object({ label: z.string(), amountMinor: minor, isRest: z.boolean() })).describe('Where the missing amount comes from'),
  leftOut: z.array(z.object({ option: z.int(), name: z.string(), amountMinor: minor, loggedMinor: minor.describe('Of it logged already') })).describe('Options that were said no to, with what stands in them: not in the forecast'),
})
const orderSchema = z.object({ id: z.string(), buildId: z.string(), number: z.int(), title: z.string(), lines: z.array(z.object({ id: z.string(), text: z.string(), quantity: z.int(), price: z.int() })) })
const revisionSchema = z.object({ id: z.string(), number: z.string(), contentHash: z.string(), validUntil: z.string(), netMinor: minor, taxMinor: z.int() })

export function registerOrderApi(app: App, shell: Shell): void {
  const { database } = shell
  const config = { roles: MANAGERS }

  app.get('/api/builds/:id/consent-guard', { config, schema: { tags, summary: 'Forecast at completion against what was accepted', params: idParams, response: { 200: guardSchema, ...problemAnswers } } }, async (request) => {
    const guard = await guardOf(database.reads, request.params.id)
    return {
      acceptedMinor: guard?.acceptedMinor ?? null, forecastMinor: guard?.forecastMinor ?? null, missingMinor: guard?.missingMinor ?? 0, state: guard?.alarm.state ?? null, lines: [...guard?.lines ?? []],
      leftOut: (guard?.agreed.leftOut ?? []).map(({ number, name, sellMinor, loggedSellMinor }) => ({ option: number, name, amountMinor: sellMinor, loggedMinor: loggedSellMinor })),
    }
  })

  app.post('/api/builds/:id/change-orders', {
    config, schema: { tags, summary: 'Draw up a change order over what the forecast misses', params: idParams, body: z.object({ from: z.literal('forecast') }), response: { 201: orderSchema, ...problemAnswers } },
  }, async (request, reply) => {
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => ({ status: 201, body: { id: await prepareOrder(write, request.params.id, actorOf(request, shell)) } }))
    const { id, buildId, number, title, lines } = await getOrder(database.reads, (answer.body as { id: string }).id)
    return reply.status(201).send({ id, buildId, number, title, lines: lines.map((line) => ({ id: line.id, text: line.text, quantity: line.quantity, price: line.price })) })
  })

  app.post('/api/change-orders/:id/revisions', { config, schema: { tags, summary: 'Freeze a change order for the customer’s answer', params: idParams, response: { 201: revisionSchema, ...problemAnswers } } }, async (request, reply) => {
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> =>
      ({ status: 201, body: { id: await freezeOrder(write, request.params.id, viewerOn(request), actorOf(request, shell)) } }))
    const { id, content, contentHash, validUntil } = await getRevision(database.reads, (answer.body as { id: string }).id)
    return reply.status(201).send({ id, number: content.number, contentHash, validUntil, netMinor: content.totals.netMinor, taxMinor: content.totals.taxMinor })
  })
}
