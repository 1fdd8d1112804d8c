import { z } from 'zod'
import { FinalCheckPage } from '../../web/checks/finalCheck.tsx'
import { PointPage } from '../../web/checks/point.tsx'
import { OUTCOMES, type Outcome } from '../calc/checks/checkState.ts'
import { Refusal } from '../calc/refusal.ts'
import { viewerOn } from '../shared/access.ts'
import { answerOnce } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems, invalid } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking, type Workings } from '../shared/workings.ts'
import { answerPoint, answerRight, signCheck, type Given } from './answers.ts'
import { registerCheckApi } from './apiRoutes.ts'
import { arrivalWorkings } from './arrivals.ts'
import { checkOf, type Checked } from './checked.ts'
import { checkData } from './pageData.ts'
import { pointData } from './pointData.ts'
import { pointParams, resultForm, signForm } from './schemas.ts'
import { nameOf } from './shown.ts'

const pageQuery = z.object({ saved: z.enum(['answer', 'signature']).optional().catch(undefined), celsius: z.string().max(20).optional(), how })
const short = z.string().max(60).optional().catch(undefined)
const pointQuery = z.object({ power: short, load: short })

export function registerChecks(app: App, shell: Shell): void {
  const { database } = shell
  const seen = { config: { roles: EVERYBODY } }
  registerCheckApi(app, shell)

  app.get('/builds/:id/final-check', { ...seen, schema: { hide: true, params: idParams, querystring: pageQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { celsius, how: key, saved } = request.query
    const checked = await checkOf(database.reads, request.params.id)
    if (key === undefined) return sendPage(reply, FinalCheckPage({ viewer, data: checkData(checked, viewer, { saved, celsius }) }))
    const workings = workingsAt(checked, celsius)
    const page = `/builds/${request.params.id}`
    return sendWorking(reply, viewer, { workings, how: key, place: 'builds', trail: [{ name: nameOf(checked), href: page }, { name: 'Final check', href: `${page}/final-check` }] })
  })

  app.get('/builds/:id/final-check/:point', { ...seen, schema: { hide: true, params: pointParams, querystring: pointQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { power, load } = request.query
    const typed = { ...(power === undefined ? {} : { power }), ...(load === undefined ? {} : { load }) }
    const checked = await checkOf(database.reads, request.params.id)
    return sendPage(reply, PointPage({ viewer, data: pointData(checked, request.params.point, viewer, { typed, codes: checked.stored.build.faultCodes }) }))
  })

  app.post('/builds/:id/check-results', { ...seen, schema: { hide: true, params: idParams, body: resultForm } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { id } = request.params
    const { point, right, outcome, value, power, load, note } = request.body
    const typed = { outcome, value, power, load, note: note.replaceAll('\r\n', '\n').trim() }
    try {
      const answer = await answerOnce(database, askedOf(request), async (write) => {
        const actor = actorOf(request, shell)
        if (point === undefined) await answerRight(write, id, right, actor, viewer)
        else await answerPoint(write, id, { ...toGiven(typed), point }, actor, viewer)
        return { status: 303, location: `/builds/${id}/final-check?saved=answer` }
      })
      return await reply.redirect(answer.location ?? '/', 303)
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      const checked = await checkOf(database.reads, id)
      reply.status(422)
      if (point === undefined) return sendPage(reply, FinalCheckPage({ viewer, data: checkData(checked, viewer, { problems: error.fields }) }))
      return sendPage(reply, PointPage({ viewer, data: pointData(checked, point, viewer, { typed, problems: error.fields, codes: checked.stored.build.faultCodes }) }))
    }
  })

  app.post('/builds/:id/check-signatures', { ...seen, schema: { hide: true, params: idParams, body: signForm } }, async (request, reply) => {
    const { id } = request.params
    const { signedName, signature, _version } = request.body
    const answer = await answerOnce(database, askedOf(request), async (write) => {
      await signCheck(write, id, { name: signedName, signature, version: _version }, actorOf(request, shell))
      return { status: 303, location: `/builds/${id}/final-check?saved=signature` }
    })
    return reply.redirect(answer.location ?? '/', 303)
  })
}

function workingsAt(checked: Checked, celsius: string | undefined): Workings {
  try {
    return new Map([...arrivalWorkings(checked, celsius)].map(([name, { working }]) => [name, working]))
  } catch (error) {
    if (error instanceof Refusal) throw invalid('celsius', error.message)
    throw error
  }
}

function toGiven({ outcome, note, ...rest }: Omit<Given, 'point' | 'outcome'> & { outcome: string }): Omit<Given, 'point'> {
  const found = OUTCOMES.find((one) => one === outcome)
  if (!found) throw invalid('outcome', 'Choose what was found.')
  if (note.length > 1_000) throw invalid('note', 'A note is at most 1,000 characters long.')
  return { ...rest, note, outcome: found satisfies Outcome }
}
