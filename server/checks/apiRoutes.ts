import { viewerOn } from '../shared/access.ts'
import { answerOnce } from '../shared/once.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import type { z } from 'zod'
import { answerPoint, signCheck } from './answers.ts'
import { checkOf } from './checked.ts'
import { checkAnswer, resultBody, signBody } from './schemas.ts'
import { toAnswer } from './shown.ts'

const tags = ['final checks']
const TAGGED = { tags, params: idParams }

export function registerCheckApi(app: App, shell: Shell): void {
  const { database } = shell
  const seen = { config: { roles: EVERYBODY } }

  app.get('/api/builds/:id/final-check', {
    ...seen, schema: { ...TAGGED, summary: 'The final check: which points apply, what was found, what is open', response: { 200: checkAnswer, ...problemAnswers } },
  }, async (request) => toAnswer(await checkOf(database.reads, request.params.id)))

  app.post('/api/builds/:id/check-results', {
    ...seen, schema: { ...TAGGED, summary: 'Say what was found at a point', body: resultBody, response: { 201: checkAnswer, ...problemAnswers } },
  }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { id } = request.params
    const answer = await answerOnce(database, askedOf(request), async (write) => {
      await answerPoint(write, id, request.body, actorOf(request, shell), viewer)
      return { status: 201, body: toAnswer(await checkOf(write, id)) }
    })
    return reply.status(201).send(answer.body as z.infer<typeof checkAnswer>)
  })

  app.post('/api/builds/:id/check-signatures', {
    ...seen, schema: { ...TAGGED, summary: 'Sign the final check', body: signBody, response: { 201: checkAnswer, ...problemAnswers } },
  }, async (request, reply) => {
    const { id } = request.params
    const { signedName, signature } = request.body
    const answer = await answerOnce(database, askedOf(request), async (write) => {
      await signCheck(write, id, { name: signedName, signature, version: null }, actorOf(request, shell))
      return { status: 201, body: toAnswer(await checkOf(write, id)) }
    })
    return reply.status(201).send(answer.body as z.infer<typeof checkAnswer>)
  })
}
