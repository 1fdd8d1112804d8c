import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import { wholeAddress } from '../shared/links/address.ts'
import { answerOnce } from '../shared/once.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { getKind } from '../shared/records/kind.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { getRecord } from '../shared/records/table.ts'
import { COUNTER } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { listOffered, readOrder } from './orders.ts'
import { createLink, listLinks, revokeLink, type LinkFacts } from './store.ts'

const linkSchema = z.object({
  id: z.string(), buildId: z.string(), subjectKind: z.string(), subjectId: z.string(), note: z.string().describe('For whom'),
  createdAt: z.string(), expiresAt: z.string(), revokedAt: z.string().nullable(),
}).meta({ id: 'ShareLink' })

const newLinkSchema = z.object({
  address: z.string().nullable().describe('The whole address. Only in the first answer; null when the request is repeated.'), link: linkSchema,
})

const orderSchema = z.looseObject({
  subject: z.unknown().optional().describe('What it leads to, as "return-to-stock sheet:" and the id. Required.'),
  note: z.unknown().optional().describe('For whom. Required.'),
  days: z.unknown().optional().describe('How long it is valid; 90 days without it.'),
})

/** Links without sign-in under /api; the secret is in the first answer alone. */
export function registerLinkApi(app: App, shell: Shell): void {
  const { database } = shell
  const config = { roles: COUNTER }
  const tags = ['links without sign-in']

  app.get('/api/builds/:id/links', {
    config, schema: { tags, summary: 'List the links of a build', params: idParams, response: { 200: z.object({ items: z.array(linkSchema) }), ...problemAnswers } },
  }, async (request) => {
    await getRecord(database.reads, getKind('build'), request.params.id)
    return { items: (await listLinks(database.reads, request.params.id)).map(toJson) }
  })

  app.post('/api/builds/:id/links', {
    config, schema: { tags, summary: 'Make a link that opens one page without sign-in', params: idParams, body: orderSchema, response: { 201: newLinkSchema, ...problemAnswers } },
  }, async (request, reply) => {
    const { id } = request.params
    await getRecord(database.reads, getKind('build'), id)
    const order = readOrder(request.body, id, await listOffered(database.reads, id, viewerOn(request)))
    let address: string | null = null
    const answer = await answerOnce(database, askedOf(request), async (write) => {
      const { secret, link } = await createLink(write, order, actorOf(request, shell))
      address = wholeAddress(shell.config, secret)
      return { status: 201, body: toJson(link) }
    })
    return reply.status(201).send({ address, link: answer.body as z.infer<typeof linkSchema> })
  })

  app.post('/api/links/:id/revocations', {
    config, schema: { tags, summary: 'Withdraw a link', params: idParams, response: { 200: linkSchema, ...problemAnswers } },
  }, async (request) => {
    const answer = await answerOnce(database, askedOf(request), async (write) =>
      ({ status: 200, body: toJson(await revokeLink(write, request.params.id, viewerOn(request).role, actorOf(request, shell))) }))
    return answer.body as z.infer<typeof linkSchema>
  })
}

function toJson({ createdAt, expiresAt, revokedAt, createdById: _, ...rest }: LinkFacts): z.infer<typeof linkSchema> {
  return { ...rest, createdAt: createdAt.toISOString(), expiresAt: expiresAt.toISOString(), revokedAt: revokedAt?.toISOString() ?? null }
}
