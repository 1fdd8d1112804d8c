import { z } from 'zod'
import { AfterAllPage, AfterBuildPage } from '../../web/afterbuild/after.tsx'
import { sumInvoices } from '../accounts/store.ts'
import { figuresOf } from '../builds/figures.ts'
import { loadBuild, loadBuilds } from '../builds/store.ts'
import { viewerOn } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { sendPage } from '../shared/pages.ts'
import { label } from '../shared/records/kind.ts'
import { Problem } from '../shared/problems.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { afterAllSchema, afterBuildSchema, hoursCsv, toAfterAllAnswer, toAfterBuildAnswer } from './afterAnswer.ts'
import { afterAllWorkings, afterBuildWorkings, toAfterAllPage, toAfterBuildPage } from './pageData.ts'
import { listDelivered, loadNamesToTell } from './peopleStore.ts'
import { tookOf, type TookBuild } from './tookOf.ts'

/** The newest closed builds that are told. */
const MOST_BUILDS = 100
const config = { roles: MANAGERS }
const querystring = z.object({ how })
const CSV = 'text/csv; charset=utf-8; header=present'

/** Estimate against what it took, of one build and of all closed ones; person-neutral. */
export function registerAfterBuild(app: App, { database: { reads } }: Shell): void {
  app.get('/builds/:id/after', { config, schema: { hide: true, params: idParams, querystring } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const build = await loadTook(reads, request.params.id)
    if (request.query.how !== undefined) {
      const href = `/builds/${build.id}`
      return sendWorking(reply, viewer, { workings: afterBuildWorkings(build), how: request.query.how, place: 'builds', trail: [{ name: build.label, href }, { name: 'After the build', href: `${href}/after` }] })
    }
    return sendPage(reply, AfterBuildPage({ viewer, data: toAfterBuildPage(build) }))
  })

  app.get('/after', { config, schema: { hide: true, querystring } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { builds, leftOut } = await loadAllTook(reads)
    if (request.query.how !== undefined) return sendWorking(reply, viewer, { workings: afterAllWorkings(builds), how: request.query.how, place: 'builds', trail: [{ name: 'After the builds', href: '/after' }] })
    return sendPage(reply, AfterAllPage({ viewer, data: toAfterAllPage(builds, leftOut, viewer) }))
  })

  app.get('/builds/:id/after/hours.csv', { config, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const build = await loadTook(reads, request.params.id)
    return reply.type(CSV).header('content-disposition', 'attachment; filename="hours-by-operation.csv"').send(hoursCsv(build.rows))
  })

  app.get('/after/hours.csv', { config, schema: { hide: true } }, async (_request, reply) =>
    reply.type(CSV).header('content-disposition', 'attachment; filename="hours-by-operation.csv"').send(hoursCsv((await loadAllTook(reads)).builds.flatMap(({ rows }) => rows))))

  app.get('/api/builds/:id/after', {
    config, schema: { tags: ['history'], summary: 'Estimate against hours of a build, by part, department and kind, with margin and rework', params: idParams, response: { 200: afterBuildSchema, ...problemAnswers } },
  }, async (request) => toAfterBuildAnswer(await loadTook(reads, request.params.id)))

  app.get('/api/after', {
    config, schema: { tags: ['history'], summary: 'The same over all closed builds, the newest first', response: { 200: afterAllSchema, ...problemAnswers } },
  }, async () => {
    const { builds, leftOut } = await loadAllTook(reads)
    return toAfterAllAnswer(builds, leftOut)
  })
}

async function loadTook(reads: Reads, id: string): Promise<TookBuild> {
  const stored = await loadBuild(reads, id)
  return tookOf(stored, figuresOf(stored), await loadNamesToTell(reads), (await sumInvoices(reads, [id])).get(id) ?? null)
}

/** The newest closed builds, and the names of those whose figures cannot be made. */
async function loadAllTook(reads: Reads): Promise<{ readonly builds: TookBuild[], readonly leftOut: string[] }> {
  const [builds, names] = [await loadBuilds(reads, await listDelivered(reads, MOST_BUILDS)), await loadNamesToTell(reads)]
  const invoices = await sumInvoices(reads, builds.map(({ head }) => head.id))
  // Records of one build that contradict each other must not take the others away.
  const all = builds.map((stored) => {
    try {
      return tookOf(stored, figuresOf(stored), names, invoices.get(stored.head.id) ?? null)
    } catch (error) {
      if (!(error instanceof Problem)) throw error
      return `${label('B', stored.head.number)} ${stored.head.title}`
    }
  })
  return { builds: all.filter((one) => typeof one !== 'string'), leftOut: all.filter((one) => typeof one === 'string') }
}
