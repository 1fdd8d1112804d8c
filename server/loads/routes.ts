import { z } from 'zod'
import { LoadPage } from '../../web/schedule/load.tsx'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { loadShopLoad } from './loadData.ts'

/** Load against capacity by department for the next weeks. */
export function registerLoads(app: App, { database: { reads }, clock }: Shell): void {
  app.get('/schedule/load', { config: { roles: MANAGERS }, schema: { hide: true, querystring: z.object({ how }) } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { data, workings } = await loadShopLoad(reads, viewer, clock())
    if (request.query.how === undefined) return sendPage(reply, LoadPage({ viewer, data }))
    return sendWorking(reply, viewer, { workings, how: request.query.how, place: 'builds', trail: [{ name: 'Schedule', href: '/schedule' }, { name: 'Load by department', href: '/schedule/load' }] })
  })
}
