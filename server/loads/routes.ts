import { z } from 'zod'
import { LoadPage } from '../../web/schedule/load.tsx'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { problemAnswers } from '../shared/records/schemas.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { loadSchema, toLoadAnswer } from './loadAnswer.ts'
import { loadWorkings, toLoadData } from './loadData.ts'
import { loadShopLoad } from './loadRead.ts'

/** Load against capacity by department for the next weeks. */
export function registerLoads(app: App, { database: { reads }, clock }: Shell): void {
  app.get('/schedule/load', { config: { roles: MANAGERS }, schema: { hide: true, querystring: z.object({ how }) } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const found = await loadShopLoad(reads, viewer.today, clock())
    if (request.query.how === undefined) return sendPage(reply, LoadPage({ viewer, data: toLoadData(found) }))
    return sendWorking(reply, viewer, { workings: loadWorkings(found), how: request.query.how, place: 'schedule', trail: [{ name: 'Schedule', href: '/schedule' }, { name: 'Load by department', href: '/schedule/load' }] })
  })

  app.get('/api/schedule/load', {
    config: { roles: MANAGERS }, schema: { tags: ['schedule'], summary: 'Hours planned against hours people are there, by department, for this week from now on and the seven after it', response: { 200: loadSchema, ...problemAnswers } },
  }, async (request) => toLoadAnswer(await loadShopLoad(reads, viewerOn(request).today, clock())))
}
