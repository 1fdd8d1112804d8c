import { z } from 'zod'
import { SpreadPage } from '../../web/spread/spread.tsx'
import { figuresOf, seesMoney } from '../builds/figures.ts'
import { loadBuild, type StoredBuild } from '../builds/store.ts'
import { loadLearned } from '../history/learned.ts'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { spreadSchema, toSpreadAnswer } from './spreadAnswer.ts'
import { toSpreadPage } from './spreadData.ts'
import { spreadsOf, USUAL_TOGETHER_THOUSANDTHS, type Spreads } from './spreads.ts'
import { spreadWorkings } from './spreadWorkings.ts'

const inPercent = z.coerce.number().int().min(0).max(100).optional()
const pageQuery = z.object({ together: inPercent.catch(undefined), how })
const apiQuery = z.object({ together: inPercent.describe('How far things go wrong together, in 100; as the shop has set it without it') })

const toThousandths = (percent: number | undefined, { shop }: StoredBuild): number => (percent === undefined ? shop?.goWrongTogether ?? USUAL_TOGETHER_THOUSANDTHS : percent * 10)

/** What hours and price may come to: even chance, 80 and 90 in 100. */
export function registerSpread(app: App, { database: { reads } }: Shell): void {
  const load = async (stored: StoredBuild, together: number | undefined): Promise<Spreads> => {
    const history = stored.corrections.length === 0 ? null : (await loadLearned(reads)).history
    return spreadsOf(figuresOf(stored), toThousandths(together, stored), history)
  }

  app.get('/builds/:id/spread', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: pageQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const stored = await loadBuild(reads, request.params.id)
    const spreads = await load(stored, request.query.together)
    const data = toSpreadPage(stored, spreads, viewer)
    if (request.query.how !== undefined) {
      const trail = [{ name: data.build, href: data.buildHref }, { name: data.title, href: `${data.buildHref}/spread?${data.address}` }]
      return sendWorking(reply, viewer, { workings: spreadWorkings(spreads, seesMoney(viewer)), how: request.query.how, place: 'builds', trail })
    }
    return sendPage(reply, SpreadPage({ viewer, data }))
  })

  app.get('/api/builds/:id/spread', {
    config: { roles: EVERYBODY },
    schema: {
      tags: ['figures'], summary: 'What hours and price may come to: even chance, 80 and 90 in 100', params: idParams, querystring: apiQuery,
      response: { 200: spreadSchema, ...problemAnswers },
    },
  }, async (request) => {
    return toSpreadAnswer(await load(await loadBuild(reads, request.params.id), request.query.together), seesMoney(viewerOn(request)))
  })
}
