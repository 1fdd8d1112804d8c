import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { inputSchema } from '../shared/records/inputSchema.ts'
import { getKind } from '../shared/records/kind.ts'
import { idParams, problemAnswers, recordSchema, toJson } from '../shared/records/schemas.ts'
import { readJson, type Body } from '../shared/records/submission.ts'
import { createRecord, getRecord } from '../shared/records/table.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { intake } from './records.ts'

/** A build has one intake, so it is made under its build; from then on it is a record like others. */
export function registerIntakeApi(app: App, shell: Shell): void {
  app.post('/api/builds/:id/intakes', {
    config: { roles: EVERYBODY },
    schema: { tags: [intake.plural], summary: 'Begin the intake of a build', params: idParams, body: inputSchema(intake, false), response: { 201: recordSchema(intake), ...problemAnswers } },
  }, async (request, reply) => {
    const viewer = viewerOn(request)
    await getRecord(shell.database.reads, getKind('build'), request.params.id)
    const submitted = readJson(intake, viewer.role, true, request.body as Body, viewer)
    const answer = await answerOnce(shell.database, askedOf(request), async (write): Promise<Answer> => {
      const row = await createRecord(write, intake, request.params.id, submitted, actorOf(request, shell))
      return { status: 201, location: `/api/${intake.path}/${row.id}`, body: toJson(intake, row, viewer.role) }
    })
    reply.header('location', answer.location ?? '')
    return reply.status(201).send(answer.body as Record<string, unknown>)
  })
}
