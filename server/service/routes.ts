import { z } from 'zod'
import { AsBuiltPage } from '../../web/service/asBuilt.tsx'
import { VisitPage } from '../../web/service/visit.tsx'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { registerRecords } from '../shared/records/register.ts'
import { idParams } from '../shared/records/schemas.ts'
import { getRecord } from '../shared/records/table.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { asBuiltData } from './asBuiltData.ts'
import { makerClaim, serialSwap, serviceVisit } from './records.ts'
import { visitData } from './visitData.ts'

const savedQuery = z.object({ saved: z.enum(['created', 'changed', 'removed', 'recovered']).optional().catch(undefined) })

export function registerService(app: App, shell: Shell): void {
  registerRecords(app, shell, [serviceVisit, makerClaim, serialSwap])
  const { reads } = shell.database

  app.get('/service-visits/:id', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: savedQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    const row = await getRecord(reads, serviceVisit, request.params.id)
    return sendPage(reply, VisitPage({ viewer, data: await visitData(reads, row, viewer, request.query.saved ?? null) }))
  })

  app.get('/builds/:id/as-built', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    return sendPage(reply, AsBuiltPage({ viewer, data: await asBuiltData(reads, request.params.id, viewer) }))
  })
}
