import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import { answerOnce } from '../shared/once.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { EVERYBODY, ROLES } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { createToken, LONGEST_DAYS, listTokens, readOrder, refuseToken, revokeToken, type TokenFacts } from './tokens.ts'

const tokenSchema = z.object({
  id: z.string(), name: z.string(), role: z.enum(ROLES), createdAt: z.string(), expiresAt: z.string(), revokedAt: z.string().nullable(),
}).meta({ id: 'AccessToken' })

const newTokenSchema = z.object({
  secret: z.string().nullable().describe('What goes after Bearer. Only in the first answer; null when the request is repeated.'),
  token: tokenSchema,
})

const orderSchema = z.looseObject({
  name: z.unknown().optional().describe('What the token is for. Required.'),
  role: z.unknown().optional().describe('At most the maker’s own role. Required.'),
  days: z.unknown().optional().describe(`How long it is valid, 1 to ${LONGEST_DAYS} days. Required.`),
})

/** Access tokens under /api: one’s own alone. */
export function registerTokenApi(app: App, shell: Shell): void {
  const { database } = shell
  const config = { roles: EVERYBODY }
  const tags = ['access tokens']

  app.get('/api/me/tokens', {
    config, schema: { tags, summary: 'List your access tokens', response: { 200: z.object({ items: z.array(tokenSchema) }), ...problemAnswers } },
  }, async (request) => ({ items: (await listTokens(database.reads, viewerOn(request).personId)).map(toJson) }))

  app.post('/api/me/tokens', {
    config,
    schema: {
      tags, summary: 'Make an access token', body: orderSchema, response: { 201: newTokenSchema, ...problemAnswers },
      description: 'For signed-in people alone: a token makes no tokens.',
    },
  }, async (request, reply) => {
    refuseToken(request.holder)
    const order = readOrder(request.body, viewerOn(request))
    let secret: string | null = null
    const answer = await answerOnce(database, askedOf(request), async (write) => {
      const made = await createToken(write, order, viewerOn(request).personId, actorOf(request, shell))
      secret = made.secret
      return { status: 201, body: toJson(made.token) }
    })
    return reply.status(201).send({ secret, token: answer.body as z.infer<typeof tokenSchema> })
  })

  app.post('/api/me/tokens/:id/revocation', {
    config, schema: { tags, summary: 'Revoke an access token', params: idParams, response: { 200: tokenSchema, ...problemAnswers } },
  }, async (request) => {
    const answer = await answerOnce(database, askedOf(request), async (write) => {
      const token = await revokeToken(write, request.params.id, viewerOn(request).personId, actorOf(request, shell))
      return { status: 200, body: toJson(token) }
    })
    return answer.body as z.infer<typeof tokenSchema>
  })
}

function toJson({ createdAt, expiresAt, revokedAt, ...rest }: TokenFacts): z.infer<typeof tokenSchema> {
  return { ...rest, createdAt: createdAt.toISOString(), expiresAt: expiresAt.toISOString(), revokedAt: revokedAt?.toISOString() ?? null }
}
