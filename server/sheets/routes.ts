import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import { SheetPage } from '../../web/sheets/sheet.tsx'
import { viewerOn } from '../shared/access.ts'
import { answerOnce } from '../shared/once.ts'
import { sendPage } from '../shared/pages.ts'
import { actorOf, askedOf } from '../shared/records/actor.ts'
import { idParams } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { partsNumbered } from '../restoration/restorationData.ts'
import { loadVehicleState } from '../restoration/store.ts'
import { registerSheetApi } from './apiRoutes.ts'
import { registerClosings } from './closingRoutes.ts'
import { freeze } from './deeds.ts'
import { registerSheetLists } from './listRoutes.ts'
import { registerMarks } from './markRoutes.ts'
import { sheetPageData } from './pageData.ts'
import { registerSheetPapers } from './paperRoutes.ts'
import { registerSharedSheets } from './sharedSheet.ts'

const choice = z.looseObject({ scope: z.string().max(10).optional(), f: z.string().regex(/^[\d,-]*$/).max(2000).optional(), as: z.enum(['recorded', 'planned']).optional().catch(undefined) })
const partQuery = z.object({ part: z.coerce.number().int().min(1).max(10_000).optional().catch(undefined), step: z.string().max(10).optional().catch(undefined) })

/** Frozen sheets: made, worked by, closed, printed, shared. */
export function registerSheets(app: App, shell: Shell): void {
  const { database } = shell
  const config = { roles: EVERYBODY }
  registerSheetApi(app, shell)
  registerMarks(app, shell)
  registerClosings(app, shell)
  registerSheetLists(app, shell)
  registerSheetPapers(app, shell)
  registerSharedSheets()

  app.post('/builds/:id/restorations', { config, schema: { hide: true, params: idParams, body: choice } }, async (request, reply) => {
    const { id } = request.params
    const { scope, f = '', as } = request.body
    const answer = await answerOnce(database, askedOf(request), async (write) => {
      const parts = scope === 'all' ? 'all' as const : partsNumbered(f, await loadVehicleState(write, id))
      const sheetId = await freeze(write, id, { parts, basis: as }, viewerOn(request), actorOf(request, shell))
      return { status: 303, location: `/restorations/${sheetId}` }
    })
    return reply.redirect(answer.location ?? '/', 303)
  })

  app.get('/restorations/:id', { config, schema: { hide: true, params: idParams, querystring: partQuery } }, (request, reply) => show(request, reply, request.params.id, request.query))

  async function show(request: FastifyRequest, reply: FastifyReply, id: string, wanted: z.infer<typeof partQuery>): Promise<FastifyReply> {
    const viewer = viewerOn(request)
    return sendPage(reply, SheetPage({ viewer, data: await sheetPageData(database.reads, id, viewer, wanted) }))
  }
}
