import { z } from 'zod'
import { ResultPage } from '../../web/stocktakes/result.tsx'
import { SpotPage } from '../../web/stocktakes/spot.tsx'
import { TakePage } from '../../web/stocktakes/take.tsx'
import { TakesPage } from '../../web/stocktakes/takes.tsx'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { LONGEST_LINE, LONGEST_TEXT } from '../shared/records/reading.ts'
import { EVERYBODY, MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { beginTake, closeByNumber, markMissing, moveToSeen, recordSightings } from './deeds.ts'
import { readSeen, seenForm } from './seen.ts'
import { spotData } from './spotData.ts'
import { findSpot, spotHref, spotOfBin, spotOfPlace } from './spots.ts'
import { resultData, takeData, takesData } from './takeData.ts'

const n = z.coerce.number().int().min(1).max(999_999)
const takeParams = z.object({ n })
const saved = z.enum(['yes']).optional().catch(undefined)
const SAVED = { closed: 'the stock-take is closed', moved: 'the moves', missing: 'what is missing' } as const

const movesForm = z.looseObject({
  what: z.enum(['elsewhere', 'missing']), parts: z.union([z.uuid(), z.array(z.uuid()).max(3_000)]).default([]).transform((given) => [given].flat()),
})

/** The yearly look into every bin, by anybody; begun, closed and drawn conclusions from by a manager. */
export function registerTakePages(app: App, shell: Shell): void {
  const { database } = shell
  const { reads } = database
  const everybody = { roles: EVERYBODY }
  const managers = { roles: MANAGERS }

  app.get('/stock-takes', { config: everybody, schema: { hide: true } }, async (request, reply) =>
    sendPage(reply, TakesPage({ viewer: viewerOn(request), data: await takesData(reads, viewerOn(request)) })))

  app.post('/stock-takes', { config: managers, schema: { hide: true, body: z.looseObject({ note: z.string().trim().max(LONGEST_TEXT).default('') }) } }, async (request, reply) => {
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> =>
      ({ status: 303, location: `/stock-takes/${await beginTake(write, actorOf(request, shell), viewerOn(request).today, request.body.note)}` }))
    return reply.redirect(answer.location ?? '/', 303)
  })

  app.get('/stock-takes/:n', { config: everybody, schema: { hide: true, params: takeParams, querystring: z.object({ find: z.string().trim().max(LONGEST_LINE).default('') }) } }, async (request, reply) => {
    const { find } = request.query
    const binId = find === '' ? null : await findSpot(reads, find)
    if (binId) return reply.redirect(`/stock-takes/${request.params.n}/bins/${binId}`, 303)
    return sendPage(reply, TakePage({ viewer: viewerOn(request), data: await takeData(reads, request.params.n, find) }))
  })

  app.get('/stock-takes/:n/bins/:id', { config: everybody, schema: { hide: true, params: takeParams.extend({ id: z.uuid() }), querystring: z.object({ saved }) } }, async (request, reply) => {
    const spot = await spotOfBin(reads, request.params.id)
    return sendPage(reply, SpotPage({ viewer: viewerOn(request), data: await spotData(reads, { number: request.params.n, spot, saved: request.query.saved === 'yes' }) }))
  })

  app.get('/stock-takes/:n/places', { config: everybody, schema: { hide: true, params: takeParams, querystring: z.object({ build: n, place: z.string().max(LONGEST_LINE).default(''), saved }) } }, async (request, reply) => {
    const spot = await spotOfPlace(reads, request.query.build, request.query.place)
    return sendPage(reply, SpotPage({ viewer: viewerOn(request), data: await spotData(reads, { number: request.params.n, spot, saved: request.query.saved === 'yes' }) }))
  })

  app.post('/stock-takes/:n/sightings', { config: everybody, schema: { hide: true, params: takeParams, body: seenForm } }, async (request, reply) => {
    const { n: number } = request.params
    const { bin, build, place, also } = request.body
    const spot = bin ? await spotOfBin(reads, bin) : await spotOfPlace(reads, build ?? 0, place)
    try {
      const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
        const own = request.body.all === undefined ? [] : (await spotData(reads, { number, spot, saved: false })).parts.map((part) => part.number)
        await recordSightings(write, actorOf(request, shell), number, spot, readSeen(request.body, own))
        const href = spotHref(number, spot)
        return { status: 303, location: `${href}${href.includes('?') ? '&' : '?'}saved=yes` }
      })
      return await reply.redirect(answer.location ?? '/', 303)
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      return sendPage(reply.status(422), SpotPage({ viewer: viewerOn(request), data: await spotData(reads, { number, spot, saved: false, typed: also, problems: error.fields }) }))
    }
  })

  app.get('/stock-takes/:n/result', { config: everybody, schema: { hide: true, params: takeParams, querystring: z.object({ saved: z.enum(['closed', 'moved', 'missing']).optional().catch(undefined) }) } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const said = request.query.saved ? SAVED[request.query.saved] : null
    return sendPage(reply, ResultPage({ viewer, data: await resultData(reads, request.params.n, viewer, said) }))
  })

  app.post('/stock-takes/:n/closings', { config: managers, schema: { hide: true, params: takeParams } }, async (request, reply) => {
    const { n: number } = request.params
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      await closeByNumber(write, actorOf(request, shell), number, viewerOn(request).today)
      return { status: 303, location: `/stock-takes/${number}/result?saved=closed` }
    })
    return reply.redirect(answer.location ?? '/', 303)
  })

  app.post('/stock-takes/:n/moves', { config: managers, schema: { hide: true, params: takeParams, body: movesForm } }, async (request, reply) => {
    const { n: number } = request.params
    const { what, parts } = request.body
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      if (what === 'elsewhere') await moveToSeen(write, actorOf(request, shell), number)
      else await markMissing(write, actorOf(request, shell), number, parts)
      return { status: 303, location: `/stock-takes/${number}/result?saved=${what === 'elsewhere' ? 'moved' : 'missing'}` }
    })
    return reply.redirect(answer.location ?? '/', 303)
  })
}
