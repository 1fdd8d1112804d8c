import { z } from 'zod'
import { whereaboutsOf, WHEREABOUTS } from '../calc/removal/custody.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { problemAnswers } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { CUTS, findKept } from './keptData.ts'
import { moveJson, ofJson } from './moveAsked.ts'
import { moveAsAsked } from './moving.ts'
import { placeInWords } from './moveStore.ts'
import { loadCustody, loadPartMoves, type StoredPart } from './readStore.ts'

const uuid = z.object({ id: z.uuid() })
const tags = ['custody']

const partSchema = z.object({
  id: z.string(), number: z.int(), name: z.string(), state: z.string(), whereabouts: z.enum(WHEREABOUTS), binId: z.string().nullable(),
  place: z.string().describe('In words: the bin with where it stands, or the place'), movedAt: z.string().nullable(),
})
const keptSchema = partSchema.extend({ buildId: z.string(), buildNumber: z.int(), customer: z.string() })
const moveSchema = z.object({
  id: z.string(), kind: z.string(), at: z.string(), personId: z.string(), binNumber: z.int().nullable(), place: z.string(), from: z.string(),
  toWhom: z.string(), signedName: z.string(), isDrawn: z.boolean().describe('Whether a signature was drawn'), note: z.string(), stockTake: z.int().nullable(),
})

const toPart = (part: StoredPart) => ({
  id: part.id, number: part.number, name: part.name, state: part.state, whereabouts: whereaboutsOf(part), binId: part.binId,
  place: placeInWords(part), movedAt: part.moves[0]?.at.toISOString() ?? null,
})

export function registerCustodyApi(app: App, shell: Shell): void {
  const { database } = shell
  const { reads } = database
  const config = { roles: EVERYBODY }

  app.get('/api/custody', {
    config,
    schema: {
      tags, summary: 'Factory parts of all vehicles that are out, handed over or gone',
      querystring: z.object({ find: z.string().trim().max(100).default(''), where: z.enum(CUTS).default('all') }),
      response: { 200: z.object({ items: z.array(keptSchema) }), ...problemAnswers },
    },
  }, async (request) => ({
    items: (await findKept(reads, request.query)).map((part) => ({ ...toPart(part), buildId: part.build.id, buildNumber: part.build.number, customer: part.build.vehicle.customer.name })),
  }))

  app.get('/api/builds/:id/custody', {
    config, schema: { tags, summary: 'Where the factory parts of a build are', params: uuid, response: { 200: z.object({ items: z.array(partSchema) }), ...problemAnswers } },
  }, async (request) => ({ items: (await loadCustody(reads, request.params.id)).factoryParts.map(toPart) }))

  app.get('/api/factory-parts/:id/moves', {
    config, schema: { tags, summary: 'Where a factory part has been, newest first', params: uuid, response: { 200: z.object({ items: z.array(moveSchema) }), ...problemAnswers } },
  }, async (request) => {
    const { moves } = await loadPartMoves(reads, request.params.id)
    return {
      items: moves.map(({ id, kind, at, personId, bin, place, fromWords, toWhom, signedName, signature, note, stockTake }) => ({
        id, kind, at: at.toISOString(), personId, binNumber: bin?.number ?? null, place, from: fromWords, toWhom, signedName, isDrawn: signature !== '', note, stockTake: stockTake?.number ?? null,
      })),
    }
  })

  app.post('/api/builds/:id/moves', {
    config, schema: { tags, summary: 'Move factory parts together', params: uuid, body: moveJson, response: { 201: z.object({ ids: z.array(z.string()) }), ...problemAnswers } },
  }, async (request, reply) => {
    const { id } = request.params
    await loadCustody(reads, id)
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> =>
      ({ status: 201, body: { ids: await moveAsAsked(write, id, ofJson(request.body), actorOf(request, shell)) } }))
    return reply.status(201).send(answer.body as { ids: string[] })
  })
}
