import { z } from 'zod'
import { SpreadPage } from '../../web/spread/spread.tsx'
import { seesMoney } from '../builds/figures.ts'
import { loadBuild } from '../builds/store.ts'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { loadSpreads } from './loadSpreads.ts'
import { spreadSchema, toSpreadAnswer } from './spreadAnswer.ts'
import { toSpreadPage } from './spreadData.ts'
import { spreadWorkings } from './spreadWorkings.ts'

const inPercent = z.coerce.number().int().min(0).max(100).optional()
const pageQuery = z.object({ together: z.string().max(20).optional(), how })
const apiQuery = z.object({ together: inPercent.describe('How far things go wrong together, in 100; as the shop has set it without it') })

/** What hours and price may come to: even chance, 80 and 90 in 100. */
export function registerSpread(app: App, { database: { reads } }: Shell): void {
  app.get('/builds/:id/spread', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: pageQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const stored = await loadBuild(reads, request.params.id)
    const typed = request.query.together?.trim() ?? ''
    const read = typed === '' ? undefined : inPercent.safeParse(typed)
    const spreads = await loadSpreads(reads, stored, read?.data)
    const data = toSpreadPage(stored, spreads, viewer, read?.success === false ? typed : null)
    if (request.query.how !== undefined) {
      const trail = [{ name: data.build, href: data.buildHref }, { name: data.title, href: `${data.buildHref}/spread?${data.address}` }]
      return sendWorking(reply, viewer, { workings: spreadWorkings(spreads, seesMoney(viewer)), how: request.query.how, place: 'builds', trail })
    }
    return sendPage(data.problem === '' ? reply : reply.status(422), SpreadPage({ viewer, data }))
  })

  app.get('/api/builds/:id/spread', {
    config: { roles: EVERYBODY },
    schema: {
      tags: ['figures'], summary: 'What hours and price may come to: even chance, 80 and 90 in 100', params: idParams, querystring: apiQuery,
      response: { 200: spreadSchema, ...problemAnswers },
    },
  }, async (request) => {
    return toSpreadAnswer(await loadSpreads(reads, await loadBuild(reads, request.params.id), request.query.together), seesMoney(viewerOn(request)))
  })
}
