import { TakingPage } from '../../web/taking/taking.tsx'
import { viewerOn } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems } from '../shared/problems.ts'
import { nameOf } from '../shared/records/display.ts'
import { getKind } from '../shared/records/kind.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { getRecord } from '../shared/records/table.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { askTaking } from './asking.ts'
import { questionQuery, readQuestion } from './question.ts'
import { takingSchema, toTakingAnswer } from './takingAnswer.ts'
import { toTakingData } from './takingData.ts'
import { takingWorkings } from './takingWorkings.ts'

const config = { roles: MANAGERS }

/** “Can we take this build by that date?”: placed beside the plan in force. Nothing is written. */
export function registerTaking(app: App, { database: { reads }, clock }: Shell): void {
  app.get('/builds/:id/can-we', { config, schema: { hide: true, params: idParams, querystring: questionQuery.extend({ how }) } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { how: key, ...typed } = request.query
    const build = await headOf(reads, request.params.id)
    const { question, problems } = readQuestion(typed, { wanted: build.wanted, today: viewer.today })
    const asked = problems.length > 0 ? null : await askTaking(reads, build, question, clock())
    const data = toTakingData(asked, { id: build.id, name: build.name, typed, problems })
    if (key !== undefined && asked !== null && 'taking' in asked) {
      const trail = [{ name: data.build, href: data.buildHref }, { name: 'Can we take it', href: `${data.buildHref}/can-we?${data.address}` }]
      return sendWorking(reply, viewer, { workings: takingWorkings(asked, viewer.today), how: key, place: 'builds', trail })
    }
    return sendPage(problems.length > 0 ? reply.status(422) : reply, TakingPage({ viewer, data }))
  })

  app.get('/api/builds/:id/can-we', {
    config, schema: { tags: ['figures'], summary: 'When a build that is not in the plan would be done beside it; nothing is written', params: idParams, querystring: questionQuery, response: { 200: takingSchema, ...problemAnswers } },
  }, async (request) => {
    const build = await headOf(reads, request.params.id)
    const { question, problems } = readQuestion(request.query, { wanted: build.wanted, today: viewerOn(request).today })
    if (problems.length > 0) throw new FieldProblems(problems)
    return toTakingAnswer(await askTaking(reads, build, question, clock()))
  })
}

async function headOf(reads: Reads, id: string): Promise<{ id: string, stage: string, name: string, wanted: string | null }> {
  const kind = getKind('build')
  const row = await getRecord(reads, kind, id)
  const wanted = row.promisedOn ?? row.deadline
  return { id, stage: String(row.stage), name: nameOf(kind, row), wanted: wanted === null ? null : String(wanted) }
}
