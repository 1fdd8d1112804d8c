import { randomUUID } from 'node:crypto'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import { ClosingPage } from '../../web/sheets/closing.tsx'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { countDone } from '../calc/restoration/sheetProgress.ts'
import { loadVehicleState } from '../restoration/store.ts'
import { viewerOn } from '../shared/access.ts'
import { audit } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { answerOnce } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems, invalid, Problem } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { BENCH } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { bringRecords, listRecordChanges, type RecordChange } from './closing.ts'
import { trailOf } from './pageData.ts'
import { progressOf } from './progress.ts'
import { getSheet, listMarks, storeClosing, type StoredSheet } from './store.ts'

const LONGEST_NOTE = 1000
const closingBody = z.looseObject({ note: z.string().trim().max(LONGEST_NOTE).default(''), records: z.enum(['bring', 'leave']).default('bring') })
const closedSchema = z.object({ outcome: z.string(), changes: z.array(z.string()).describe('What was changed in the records, in words') })

interface End {
  readonly sheet: StoredSheet
  readonly done: number
  readonly count: number
  readonly changes: readonly RecordChange[]
}

async function endOf(client: Reads | Write, id: string): Promise<End> {
  const sheet = await getSheet(client, id)
  const progress = progressOf(sheet.content, await listMarks(client, id))
  const changes = listRecordChanges(sheet.content, progress, await loadVehicleState(client, sheet.buildId))
  return { sheet, done: countDone(progress), count: progress.length, changes }
}

/** A sheet ends: all done or broken off; and the records follow it in the same transaction, as far as it was done. */
export function registerClosings(app: App, shell: Shell): void {
  const { database } = shell
  const config = { roles: BENCH }

  app.get('/restorations/:id/closings/new', { config, schema: { hide: true, params: idParams } }, (request, reply) => show(request, reply, request.params.id))

  app.post('/restorations/:id/closings', { config, schema: { hide: true, params: idParams, body: closingBody } }, async (request, reply) => {
    const { id } = request.params
    try {
      await answerOnce(database, askedOf(request), async (write) => {
        await close(write, request, id, request.body)
        return { status: 303 }
      })
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      return show(request, reply.status(422), id, { problems: error.fields, note: request.body.note })
    }
    return reply.redirect(`/restorations/${id}`, 303)
  })

  app.post('/api/restorations/:id/closings', {
    config,
    schema: {
      tags: ['restoration sheets'], summary: 'Close a frozen sheet', params: idParams, body: closingBody, response: { 201: closedSchema, ...problemAnswers },
      description: 'Records: "bring" them to where the ticked steps leave the vehicle, or "leave" them. A sheet that is not all done needs a note.',
    },
  }, async (request, reply) => {
    const answer = await answerOnce(database, askedOf(request), async (write) => ({ status: 201, body: await close(write, request, request.params.id, request.body) }))
    return reply.status(201).send(answer.body as z.infer<typeof closedSchema>)
  })

  async function close(write: Write, request: FastifyRequest, id: string, { note, records }: z.infer<typeof closingBody>): Promise<z.infer<typeof closedSchema>> {
    const { today } = viewerOn(request)
    const actor = actorOf(request, shell)
    const { sheet, done, count, changes } = await endOf(write, id)
    if (sheet.closedOn !== null) throw new Problem(409, 'Closed already', `This sheet was closed on ${sheet.closedOn}.`)
    if (done < count && note === '') throw invalid('note', `${count - done} of ${count} steps are not done. Say why the sheet ends here.`)
    const outcome = done === count ? 'all done' : `broken off with ${done} of ${count} steps done`
    if (await storeClosing(write, sheet, { closedOn: today, outcome, note }) === 0) throw new Problem(409, 'Changed in the meantime', 'Somebody closed this sheet first. Open it again.')
    const brought = records === 'bring' ? changes : []
    await bringRecords(write, sheet.buildId, brought, { number: sheet.number, today }, actor)
    await audit(write, actor, { action: `closed the return-to-stock sheet ${sheet.number}: ${outcome}`, recordKind: 'build', recordId: sheet.buildId, changes: brought.map(({ words }) => ({ field: 'Record', before: null, after: words })) })
    return { outcome, changes: brought.map(({ words }) => words) }
  }

  async function show(request: FastifyRequest, reply: FastifyReply, id: string, typed: { problems: readonly FieldProblem[], note: string } = { problems: [], note: '' }): Promise<FastifyReply> {
    const viewer = viewerOn(request)
    const { sheet, done, count, changes } = await endOf(database.reads, id)
    const data = { ...typed, trail: [...trailOf(sheet), { name: 'Close' }], number: sheet.number, title: sheet.title, done, count, changes: changes.map(({ words }) => words), action: `/restorations/${id}/closings`, backHref: `/restorations/${id}`, key: randomUUID(), isClosed: sheet.closedOn !== null }
    return sendPage(reply, ClosingPage({ viewer, data }))
  }
}
