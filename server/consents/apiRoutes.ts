import { z } from 'zod'
import { getRevision, listRevisions } from '../quotes/revisionStore.ts'
import { viewerOn } from '../shared/access.ts'
import { answerOnce } from '../shared/once.ts'
import { Problem } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { getKind } from '../shared/records/kind.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { getRecord } from '../shared/records/table.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { differenceOf } from './differenceData.ts'
import { giveConsent } from './giving.ts'
import { consentBody, consentSchema, revisionJson, revisionSchema } from './schemas.ts'
import { listConsents } from './store.ts'
import { withdraw } from './withdrawing.ts'

const row = z.object({ what: z.string(), text: z.string(), more: z.string(), before: z.string(), after: z.string(), by: z.string() })
const differenceSchema = z.object({ lines: z.array(row), totals: z.array(row), words: z.array(z.object({ name: z.string(), before: z.string(), after: z.string() })) })

/** Frozen papers and consents under /api. */
export function registerConsentApi(app: App, shell: Shell): void {
  const { database } = shell
  const config = { roles: MANAGERS }
  const tags = ['quotes and consents']
  const one = { tags, params: idParams, response: { 200: revisionSchema, ...problemAnswers } }

  app.get('/api/builds/:id/revisions', {
    config, schema: { tags, summary: 'Frozen quotes and change orders of a build, newest first', params: idParams, response: { 200: z.object({ items: z.array(revisionSchema) }), ...problemAnswers } },
  }, async (request) => {
    await getRecord(database.reads, getKind('build'), request.params.id)
    return { items: (await listRevisions(database.reads, request.params.id)).map((revision) => revisionJson(revision, viewerOn(request).today)) }
  })

  app.get('/api/builds/:id/consents', {
    config, schema: { tags, summary: 'Consents of a build, newest first', params: idParams, response: { 200: z.object({ items: z.array(consentSchema) }), ...problemAnswers } },
  }, async (request) => {
    await getRecord(database.reads, getKind('build'), request.params.id)
    return {
      items: (await listConsents(database.reads, request.params.id)).map(({ id, createdAt, revisionId, decision, typedName, contentHash, chosen, netMinor, taxMinor, way, note }) => ({
        id, revisionId, at: createdAt.toISOString(), decision: decision === 'accepted' ? 'accepted' as const : 'declined' as const, typedName, contentHash, chosen: JSON.parse(chosen) as string[], net: netMinor, tax: taxMinor, way, note,
      })),
    }
  })

  app.get('/api/revisions/:id', { config, schema: { ...one, summary: 'A frozen quote or change order' } }, async (request) =>
    revisionJson(await getRevision(database.reads, request.params.id), viewerOn(request).today))

  app.get('/api/revisions/:id/difference', {
    config, schema: { tags, summary: 'What a frozen paper says differently from another of the same build', params: idParams, querystring: z.object({ from: z.uuid() }), response: { 200: differenceSchema, ...problemAnswers } },
  }, async (request) => {
    const [to, from] = await Promise.all([getRevision(database.reads, request.params.id), getRevision(database.reads, request.query.from)])
    if (from.buildId !== to.buildId) throw new Problem(409, 'They belong to two builds', 'Compare two revisions of one build.')
    const { lines, totals, words } = differenceOf(from.content, to.content)
    return { lines: [...lines], totals: [...totals], words: [...words] }
  })

  app.post('/api/revisions/:id/withdrawals', { config, schema: { ...one, summary: 'Withdraw an open paper', body: z.object({ why: z.string() }) } }, async (request) => {
    await answerOnce(database, askedOf(request), async (write) => {
      await withdraw(write, request.params.id, request.body.why, actorOf(request, shell))
      return { status: 200 }
    })
    return revisionJson(await getRevision(database.reads, request.params.id), viewerOn(request).today)
  })

  app.post('/api/revisions/:id/consents', {
    config, schema: { tags, summary: 'Take down in the shop what the customer said to a frozen paper', params: idParams, body: consentBody, response: { 201: revisionSchema, ...problemAnswers } },
  }, async (request, reply) => {
    const { options, ...given } = request.body
    await answerOnce(database, askedOf(request), async (write) => {
      await giveConsent(write, request.params.id, { ...given, chosen: options }, { way: 'in the shop', linkId: null }, actorOf(request, shell))
      return { status: 201 }
    })
    return reply.status(201).send(revisionJson(await getRevision(database.reads, request.params.id), viewerOn(request).today))
  })

  // Said in words to whoever tries: nothing about a frozen paper is changed or removed.
  for (const method of ['PUT', 'PATCH', 'DELETE'] as const) {
    app.route({
      method, url: '/api/revisions/:id', config,
      schema: { tags, summary: `Refused: a frozen paper is neither changed nor removed (${method})`, params: idParams, response: problemAnswers },
      handler: async (request) => {
        const { content } = await getRevision(database.reads, request.params.id)
        throw new Problem(405, 'It is frozen', `${content.number} stays as it was frozen. Withdraw it with a reason, or freeze a newer revision; what is accepted changes by a change order.`)
      },
    })
  }
}
