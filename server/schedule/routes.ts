import { z } from 'zod'
import { SchedulePage } from '../../web/schedule/schedule.tsx'
import { isCalendarDate } from '../calc/calendar.ts'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { problemAnswers } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { loadShopFacts, printOf } from './facts.ts'
import { newPlanner } from './planner.ts'
import { scheduleSchema, toScheduleAnswer } from './scheduleAnswer.ts'
import { toScheduleData } from './scheduleData.ts'
import { loadShopDay } from './store.ts'

const weekQuery = z.object({ week: z.string().refine(isCalendarDate).optional().catch(undefined) })

/** One schedule for the whole shop: made on a manager’s word, bettered beside the service, kept while it runs. */
export function registerSchedule(app: App, { database: { reads }, clock }: Shell): void {
  const planner = newPlanner()
  const managers = { roles: MANAGERS }
  app.addHook('onClose', () => planner.close())

  app.get('/schedule', { config: managers, schema: { hide: true, querystring: weekQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const facts = await loadShopFacts(reads, clock())
    const { shop } = await loadShopDay(reads)
    return sendPage(reply, SchedulePage({ viewer, data: toScheduleData(planner, { facts, print: printOf(facts), timeZone: shop?.timeZone ?? 'UTC', today: viewer.today, week: request.query.week }) }))
  })

  app.post('/schedule/plan', { config: managers, schema: { hide: true, body: z.looseObject({}) } }, async (request, reply) => {
    planner.begin(await loadShopFacts(reads, clock()), clock(), request.log)
    return reply.redirect('/schedule', 303)
  })

  app.post('/schedule/stop', { config: managers, schema: { hide: true, body: z.looseObject({}) } }, async (_request, reply) => {
    planner.stop()
    return reply.redirect('/schedule', 303)
  })

  const answer = async () => toScheduleAnswer(planner, printOf(await loadShopFacts(reads, clock())), (await loadShopDay(reads)).shop?.timeZone ?? 'UTC')

  app.get('/api/schedule', {
    config: managers, schema: { tags: ['figures'], summary: 'The plan of the whole shop as it was made last', response: { 200: scheduleSchema, ...problemAnswers } },
  }, answer)

  app.post('/api/schedule', {
    config: managers, schema: { tags: ['figures'], summary: 'Plan the shop anew, and go on looking for a better plan for half a minute', response: { 200: scheduleSchema, ...problemAnswers } },
  }, async (request) => {
    planner.begin(await loadShopFacts(reads, clock()), clock(), request.log)
    return answer()
  })
}
