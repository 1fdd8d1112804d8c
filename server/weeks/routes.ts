import { z } from 'zod'
import { ShopWeekPage } from '../../web/schedule/week.tsx'
import { isCalendarDate } from '../calc/calendar.ts'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { problemAnswers } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { loadShopWeek, mondayOf } from './shopWeek.ts'
import { toWeekAnswer, weekSchema } from './weekAnswer.ts'
import { shopWeekData } from './weekData.ts'

const week = z.string().refine(isCalendarDate, 'Say a day of the week, as 2031-03-04.').optional()
const query = z.object({ week: week.catch(undefined), build: z.uuid().optional().catch(undefined) })

/** The shop's week by person, bay, machine and outside finisher, by the plan in force. */
export function registerWeeks(app: App, { database: { reads }, clock }: Shell): void {
  app.get('/schedule/week', { config: { roles: MANAGERS }, schema: { hide: true, querystring: query } }, async (request, reply) => {
    const viewer = viewerOn(request)
    return sendPage(reply, ShopWeekPage({ viewer, data: await shopWeekData(reads, viewer, { week: request.query.week, build: request.query.build, now: clock() }) }))
  })

  app.get('/api/schedule/week', {
    config: { roles: MANAGERS }, schema: { tags: ['schedule'], summary: 'A week of the plan in force by person, bay, machine and outside finisher: the one with a day, or the one that goes on', querystring: z.object({ week }), response: { 200: weekSchema, ...problemAnswers } },
  }, async (request) => {
    const now = clock()
    const from = await mondayOf(reads, { week: request.query.week, today: viewerOn(request).today, now })
    return toWeekAnswer(from, await loadShopWeek(reads, from, now))
  })
}
