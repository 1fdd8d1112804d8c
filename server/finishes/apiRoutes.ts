import { z } from 'zod'
import { viewerOn } from '../shared/access.ts'
import { answerOnce, type Answer } from '../shared/once.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams, problemAnswers, recordSchema, toJson } from '../shared/records/schemas.ts'
import type { Body } from '../shared/records/submission.ts'
import { COUNTER, EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { decide, readDecision, showSample } from './acts.ts'
import { finish } from './records.ts'

const decisionSchema = z.looseObject({
  decision: z.unknown().optional().meta({ type: 'string', enum: ['approved', 'refused'], description: 'What the customer decided; approved where left out' }),
  by: z.unknown().optional().meta({ type: 'string', description: 'By whom' }),
  on: z.unknown().optional().meta({ type: 'string', description: 'The day, YYYY-MM-DD; today where left out' }),
  why: z.unknown().optional().meta({ type: 'string', description: 'Why it was refused; needed then' }),
}).meta({ additionalProperties: false, required: ['by'] })

/** The sample of a finish under /api: that it was shown, and what the customer said. */
export function registerFinishApi(app: App, shell: Shell): void {
  const tags = ['finishes']
  const record = recordSchema(finish)

  app.post('/api/finishes/:id/samples', {
    config: { roles: EVERYBODY }, schema: { tags, summary: 'Note that the sample was shown', params: idParams, response: { 200: record, ...problemAnswers } },
  }, async (request) => {
    const { role } = viewerOn(request)
    const answer = await answerOnce(shell.database, askedOf(request), async (write): Promise<Answer> => (
      { status: 200, body: toJson(finish, await showSample(write, request.params.id, actorOf(request, shell)), role) }
    ))
    return answer.body as z.infer<typeof record>
  })

  app.post('/api/finishes/:id/approvals', {
    config: { roles: COUNTER },
    schema: { tags, summary: 'Write down what the customer decided about the sample', params: idParams, body: decisionSchema, response: { 200: record, ...problemAnswers } },
  }, async (request) => {
    const viewer = viewerOn(request)
    const decision = readDecision(request.body as Body, viewer, viewer.today)
    const answer = await answerOnce(shell.database, askedOf(request), async (write): Promise<Answer> => (
      { status: 200, body: toJson(finish, await decide(write, request.params.id, decision, actorOf(request, shell)), viewer.role) }
    ))
    return answer.body as z.infer<typeof record>
  })
}
