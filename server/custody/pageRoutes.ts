import { randomUUID } from 'node:crypto'
import { z } from 'zod'
import { CustodyPage } from '../../web/custody/custody.tsx'
import { KeptPage } from '../../web/custody/kept.tsx'
import { MoveFormPage, type MoveFormData } from '../../web/custody/moveForm.tsx'
import { PartHistoryPage } from '../../web/custody/partHistory.tsx'
import { ReceiptPage } from '../../web/custody/receipt.tsx'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { needsPlace } from '../calc/removal/custody.ts'
import { viewerOn } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { makeSheet, PAPERS } from '../shared/pdf/makeSheet.ts'
import { FieldProblems } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { label } from '../shared/records/kind.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { custodyData } from './custodyData.ts'
import { partHistoryData } from './historyData.ts'
import { CUTS, keptData } from './keptData.ts'
import { moveForm, PRESSED_KINDS, readNumbers, type MoveBody } from './moveAsked.ts'
import { moveAsAsked } from './moving.ts'
import { loadCustody } from './readStore.ts'
import { receiptData } from './receiptData.ts'
import { receiptSheet } from './receiptPdf.ts'

const uuid = z.object({ id: z.uuid() })
const paperQuery = z.object({ paper: z.enum(PAPERS).default('A4').catch('A4') })
const movedQuery = z.object({ moved: z.uuid().optional(), count: z.coerce.number().int().min(1).max(999).optional().catch(undefined) })
const newQuery = z.object({
  kind: z.enum(PRESSED_KINDS).catch('stored').default('stored'),
  parts: z.union([z.string().max(4_000), z.array(z.string().max(20)).max(300)]).default('').transform((given) => [given].flat().join(' ')),
  bin: z.string().max(20).default(''),
})
const keptQuery = z.object({ find: z.string().trim().max(100).default(''), where: z.enum(CUTS).catch('all').default('all'), page: z.coerce.number().int().min(1).max(1_000).catch(1).default(1) })

export function registerCustodyPages(app: App, shell: Shell): void {
  const { database } = shell
  const { reads } = database
  const roles = { roles: EVERYBODY }

  app.get('/custody', { config: roles, schema: { hide: true, querystring: keptQuery } }, async (request, reply) =>
    sendPage(reply, KeptPage({ viewer: viewerOn(request), data: await keptData(reads, request.query) })))

  app.get('/builds/:id/custody', { config: roles, schema: { hide: true, params: uuid, querystring: movedQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { moved: id, count } = request.query
    return sendPage(reply, CustodyPage({ viewer, data: await custodyData(reads, request.params.id, { id, count }) }))
  })

  app.get('/factory-parts/:id/custody', { config: roles, schema: { hide: true, params: uuid } }, async (request, reply) => {
    const viewer = viewerOn(request)
    return sendPage(reply, PartHistoryPage({ viewer, data: await partHistoryData(reads, request.params.id, viewer) }))
  })

  app.get('/custody-moves/:id/receipt', { config: roles, schema: { hide: true, params: uuid } }, async (request, reply) => {
    const viewer = viewerOn(request)
    return sendPage(reply, ReceiptPage({ viewer, data: await receiptData(reads, request.params.id, viewer) }))
  })

  app.get('/custody-moves/:id/receipt.pdf', { config: roles, schema: { hide: true, params: uuid, querystring: paperQuery } }, async (request, reply) => {
    const data = await receiptData(reads, request.params.id, viewerOn(request))
    const made = await makeSheet(receiptSheet(data, request.query.paper), (signs) => request.log.warn({ receipt: data.titleBlock.number, signs }, 'signs that the fonts of papers lack stand as their codes'))
    return reply.type('application/pdf').header('cache-control', 'no-store').header('content-disposition', `inline; filename="${data.titleBlock.number}.pdf"`).send(made.data)
  })

  app.get('/builds/:id/moves/new', { config: roles, schema: { hide: true, params: uuid, querystring: newQuery } }, async (request, reply) => {
    const typed = { ...request.query, place: '', toWhom: '', signedName: '', note: '' }
    return sendPage(reply, MoveFormPage({ viewer: viewerOn(request), data: await formData(reads, request.params.id, typed, []) }))
  })

  app.post('/builds/:id/moves', { config: roles, schema: { hide: true, params: uuid, body: moveForm } }, async (request, reply) => {
    const { id } = request.params
    await loadCustody(reads, id)
    try {
      const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
        const moved = await moveAsAsked(write, id, request.body, actorOf(request, shell))
        return { status: 303, location: `/builds/${id}/custody?moved=${moved[0] ?? ''}&count=${moved.length}` }
      })
      return await reply.redirect(answer.location ?? '/', 303)
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      return sendPage(reply.status(422), MoveFormPage({ viewer: viewerOn(request), data: await formData(reads, id, request.body, error.fields) }))
    }
  })
}

type Typed = MoveFormData['values'] & { readonly kind: MoveBody['kind'], readonly _key?: unknown }

async function formData(reads: Reads, buildId: string, typed: Typed, problems: readonly FieldProblem[]): Promise<MoveFormData> {
  const build = await loadCustody(reads, buildId)
  const numbers = readNumbers(typed.parts, 'F')
  const chosen = build.factoryParts.filter(({ number }) => numbers?.includes(number))
  const page = `/builds/${buildId}/custody`
  return {
    trail: [{ name: `${label('B', build.number)} ${build.title}`, href: `/builds/${buildId}` }, { name: 'Where the factory parts are', href: page }, { name: typed.kind }],
    kind: typed.kind, asksPlace: needsPlace(typed.kind), chosen: chosen.map(({ number, name }) => `${label('F', number)} ${name}`),
    bins: build.bins.map(({ number, place }) => ({ value: label('A', number), label: `${label('A', number)}, ${place}` })),
    values: {
      parts: numbers === null ? typed.parts : numbers.map((number) => label('F', number)).join(', '), bin: binLabel(typed.bin),
      place: typed.place, toWhom: typed.toWhom, signedName: typed.signedName, note: typed.note,
    },
    problems, action: `/builds/${buildId}/moves`, key: typeof typed._key === 'string' ? typed._key : randomUUID(), cancelHref: page,
  }
}

const binLabel = (typed: string): string => {
  const number = readNumbers(typed, 'A')?.[0]
  return number === undefined ? typed : label('A', number)
}
