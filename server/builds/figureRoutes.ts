import { viewerOn } from '../shared/access.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { costingSchema, toCostingAnswer } from './costingAnswer.ts'
import { estimateSchema, toEstimateAnswer } from './estimateAnswer.ts'
import { figuresOf, seesMoney } from './figures.ts'
import { loadBuild } from './store.ts'

/** The computed figures of a build under /api: hours for everybody, money for those who see it. */
export function registerFigures(app: App, { database }: Shell): void {
  const shared = { tags: ['figures'], params: idParams }
  app.get('/api/builds/:id/estimate', {
    config: { roles: EVERYBODY },
    schema: { ...shared, summary: 'Labor estimate by operation, part, zone and department', response: { 200: estimateSchema, ...problemAnswers } },
  }, async (request) => {
    const { costing } = figuresOf(await loadBuild(database.reads, request.params.id))
    return toEstimateAnswer(request.params.id, costing.estimate, seesMoney(viewerOn(request)))
  })

  app.get('/api/builds/:id/costing', {
    config: { roles: EVERYBODY },
    schema: { ...shared, summary: 'Logged, remaining and forecast hours, with cost, margin and consent', response: { 200: costingSchema, ...problemAnswers } },
  }, async (request) => {
    const { costing } = figuresOf(await loadBuild(database.reads, request.params.id))
    return toCostingAnswer(request.params.id, costing, seesMoney(viewerOn(request)))
  })
}
