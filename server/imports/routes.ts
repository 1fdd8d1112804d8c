import type { FastifyReply, FastifyRequest } from 'fastify'
import type { ZodTypeProvider } from 'fastify-type-provider-zod'
import { DryRunPage } from '../../web/imports/dryRun.tsx'
import { ImportsPage } from '../../web/imports/imports.tsx'
import { viewerOn } from '../shared/access.ts'
import type { Encoding } from '../shared/csv/decode.ts'
import { answerOnce } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems, VersionConflict } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { registerExports } from './exportRoutes.ts'
import { registerImportApi } from './apiRoutes.ts'
import { carryOut, isReady, planImport, type Plan } from './importing.ts'
import { dryRunData, importsData } from './pageData.ts'
import { exchangedKinds, importBody, toUpload, type ImportBody } from './requests.ts'
import { doneIn, doneQuery, locationOf } from './done.ts'
import { takeUploads } from './uploads.ts'

// A text of 1 MB may take three times its length in a form.
export const LARGEST_IMPORT_BODY = 4 * 1024 * 1024

/** Thrown inside the transaction where the plan is not the one that was shown, or cannot be carried out. */
class PlanShownAgain extends Error {
  readonly plan: Plan
  constructor(plan: Plan) {
    super('the plan is shown again')
    this.plan = plan
  }
}

export function registerImports(app: App, shell: Shell): void {
  registerExports(app, shell)
  registerImportApi(app, shell)
  app.register(async (scope) => registerImportPages(scope.withTypeProvider<ZodTypeProvider>() as unknown as App, shell))
}

function registerImportPages(app: App, shell: Shell): void {
  const { database } = shell
  const config = { roles: MANAGERS }
  takeUploads(app, LARGEST_IMPORT_BODY)

  app.get('/imports', { config, schema: { hide: true, querystring: doneQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const kind = exchangedKinds().find(({ path }) => path === request.query.kind)
    const data = await importsData(database.reads, viewer, { kind: kind?.path ?? '', build: request.query.build ?? '' }, [])
    return sendPage(reply, ImportsPage({ viewer, data: { ...data, ...await doneIn(database.reads, request.query) } }))
  })

  app.post('/imports/readings', { config, bodyLimit: LARGEST_IMPORT_BODY, schema: { hide: true, body: importBody } }, async (request, reply) =>
    reshown(request, reply, request.body, async () => {
      const { asked, encoding } = toUpload(request.body)
      const plan = await planImport(database.reads, asked, viewerOn(request), actorOf(request, shell))
      return show(request, reply, plan, encoding, null)
    }))

  app.post('/imports', { config, bodyLimit: LARGEST_IMPORT_BODY, schema: { hide: true, body: importBody } }, async (request, reply) =>
    reshown(request, reply, request.body, async () => {
      const viewer = viewerOn(request)
      const actor = actorOf(request, shell)
      const { asked } = toUpload(request.body)
      const answer = await answerOnce(database, askedOf(request), async (write) => {
        const plan = await planImport(write, asked, viewer, actor)
        if (!isReady(plan) || plan.fingerprint !== request.body.fingerprint) throw new PlanShownAgain(plan)
        await carryOut(write, plan, actor)
        return { status: 303, location: locationOf(plan) }
      })
      return reply.redirect(answer.location ?? '/imports', 303)
    }))

  /** Shows the first page again with what is wrong, or the plan as it is now. */
  async function reshown(request: FastifyRequest, reply: FastifyReply, body: ImportBody, work: () => Promise<FastifyReply>): Promise<FastifyReply> {
    try {
      return await work()
    } catch (error) {
      if (error instanceof PlanShownAgain) return show(request, reply.status(409), error.plan, null, SHOWN_AGAIN)
      if (error instanceof VersionConflict) return show(request, reply.status(409), await planAgain(request, body), null, SHOWN_AGAIN)
      if (!(error instanceof FieldProblems)) throw error
      const viewer = viewerOn(request)
      const data = await importsData(database.reads, viewer, body, error.fields)
      return sendPage(reply.status(422), ImportsPage({ viewer, data: { ...data, ...await doneIn(database.reads, {}) } }))
    }
  }

  const planAgain = (request: FastifyRequest, body: ImportBody): Promise<Plan> =>
    planImport(database.reads, toUpload(body).asked, viewerOn(request), actorOf(request, shell))

  async function show(request: FastifyRequest, reply: FastifyReply, plan: Plan, encoding: Encoding | null, stale: string | null): Promise<FastifyReply> {
    const viewer = viewerOn(request)
    return sendPage(reply, DryRunPage({ viewer, data: await dryRunData(database.reads, viewer, plan, encoding, stale) }))
  }
}

const SHOWN_AGAIN = 'Nothing was written: the text, its columns or the shop’s records are not those that were shown. This is what would happen now.'
