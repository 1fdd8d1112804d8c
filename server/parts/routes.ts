import { z } from 'zod'
import { PartPage } from '../../web/parts/part.tsx'
import { FormPage } from '../../web/records/form.tsx'
import { RecordPage } from '../../web/records/record.tsx'
import { figuresOf } from '../builds/figures.ts'
import { savedOf } from '../builds/saved.ts'
import { loadBuild } from '../builds/store.ts'
import { loadEarlierHours } from '../takeovers/earlier.ts'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems, notFound } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { originOf } from '../shared/records/origin.ts'
import { recordData } from '../shared/records/pageData.ts'
import { registerRecords } from '../shared/records/register.ts'
import { idParams } from '../shared/records/schemas.ts'
import type { Body } from '../shared/records/submission.ts'
import { createRecord, getRecord } from '../shared/records/table.ts'
import { BENCH, EVERYBODY } from '../shared/roles.ts'
import { how, sendWorking } from '../shared/workings.ts'
import type { App, Shell } from '../shared/shell.ts'
import { sourcesOf, toPartPage } from './partPage.ts'
import { partWorkings } from './partWorkings.ts'
import { pieceForm, readPiece } from './pieces.ts'
import { part, partUse } from './records.ts'

const partQuery = z.object({ saved: z.enum(['created', 'changed', 'removed', 'recovered']).optional().catch(undefined), how })
const newQuery = z.object({ _another: z.string().optional() })

export function registerParts(app: App, shell: Shell): void {
  registerRecords(app, shell, [part, partUse])
  registerPart(app, shell)
  registerPieces(app, shell)
}

function registerPart(app: App, { database: { reads } }: Shell): void {
  app.get('/parts/:id', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: partQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const row = await getRecord(reads, part, request.params.id)
    const saved = request.query.saved ?? null
    const record = await recordData(reads, part, row, viewer, saved)
    if (row.removedAt) return sendPage(reply, RecordPage({ viewer, data: record }))
    const stored = await loadBuild(reads, String(row.buildId))
    const sources = { ...sourcesOf(stored, figuresOf(stored), row.id), earlier: await loadEarlierHours(reads, row.id) }
    const data = toPartPage(sources, viewer)
    if (request.query.how !== undefined) {
      const trail = [{ name: data.trail[0]?.name ?? '', href: `/builds/${stored.head.id}` }, { name: `${data.number} ${data.name}`, href: `/parts/${row.id}` }]
      return sendWorking(reply, viewer, { workings: partWorkings(sources, data.operations), how: request.query.how, place: 'builds', trail, places: 2 })
    }
    const origin = await originOf(reads, part, row)
    const next = saved === 'created' ? { href: `/part-uses/new?build=${String(row.buildId)}&partId=${row.id}`, name: 'Put it into an assembly' } : undefined
    return sendPage(reply, PartPage({ viewer, data: { ...data, origin: origin[0]?.href ? { text: origin[0].text, href: origin[0].href, comparisonHref: `/builds/${String(row.buildId)}/comparison` } : undefined, photos: record.photos, history: record.history, saved: savedOf(record.saved, viewer, next) } }))
  })

  app.get('/parts/:id/record', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const row = await getRecord(reads, part, request.params.id)
    return sendPage(reply, RecordPage({ viewer, data: await recordData(reads, part, row, viewer, null) }))
  })
}

/** A new part and its use in an assembly, in one form and one write. */
function registerPieces(app: App, shell: Shell): void {
  const { database } = shell
  const getAssembly = async (id: string) => {
    const row = await getRecord(database.reads, part, id)
    if (row.removedAt) throw notFound('made part')
    return row
  }

  app.get('/parts/:id/pieces/new', { config: { roles: BENCH }, schema: { hide: true, params: idParams, querystring: newQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const assembly = await getAssembly(request.params.id)
    const data = await pieceForm(database.reads, assembly, viewer, { another: request.query._another !== undefined })
    return sendPage(reply, FormPage({ viewer, data }))
  })

  app.post('/parts/:id/pieces', { config: { roles: BENCH }, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const body = (request.body ?? {}) as Body
    const assembly = await getAssembly(request.params.id)
    try {
      const piece = readPiece(body, viewer)
      const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
        const actor = actorOf(request, shell)
        const buildId = String(assembly.buildId)
        const row = await createRecord(write, part, buildId, piece.part, actor)
        const use = { parentId: assembly.id, partId: row.id, quantity: piece.each }
        await createRecord(write, partUse, buildId, { values: use, entered: {} }, actor)
        return { status: 303, location: body._another ? `/parts/${assembly.id}/pieces/new?_another=true` : `/parts/${row.id}?saved=created` }
      })
      return await reply.redirect(answer.location ?? '/', 303)
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      const data = await pieceForm(database.reads, assembly, viewer, { typed: body, problems: error.fields })
      return sendPage(reply.status(422), FormPage({ viewer, data }))
    }
  })
}
