import { z } from 'zod'
import { FitPage } from '../../web/fit/fit.tsx'
import { FIT_CHECKS } from '../calc/fitCheck.ts'
import { fitsOf } from '../builds/fitChecks.ts'
import { loadBuild } from '../builds/store.ts'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { label } from '../shared/records/kind.ts'
import { registerRecords } from '../shared/records/register.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { how, sendWorking } from '../shared/workings.ts'
import { fitWorkings, toFitPage } from './fitData.ts'
import { mountingPlace } from './records.ts'

const fitSchema = z.object({
  items: z.array(z.object({
    lineId: z.string(), number: z.string(), placeId: z.string(), spacer: z.int().nullable(),
    state: z.enum(['open', 'fits', 'fits with a spacer', 'does not fit']), leastSpacer: z.int().nullable().describe('µm; smallest spacer with which every check holds'), words: z.string(),
    checks: z.array(z.object({
      kind: z.enum(FIT_CHECKS), state: z.enum(['open', 'fits', 'does not fit']), missing: z.array(z.string()), left: z.int().nullable().describe('µm left, negative where it is short'),
    })),
  })),
})

export function registerFit(app: App, shell: Shell): void {
  registerRecords(app, shell, [mountingPlace])
  const { reads } = shell.database

  app.get('/builds/:id/fit', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: z.object({ how }) } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const stored = await loadBuild(reads, request.params.id)
    const data = toFitPage(stored, viewer)
    if (request.query.how !== undefined) {
      const trail = [{ name: data.build, href: data.buildHref }, { name: 'Fit', href: `${data.buildHref}/fit` }]
      return sendWorking(reply, viewer, { workings: fitWorkings(stored), how: request.query.how, place: 'builds', trail })
    }
    return sendPage(reply, FitPage({ viewer, data }))
  })

  app.get('/api/builds/:id/fit', {
    config: { roles: EVERYBODY },
    schema: { tags: ['figures'], summary: 'Whether the equipment fits its mounting places, check by check', params: idParams, response: { 200: fitSchema, ...problemAnswers } },
  }, async (request) => {
    const fits = fitsOf(await loadBuild(reads, request.params.id))
    return {
      items: fits.map(({ line, place, answer: { state, leastSpacer, words, checks } }) => ({
        lineId: line.id, number: label('E', line.number), placeId: place.id, spacer: line.spacer, state, leastSpacer, words,
        checks: checks.map(({ kind, state: own, missing, left }) => ({ kind, state: own, missing: [...missing], left })),
      })),
    }
  })
}
