import { z } from 'zod'
import { ConditionPage } from '../../web/intake/condition.tsx'
import { IntakePage } from '../../web/intake/intake.tsx'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { takeUploads } from '../shared/photos/upload.ts'
import { registerRecords } from '../shared/records/register.ts'
import { idParams } from '../shared/records/schemas.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { registerIntakeApi } from './apiRoutes.ts'
import { registerDeeds } from './deedRoutes.ts'
import { registerMarkForm, registerMarkPost } from './markRoutes.ts'
import { conditionData, intakeData } from './pageData.ts'
import { conditionMark, faultCode, intake } from './records.ts'

const savedQuery = z.object({ saved: z.string().max(20).optional().catch(undefined) })

export async function registerIntake(app: App, shell: Shell): Promise<void> {
  const { reads } = shell.database
  registerRecords(app, shell, [intake, conditionMark, faultCode])
  registerDeeds(app, shell)
  registerIntakeApi(app, shell)
  registerMarkForm(app, shell)
  await takeUploads(app, (scope) => registerMarkPost(scope, shell))

  app.get('/builds/:id/intake', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams, querystring: savedQuery } }, async (request, reply) => {
    const viewer = viewerOn(request)
    return sendPage(reply, IntakePage({ viewer, data: await intakeData(reads, request.params.id, viewer, { saved: request.query.saved ?? null }) }))
  })

  app.get('/builds/:id/condition', { config: { roles: EVERYBODY }, schema: { hide: true, params: idParams } }, async (request, reply) => {
    const viewer = viewerOn(request)
    return sendPage(reply, ConditionPage({ viewer, data: await conditionData(reads, request.params.id, viewer) }))
  })
}
