import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import { DifferencesPage } from '../../web/schedule/differences.tsx'
import { SchedulePage } from '../../web/schedule/schedule.tsx'
import { shopOf, viewerOn } from '../shared/access.ts'
import { answerOnce } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { FieldProblems } from '../shared/problems.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { LONGEST_LINE } from '../shared/records/reading.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { registerChances } from './chancesRoutes.ts'
import { toDifferences } from './differencesData.ts'
import { loadUnsureFacts } from './facts.ts'
import { registerLateness } from './lateRoutes.ts'
import { registerMoving } from './movingRoutes.ts'
import { newPlanner, WAYS, type Planner, type Way } from './planner.ts'
import { loadPlanInForce } from './planStore.ts'
import { drawProposal } from './proposals.ts'
import { differenceSchema, scheduleSchema, toDifferenceAnswer, toScheduleAnswer } from './scheduleAnswer.ts'
import { toScheduleData } from './scheduleData.ts'
import { loadStands } from './standingData.ts'
import { isFirstPress } from './pressedOnce.ts'
import { listCalls } from './calls.ts'
import { findProposal, takeProposal } from './taking.ts'

const way = z.enum(WAYS, `Say how: ${WAYS.join(' or ')}.`).default('least change')
const reason = z.string().trim().max(LONGEST_LINE).default('')
const taken = z.object({ proposal: z.uuid('Say which proposal.'), asked: z.array(z.uuid()).max(100).default([]).describe('People who were asked whether their today may change'), reason })
const ASKED = 'asked-'

/** One schedule for the whole shop: proposed on a manager’s word, bettered beside the service, in force once a manager takes it. */
export function registerSchedule(app: App, shell: Shell): void {
  const planner = newPlanner()
  app.addHook('onClose', () => planner.close())
  registerPages(app, shell, planner)
  registerApi(app, shell, planner)
  registerLateness(app, shell)
  registerChances(app, shell)
  registerMoving(app, shell, planner)
}

async function begin(planner: Planner, { database: { reads }, clock }: Shell, request: FastifyRequest, how: Way): Promise<void> {
  const now = clock()
  planner.begin({ facts: await loadUnsureFacts(reads, now), now, way: how, base: await loadPlanInForce(reads), timeZone: (await shopOf(reads)).timeZone }, request.log)
}

function registerPages(app: App, shell: Shell, planner: Planner): void {
  const { database, clock } = shell
  const { reads } = database
  const config = { roles: MANAGERS }

  app.get('/schedule', { config, schema: { hide: true } }, async (request, reply) => {
    const viewer = viewerOn(request)
    return sendPage(reply, SchedulePage({ viewer, data: toScheduleData(await loadStands(reads, planner, clock())) }))
  })

  app.post('/schedule/plan', { config, schema: { hide: true, body: z.looseObject({ way }) } }, async (request, reply) => {
    if (await isFirstPress(database, askedOf(request))) await begin(planner, shell, request, request.body.way)
    return reply.redirect('/schedule', 303)
  })

  app.post('/schedule/stop', { config, schema: { hide: true, body: z.looseObject({}) } }, async (request, reply) => {
    if (await isFirstPress(database, askedOf(request))) planner.stop()
    return reply.redirect('/schedule', 303)
  })

  app.get('/schedule/proposals/:id', { config, schema: { hide: true, params: idParams } }, async (request, reply) => show(request, reply, request.params.id))

  app.post('/schedule/take', { config, schema: { hide: true, body: z.looseObject({ proposal: z.uuid(), reason }) } }, async (request, reply) => {
    const { proposal, reason: why, ...rest } = request.body
    const asked = Object.keys(rest).filter((name) => name.startsWith(ASKED)).map((name) => name.slice(ASKED.length))
    try {
      await take(request, { proposal, asked, reason: why })
    } catch (error) {
      if (!(error instanceof FieldProblems)) throw error
      return show(request, reply.status(422), proposal, { asked, reason: why, problems: error.fields })
    }
    return reply.redirect('/schedule', 303)
  })

  async function show(request: FastifyRequest, reply: FastifyReply, id: string, typed?: Parameters<typeof toDifferences>[2]): Promise<FastifyReply> {
    const stands = await loadStands(reads, planner, clock())
    const drawn = drawProposal(findProposal(planner, id), stands.timeZone)
    return sendPage(reply, DifferencesPage({ viewer: viewerOn(request), data: toDifferences(drawn, { stands, calls: await listCalls(reads, drawn) }, typed) }))
  }

  async function take(request: FastifyRequest, wanted: Parameters<typeof takeProposal>[3]): Promise<void> {
    const { timeZone } = await shopOf(reads)
    await answerOnce(database, askedOf(request), async (write) => ({ status: 303, body: { id: await takeProposal(write, reads, planner, wanted, actorOf(request, shell), timeZone) } }))
    dropTaken(planner, wanted.proposal)
  }
}

/** What was proposed is dropped with the proposal that was taken; the same press again drops nothing that came later. */
function dropTaken(planner: Planner, id: string): void {
  if (planner.proposals.some((one) => one.id === id)) planner.drop()
}

function registerApi(app: App, shell: Shell, planner: Planner): void {
  const { database, clock } = shell
  const { reads } = database
  const config = { roles: MANAGERS }
  const tags = ['schedule']
  const response = { 200: scheduleSchema, ...problemAnswers }
  const answer = async () => toScheduleAnswer(await loadStands(reads, planner, clock()))

  app.get('/api/schedule', { config, schema: { tags, summary: 'The plan of the whole shop that is in force, and what is proposed beside it', response } }, answer)

  app.post('/api/schedule', {
    config, schema: { tags, summary: 'Propose a plan, and go on looking for a better one for half a minute: with the least change, or anew', body: z.looseObject({ way }), response },
  }, async (request) => {
    if (await isFirstPress(database, askedOf(request))) await begin(planner, shell, request, request.body.way)
    return answer()
  })

  app.post('/api/schedule/stop', { config, schema: { tags, summary: 'Stop looking for a better plan; what was found stays proposed', body: z.looseObject({}), response } }, async (request) => {
    if (await isFirstPress(database, askedOf(request))) planner.stop()
    return answer()
  })

  app.get('/api/schedule/proposals/:id', {
    config, schema: { tags, summary: 'What a proposal changes of the plan in force, and why', params: idParams, response: { 200: differenceSchema, ...problemAnswers } },
  }, async (request) => {
    const { timeZone } = await shopOf(reads)
    return toDifferenceAnswer(drawProposal(findProposal(planner, request.params.id), timeZone), timeZone)
  })

  app.post('/api/schedule/take', {
    config, schema: { tags, summary: 'Put a proposal in force. People whose today changes are asked first', body: taken, response: { 201: z.object({ id: z.string() }), ...problemAnswers } },
  }, async (request, reply) => {
    const { timeZone } = await shopOf(reads)
    const made = await answerOnce(database, askedOf(request), async (write) => ({ status: 201, body: { id: await takeProposal(write, reads, planner, request.body, actorOf(request, shell), timeZone) } }))
    dropTaken(planner, request.body.proposal)
    return reply.status(201).send(made.body as { id: string })
  })
}
