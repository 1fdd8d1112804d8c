import { z } from 'zod'
import { BuildHistoryPage } from '../../web/history/buildHistory.tsx'
import { HistoryPage } from '../../web/history/history.tsx'
import { viewerOn } from '../shared/access.ts'
import { answerOnce } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { currentRatio, wantedRatio } from './accepting.ts'
import { buildHistoryWorkings, loadBuildHistory, toBuildHistoryPage } from './buildData.ts'
import { acceptCorrection, takeBackCorrection } from './correctionStore.ts'
import { buildHistorySchema, historySchema, toBuildHistoryAnswer, toHistoryAnswer } from './historyAnswer.ts'
import { historyWorkings, loadShopHistory, toHistoryPage } from './historyData.ts'

const config = { roles: MANAGERS }
const correctionParams = z.object({ id: z.uuid(), correctionId: z.uuid() })
const querystring = z.object({ how })

/** What the shop's own hours teach, and what of it a manager accepts for a build. */
export function registerHistory(app: App, shell: Shell): void {
  const { database } = shell
  const { reads } = database

  app.get('/history', { config, schema: { hide: true, querystring } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const history = await loadShopHistory(reads)
    if (request.query.how !== undefined) return sendWorking(reply, viewer, { workings: historyWorkings(history), how: request.query.how, place: 'builds', trail: [{ name: 'How our hours run', href: '/history' }] })
    return sendPage(reply, HistoryPage({ viewer, data: toHistoryPage(history) }))
  })

  app.get('/builds/:id/history', { config, schema: { hide: true, params: idParams, querystring } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const found = await loadBuildHistory(reads, request.params.id)
    const data = toBuildHistoryPage(found)
    if (request.query.how !== undefined) {
      const trail = [{ name: data.build, href: data.buildHref }, { name: 'What our hours say', href: `${data.buildHref}/history` }]
      return sendWorking(reply, viewer, { workings: buildHistoryWorkings(found), how: request.query.how, place: 'builds', trail })
    }
    return sendPage(reply, BuildHistoryPage({ viewer, data }))
  })

  app.post('/builds/:id/hour-corrections', { config, schema: { hide: true, params: idParams, body: wantedRatio } }, async (request, reply) => {
    const { id } = request.params
    const learned = await currentRatio(reads, id, request.body)
    await answerOnce(database, askedOf(request), async (write) => {
      await acceptCorrection(write, { ...request.body, buildId: id }, learned, actorOf(request, shell))
      return { status: 303, location: `/builds/${id}/history` }
    })
    return reply.redirect(`/builds/${id}/history`, 303)
  })

  app.post('/builds/:id/hour-corrections/:correctionId/taken-back', { config, schema: { hide: true, params: correctionParams } }, async (request, reply) => {
    const { id, correctionId } = request.params
    await answerOnce(database, askedOf(request), async (write) => {
      await takeBackCorrection(write, { buildId: id, id: correctionId }, actorOf(request, shell))
      return { status: 303, location: `/builds/${id}/history` }
    })
    return reply.redirect(`/builds/${id}/history`, 303)
  })

  registerHistoryApi(app, shell)
}

function registerHistoryApi(app: App, shell: Shell): void {
  const { database } = shell
  const { reads } = database
  const tags = ['history']

  app.get('/api/history', {
    config, schema: { tags, summary: 'Hours logged beside their estimates, by operation kind and department, and how well estimates held', response: { 200: historySchema, ...problemAnswers } },
  }, async () => toHistoryAnswer(await loadShopHistory(reads)))

  app.get('/api/builds/:id/hour-corrections', {
    config, schema: { tags, summary: 'What the shop’s hours say of a build, and what of it was accepted', params: idParams, response: { 200: buildHistorySchema, ...problemAnswers } },
  }, async (request) => toBuildHistoryAnswer(await loadBuildHistory(reads, request.params.id)))

  app.post('/api/builds/:id/hour-corrections', {
    config, schema: { tags, summary: 'Accept a ratio of the shop’s hours for a build', params: idParams, body: wantedRatio, response: { 201: z.object({ id: z.string() }), ...problemAnswers } },
  }, async (request, reply) => {
    const { id } = request.params
    const learned = await currentRatio(reads, id, request.body)
    const answer = await answerOnce(database, askedOf(request), async (write) =>
      ({ status: 201, body: { id: await acceptCorrection(write, { ...request.body, buildId: id }, learned, actorOf(request, shell)) } }))
    return reply.status(201).send(answer.body as { id: string })
  })

  app.post('/api/builds/:id/hour-corrections/:correctionId/taken-back', {
    config, schema: { tags, summary: 'Take back an accepted ratio: the estimate stands as it was typed', params: correctionParams, response: { 200: z.object({ id: z.string() }), ...problemAnswers } },
  }, async (request) => {
    const { id, correctionId } = request.params
    await answerOnce(database, askedOf(request), async (write) => {
      await takeBackCorrection(write, { buildId: id, id: correctionId }, actorOf(request, shell))
      return { status: 200, body: { id: correctionId } }
    })
    return { id: correctionId }
  })
}
