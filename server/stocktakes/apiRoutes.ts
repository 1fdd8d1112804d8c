import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { invalid } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { LONGEST_LINE, LONGEST_TEXT } from '../shared/records/reading.ts'
import { problemAnswers } from '../shared/records/schemas.ts'
import { EVERYBODY, MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { beginTake, closeByNumber, markMissing, moveToSeen, recordSightings } from './deeds.ts'
import { outcomesOf } from './outcome.ts'
import { spotOfBin, spotOfPlace } from './spots.ts'
import { findBin, getTake, listTakes } from './store.ts'

const tags = ['stock-takes']
const number = z.int().min(1).max(999_999)
const takeParams = z.object({ n: z.coerce.number().int().min(1).max(999_999) })
const takeSchema = z.object({ number: z.int(), startedOn: z.string(), closedOn: z.string().nullable(), note: z.string() })
const wholeSchema = takeSchema.extend({
  parts: z.array(z.object({
    id: z.string(), buildNumber: z.int(), number: z.int(), name: z.string(), finding: z.enum(['here', 'elsewhere', 'not found', 'not looked at']), seenAt: z.string(), isMovedSince: z.boolean(),
  })),
})

async function whole(reads: Reads, n: number): Promise<z.infer<typeof wholeSchema>> {
  const take = await getTake(reads, n)
  const outcomes = await outcomesOf(reads, take)
  return {
    number: take.number, startedOn: take.startedOn, closedOn: take.closedOn, note: take.note,
    parts: outcomes.map(({ part, finding, seenAt, isMovedSince }) => ({ id: part.id, buildNumber: part.build.number, number: part.number, name: part.name, finding, seenAt, isMovedSince })),
  }
}

export function registerTakeApi(app: App, shell: Shell): void {
  const { database } = shell
  const { reads } = database

  app.get('/api/stock-takes', {
    config: { roles: EVERYBODY }, schema: { tags, summary: 'Stock-takes, newest first', response: { 200: z.object({ items: z.array(takeSchema) }), ...problemAnswers } },
  }, async () => ({ items: (await listTakes(reads)).map((take) => ({ number: take.number, startedOn: take.startedOn, closedOn: take.closedOn, note: take.note })) }))

  app.get('/api/stock-takes/:n', {
    config: { roles: EVERYBODY }, schema: { tags, summary: 'What a stock-take found, part by part', params: takeParams, response: { 200: wholeSchema, ...problemAnswers } },
  }, async (request) => whole(reads, request.params.n))

  app.post('/api/stock-takes', {
    config: { roles: MANAGERS }, schema: { tags, summary: 'Begin a stock-take of the whole shop', body: z.object({ note: z.string().trim().max(LONGEST_TEXT).default('') }), response: { 201: z.object({ number: z.int() }), ...problemAnswers } },
  }, async (request, reply) => {
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> =>
      ({ status: 201, body: { number: await beginTake(write, actorOf(request, shell), viewerOn(request).today, request.body.note) } }))
    return reply.status(201).send(answer.body as { number: number })
  })

  app.post('/api/stock-takes/:n/sightings', {
    config: { roles: EVERYBODY },
    schema: {
      tags, summary: 'What was seen at a bin or place', params: takeParams, response: { 201: z.object({ count: z.int() }), ...problemAnswers },
      body: z.object({
        build: number.describe('Number of the build that the bin or place is of'), bin: number.optional(), place: z.string().max(LONGEST_LINE).default(''),
        seen: z.array(z.object({ part: number, build: number.optional().describe('Of a part of another build'), isHere: z.boolean() })).min(1).max(300),
      }),
    },
  }, async (request, reply) => {
    const { build, bin, place, seen } = request.body
    const binId = bin === undefined ? null : (await findBin(reads, build, bin))?.id
    if (binId === undefined) throw invalid('bin', 'There is no such bin in this build.')
    const spot = binId ? await spotOfBin(reads, binId) : await spotOfPlace(reads, build, place)
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      await recordSightings(write, actorOf(request, shell), request.params.n, spot, seen)
      return { status: 201, body: { count: seen.length } }
    })
    return reply.status(201).send(answer.body as { count: number })
  })

  app.post('/api/stock-takes/:n/moves', {
    config: { roles: MANAGERS },
    schema: {
      tags, summary: 'Record what was seen elsewhere where it was seen, or what is missing', params: takeParams, response: { 201: z.object({ count: z.int() }), ...problemAnswers },
      body: z.object({ what: z.enum(['elsewhere', 'missing']), partIds: z.array(z.uuid()).max(3_000).default([]).describe('Of those not found, the ones that are missing') }),
    },
  }, async (request, reply) => {
    const { what, partIds } = request.body
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      const actor = actorOf(request, shell)
      return { status: 201, body: { count: what === 'elsewhere' ? await moveToSeen(write, actor, request.params.n) : await markMissing(write, actor, request.params.n, partIds) } }
    })
    return reply.status(201).send(answer.body as { count: number })
  })

  app.post('/api/stock-takes/:n/closings', {
    config: { roles: MANAGERS }, schema: { tags, summary: 'Close a stock-take', params: takeParams, response: { 201: takeSchema, ...problemAnswers } },
  }, async (request, reply) => {
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      await closeByNumber(write, actorOf(request, shell), request.params.n, viewerOn(request).today)
      const { id: _, ...take } = await getTake(write, request.params.n)
      return { status: 201, body: take }
    })
    return reply.status(201).send(answer.body as z.infer<typeof takeSchema>)
  })
}
