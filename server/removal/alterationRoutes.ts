import { z } from 'zod'
import { AlterationsPage } from '../../web/restoration/alterations.tsx'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { idParams, problemAnswers } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { alterationsData } from './alterationsData.ts'
import { loadAlterations } from './alterationStore.ts'

const missingSchema = z.object({
  alterations: z.array(z.object({ number: z.string(), what: z.string(), where: z.string(), missing: z.array(z.string()), photoIds: z.array(z.string()) })),
  partsWithoutPlace: z.array(z.object({ number: z.string(), name: z.string() })),
})

/** What was altered on the vehicle, and what of it nobody recorded. */
export function registerAlterations(app: App, shell: Shell): void {
  const { reads } = shell.database

  app.get('/builds/:id/alterations', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    return sendPage(reply, AlterationsPage({ viewer, data: alterationsData(await loadAlterations(reads, request.params.id), viewer) }))
  })

  app.get('/api/builds/:id/unsettled', {
    config: { roles: EVERYBODY },
    schema: {
      tags: ['removal and restoration'], summary: 'Alterations with what is missing of each, and factory parts that are out without a place', params: idParams,
      response: { 200: missingSchema, ...problemAnswers },
    },
  }, async (request) => {
    const { rows, lost } = alterationsData(await loadAlterations(reads, request.params.id), viewerOn(request))
    return {
      alterations: rows.map(({ number, what, where, missing, photos }) => ({ number, what, where, missing: [...missing], photoIds: photos.map(({ id }) => id) })),
      partsWithoutPlace: lost.map(({ number, name }) => ({ number, name })),
    }
  })
}
