import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import { QuoteDraftPage } from '../../web/quotes/draft.tsx'
import { viewerOn } from '../shared/access.ts'
import { answerOnce } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems, invalid } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { getKind } from '../shared/records/kind.ts'
import { idParams } from '../shared/records/schemas.ts'
import { changeRecord, createRecord, findRecord, getRecord } from '../shared/records/table.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { draftData } from './draftData.ts'
import { draftWorkings } from './draftWorkings.ts'
import { loadSpreads } from '../spread/loadSpreads.ts'
import { drawQuote, freezeQuote } from './freezing.ts'
import { quote } from './records.ts'
import { listRevisions } from './revisionStore.ts'
import { hasOption, loadQuote, termsOfShop } from './store.ts'

const query = z.object({ how, saved: z.string().max(36).optional().catch(undefined) })
const frozen = z.looseObject({ seen: z.string().max(64).optional() })
const assignment = z.looseObject({ thing: z.string().max(100).default(''), option: z.string().max(100).default('') })

/** The draft of a quote: looked at, begun, sorted into options, frozen. */
export function registerDraft(app: App, shell: Shell): void {
  const { database } = shell
  const config = { roles: MANAGERS }

  app.get('/builds/:id/quote', { config, schema: { hide: true, params: idParams, querystring: query } }, async (request, reply) => {
    if (request.query.how === undefined) return show(request, reply, request.params.id, { saved: request.query.saved })
    const drawn = await drawQuote(database.reads, request.params.id, actorOf(request, shell))
    const { trail } = draftData(drawn, [], viewerOn(request), {})
    const steps = trail.map(({ name, href }) => ({ name, href: href ?? `/builds/${request.params.id}/quote` }))
    return sendWorking(reply, viewerOn(request), { workings: draftWorkings(drawn.draft, drawn.stored, drawn.figures), how: request.query.how, place: 'builds', trail: steps })
  })

  app.post('/builds/:id/quote', { config, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const { id } = request.params
    await answerOnce(database, askedOf(request), async (write) => {
      const { shop } = await loadQuote(write, id)
      await createRecord(write, quote, id, { values: termsOfShop(shop), entered: {} }, actorOf(request, shell))
      return { status: 303 }
    })
    return reply.redirect(`/builds/${id}/quote?saved=begun`, 303)
  })

  // The terms have no page of their own: they stand with the draft.
  app.get('/quotes/:id', { config, schema: { hide: true, params: idParams, querystring: z.object({ saved: z.string().optional() }) } }, async (request, reply) => {
    const row = await getRecord(database.reads, quote, request.params.id)
    return reply.redirect(`/builds/${String(row.buildId)}/quote${request.query.saved === undefined ? '' : '?saved=changed'}`, 303)
  })

  app.post('/builds/:id/option-assignments', { config, schema: { hide: true, params: idParams, body: assignment } }, async (request, reply) => {
    const { id } = request.params
    const { thing, option } = request.body
    try {
      await answerOnce(database, askedOf(request), async (write) => {
        const [name, thingId] = thing.split(':')
        const kind = name === 'equipment line' || name === 'made part' ? getKind(name) : null
        const row = kind ? await findRecord(write, kind, thingId ?? '') : null
        if (!kind || !row || row.buildId !== id || row.removedAt) throw invalid('thing', 'Choose equipment or a made part of this build from the list.')
        if (option !== '' && !(await hasOption(write, id, option))) throw invalid('option', 'Choose an option of this quote from the list, or none.')
        await changeRecord(write, kind, row.id, row.version, { values: { optionId: option === '' ? null : option }, entered: {} }, actorOf(request, shell))
        return { status: 303 }
      })
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      return show(request, reply.status(422), id, { problems: error.fields, typed: { thing, option } })
    }
    return reply.redirect(`/builds/${id}/quote?saved=put`, 303)
  })

  app.post('/builds/:id/revisions', { config, schema: { hide: true, params: idParams, body: frozen } }, async (request, reply) => {
    const answer = await answerOnce(database, askedOf(request), async (write) => {
      const id = await freezeQuote(write, request.params.id, request.body.seen, actorOf(request, shell))
      return { status: 303, location: `/revisions/${id}?saved=frozen` }
    })
    return reply.redirect(answer.location ?? '/', 303)
  })

  async function show(request: FastifyRequest, reply: FastifyReply, id: string, again: Parameters<typeof draftData>[3]): Promise<FastifyReply> {
    const viewer = viewerOn(request)
    const drawn = await drawQuote(database.reads, id, actorOf(request, shell))
    return sendPage(reply, QuoteDraftPage({ viewer, data: draftData(drawn, await listRevisions(database.reads, id, 'quote'), viewer, { ...again, spreads: await loadSpreads(database.reads, drawn.recorded) }) }))
  }
}
