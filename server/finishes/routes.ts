import { z } from 'zod'
import { SampleBlock } from '../../web/finishes/sample.tsx'
import { FinishSchedulePage } from '../../web/finishes/schedule.tsx'
import { RecordPage } from '../../web/records/record.tsx'
import type { FieldProblem, Viewer } from '../../web/shared/viewer.ts'
import { loadBuild } from '../builds/store.ts'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { recordData } from '../shared/records/pageData.ts'
import { registerRecords } from '../shared/records/register.ts'
import { idParams } from '../shared/records/schemas.ts'
import type { Body } from '../shared/records/submission.ts'
import { getRecord } from '../shared/records/table.ts'
import { COUNTER, EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { decide, readDecision, showSample } from './acts.ts'
import { registerFinishApi } from './apiRoutes.ts'
import { finish } from './records.ts'
import { toSample } from './sample.ts'
import { toSchedule } from './schedule.ts'
import { listFinishes } from './store.ts'

const savedQuery = z.object({ saved: z.enum(['created', 'changed', 'removed', 'recovered', 'shown', 'approved', 'refused']).optional().catch(undefined) })

export function registerFinishes(app: App, shell: Shell): void {
  registerRecords(app, shell, [finish])
  registerFinishApi(app, shell)
  registerSchedule(app, shell)
  registerSamples(app, shell)
}

function registerSchedule(app: App, { database: { reads } }: Shell): void {
  app.get('/builds/:id/finishes', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const stored = await loadBuild(reads, request.params.id)
    return sendPage(reply, FinishSchedulePage({ viewer, data: toSchedule(stored, await listFinishes(reads, stored.head.id), viewer) }))
  })
}

interface Again {
  readonly typed: Body
  readonly problems: readonly FieldProblem[]
}

/** The page of a finish, with the sample and what the customer said to it. */
function registerSamples(app: App, shell: Shell): void {
  const { database } = shell
  const { reads } = database

  app.get('/finishes/:id', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: savedQuery } }, async (request, reply) =>
    sendPage(reply, await page(request.params.id, viewerOn(request), request.query.saved ?? null)))

  app.post('/finishes/:id/samples', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const { id } = request.params
    const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
      await showSample(write, id, actorOf(request, shell))
      return { status: 303, location: `/finishes/${id}?saved=shown` }
    })
    return reply.redirect(answer.location ?? '/', 303)
  })

  app.post('/finishes/:id/approvals', { config: { roles: COUNTER }, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const { id } = request.params
    const viewer = viewerOn(request)
    const body = (request.body ?? {}) as Body
    try {
      const decision = readDecision(body, viewer, viewer.today)
      const answer = await answerOnce(database, askedOf(request), async (write): Promise<Answer> => {
        await decide(write, id, decision, actorOf(request, shell))
        return { status: 303, location: `/finishes/${id}?saved=${decision.decision}` }
      })
      return await reply.redirect(answer.location ?? '/', 303)
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      return sendPage(reply.status(422), await page(id, viewer, null, { typed: body, problems: error.fields }))
    }
  })

  async function page(id: string, viewer: Viewer, saved: string | null, again?: Again): Promise<JSX.Element> {
    const row = await getRecord(reads, finish, id)
    const data = await recordData(reads, finish, row, viewer, saved)
    return RecordPage({ viewer, data, children: row.removedAt ? undefined : SampleBlock({ viewer, data: toSample(row, data.history, viewer, again) }) })
  }
}
