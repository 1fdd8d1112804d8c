import { z } from 'zod'
import { BarsPage } from '../../web/schedule/bars.tsx'
import { loadBuild } from '../builds/store.ts'
import { loadShopFacts } from '../schedule/facts.ts'
import { printOf } from '../schedule/prints.ts'
import { loadPlanInForce } from '../schedule/planStore.ts'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { notFound } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { barsSchema, toBarsAnswer } from './barsAnswer.ts'
import { loadBuildOnPage, toBarsData } from './barsData.ts'
import { barsWorkings } from './barsWorkings.ts'

const pageQuery = z.object({ show: z.enum(['all', 'chain']).catch('all'), page: z.coerce.number().int().min(1).max(100).catch(1), how })

/** One build’s operations by the plan in force: bars, chain, slack. */
export function registerBars(app: App, { database: { reads }, clock }: Shell): void {
  app.get('/builds/:id/schedule', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: pageQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const { head } = await loadBuild(reads, request.params.id)
    const name = `${label('B', head.number)} ${head.title}`
    if (request.query.how !== undefined) {
      const found = await loadBuildOnPage(reads, head.id)
      if (found === null) throw notFound('figure')
      const trail = [{ name, href: `/builds/${head.id}` }, { name: 'The build by the plan', href: `/builds/${head.id}/schedule` }]
      return sendWorking(reply, viewer, { workings: barsWorkings(found), how: request.query.how, place: 'builds', trail })
    }
    return sendPage(reply, BarsPage({ viewer, data: await toBarsData(reads, { id: head.id, name }, { now: clock(), show: request.query.show, page: request.query.page }) }))
  })

  app.get('/api/builds/:id/schedule', {
    config: { roles: EVERYBODY }, schema: { tags: ['schedule'], summary: 'One build by the plan in force: its operations, which of them move its end, and their slack', params: idParams, response: { 200: barsSchema, ...problemAnswers } },
  }, async (request) => {
    const { head: { id } } = await loadBuild(reads, request.params.id)
    const inForce = await loadPlanInForce(reads)
    const planned = inForce === null ? null : { inForce, isStale: printOf(await loadShopFacts(reads, clock())) !== inForce.print }
    return toBarsAnswer(id, await loadBuildOnPage(reads, id), planned)
  })
}
