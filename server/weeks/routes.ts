import { z } from 'zod'
import { ShopWeekPage } from '../../web/schedule/week.tsx'
import { isCalendarDate } from '../calc/calendar.ts'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { shopWeekData } from './weekData.ts'

const query = z.object({ week: z.string().refine(isCalendarDate).optional().catch(undefined), build: z.uuid().optional().catch(undefined) })

/** The shop's week by person, bay and outside finisher, by the plan in force. */
export function registerWeeks(app: App, { database: { reads }, clock }: Shell): void {
  app.get('/schedule/week', { config: { roles: MANAGERS }, schema: { hide: true, querystring: query } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { week, build } = request.query
    return sendPage(reply, ShopWeekPage({ viewer, data: await shopWeekData(reads, viewer, { week, build, now: clock() }) }))
  })
}
