import { z } from 'zod'
import { answerOnce, type Answer } from '../shared/once.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams, problemAnswers, recordSchema, toJson } from '../shared/records/schemas.ts'
import { readJson } from '../shared/records/submission.ts'
import { createRecord } from '../shared/records/table.ts'
import { viewerOn } from '../shared/access.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { paperSchema } from './content.ts'
import { whatHinders } from './draft.ts'
import { drawQuote, freezeQuote } from './freezing.ts'
import { quote } from './records.ts'
import { getRevision } from './revisionStore.ts'
import { loadQuote, termsOfShop } from './store.ts'

const loose = z.looseObject({})
const draftSchema = z.object({
  content: paperSchema.nullable().describe('As it would be frozen now; null where it is too large for a paper'), hinders: z.array(z.string()).describe('Why it cannot be frozen yet'),
  estimate: z.int().describe('minor units: price of the estimate'), supplies: z.int().describe('minor units'), further: z.int().describe('minor units: further lines'),
})
const frozenSchema = z.object({ id: z.string(), number: z.string(), contentHash: z.string() })

/** The draft of a quote under /api. */
export function registerQuoteApi(app: App, shell: Shell): void {
  const { database } = shell
  const config = { roles: MANAGERS }
  const tags = ['quotes and consents']

  app.get('/api/builds/:id/quote', { config, schema: { tags, summary: 'The quote of a build as it would be frozen now', params: idParams, response: { 200: draftSchema, ...problemAnswers } } }, async (request) => {
    const { draft } = await drawQuote(database.reads, request.params.id, actorOf(request, shell))
    const content = paperSchema.safeParse(draft.content)
    return { content: content.success ? content.data : null, hinders: whatHinders(draft.content), estimate: draft.estimateMinor, supplies: draft.suppliesMinor, further: draft.furtherMinor }
  })

  app.post('/api/builds/:id/quotes', {
    config, schema: { tags, summary: 'Begin the quote of a build; what is not sent are the shop’s own terms', params: idParams, body: loose, response: { 201: recordSchema(quote), ...problemAnswers } },
  }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { id } = request.params
    const { values, entered } = readJson(quote, viewer.role, false, request.body, viewer)
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      const { shop } = await loadQuote(write, id)
      const row = await createRecord(write, quote, id, { values: { ...termsOfShop(shop), ...values }, entered }, actorOf(request, shell))
      return { status: 201, location: `/api/${quote.path}/${row.id}`, body: toJson(quote, row, viewer.role) }
    })
    reply.header('location', answer.location ?? '')
    return reply.status(201).send(answer.body as Record<string, unknown>)
  })

  app.post('/api/builds/:id/revisions', {
    config, schema: { tags, summary: 'Freeze the quote of a build as its next revision', params: idParams, body: loose, response: { 201: frozenSchema, ...problemAnswers } },
  }, async (request, reply) => {
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      const id = await freezeQuote(write, request.params.id, undefined, actorOf(request, shell))
      const { content, contentHash } = await getRevision(write, id)
      return { status: 201, location: `/api/revisions/${id}`, body: { id, number: content.number, contentHash } }
    })
    reply.header('location', answer.location ?? '')
    return reply.status(201).send(answer.body as z.infer<typeof frozenSchema>)
  })
}
