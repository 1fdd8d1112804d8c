import type { FastifyRequest } from 'fastify'
import { z } from 'zod'
import { PreviewPage } from '../../web/takeovers/preview.tsx'
import { SourcesPage } from '../../web/takeovers/sources.tsx'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams } from '../shared/records/schemas.ts'
import type { Body } from '../shared/records/submission.ts'
import { BENCH } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how } from '../shared/workings.ts'
import { refuseTechnician } from './apiRoutes.ts'
import { readState, toWanted, type FormState } from './formState.ts'
import { sendHours } from './hoursPage.ts'
import { keysOf } from './keys.ts'
import { toPreview } from './preview.ts'
import { toSources } from './sources.ts'
import { loadTarget } from './store.ts'
import { findBoth, loadSource, takeOver, type Source } from './takeover.ts'
import { checkWanted } from './wanted.ts'

const config = { roles: BENCH }
// A figure of the preview names its build itself.
const previewQuery = z.looseObject({ source: z.uuid().optional(), how }).refine((query) => query.source !== undefined || query.how !== undefined, { path: ['source'], message: 'the build to take from' })

/** Choosing an earlier build, the preview of what would come over, and the one press that writes it. */
export function registerTakeoverPages(app: App, shell: Shell): void {
  const { reads } = shell.database

  app.get('/builds/:id/templates', { config, schema: { hide: true, params: idParams, querystring: z.object({ find: z.string().max(100).catch('') }) } }, async (request, reply) => {
    const viewer = viewerOn(request)
    return sendPage(reply, SourcesPage({ viewer, data: await toSources(reads, viewer, request.params.id, request.query.find.trim()) }))
  })

  app.get('/builds/:id/templates/preview', { config, schema: { hide: true, params: idParams, querystring: previewQuery } }, async (request, reply) => {
    if (request.query.how !== undefined) return sendHours(reply, reads, viewerOn(request), request.query.how)
    const state = readState(request.query)
    return sendPage(reply, await preview(request, request.params.id, state, await sourceOf(request.params.id, state)))
  })

  app.post('/builds/:id/templates/preview', { config, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const state = readState(bodyOf(request))
    return sendPage(reply, await preview(request, request.params.id, state, await sourceOf(request.params.id, state)))
  })

  app.post('/builds/:id/takeovers', { config, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const { id } = request.params
    const viewer = viewerOn(request)
    const state = readState(bodyOf(request))
    refuseTechnician(viewer, state.what)
    const source = await sourceOf(id, state)
    try {
      const wanted = toWanted(state, source.rows, keysOf(source.rows), viewer)
      const answer = await answerOnce(shell.database, askedOf(request), async (write): Promise<Answer> => {
        await takeOver(write, id, wanted, source, actorOf(request, shell))
        return { status: 303, location: `/builds/${id}/comparison?source=${source.build.id}&saved=taken` }
      })
      return await reply.redirect(answer.location ?? '/', 303)
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      return sendPage(reply.status(422), await preview(request, id, state, source, error.fields))
    }
  })

  async function sourceOf(buildId: string, state: FormState): Promise<Source> {
    const { source } = await findBoth(reads, buildId, state.sourceId)
    return loadSource(reads, source)
  }

  async function preview(request: FastifyRequest, buildId: string, state: FormState, source: Source, problems: readonly FieldProblem[] = []): Promise<JSX.Element> {
    const viewer: Viewer = viewerOn(request)
    refuseTechnician(viewer, state.what)
    const [{ build }, target] = await Promise.all([findBoth(reads, buildId, state.sourceId), loadTarget(reads, buildId)])
    // An address that somebody made up is refused before anything is drawn of it.
    checkWanted({ ...state, intoZoneId: null, leftOut: new Set(), quantities: new Map(), times: new Map(), logged: new Set() }, source.rows, target)
    const key = bodyOf(request)._key
    return PreviewPage({ viewer, data: toPreview({ build, source, target, state, key: typeof key === 'string' ? key : '', problems }, viewer) })
  }
}

const bodyOf = (request: FastifyRequest): Body => (request.body ?? {}) as Body
