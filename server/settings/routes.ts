import { SettingsPage } from '../../web/settings/settings.tsx'
import { viewerOn } from '../shared/access.ts'
import { sendPage } from '../shared/pages.ts'
import { registerRecords } from '../shared/records/register.ts'
import { MANAGERS } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { areStepsAway } from './firstDay.ts'
import { registerFirstDay } from './firstDayRoutes.ts'
import { settingsOverview } from './overview.ts'
import { bay, department, shop, skill, taxCode } from './records.ts'

export function registerSettings(app: App, shell: Shell): void {
  app.get('/settings', { config: { roles: MANAGERS }, schema: { hide: true } }, async (request, reply) => {
    const viewer = viewerOn(request)
    return sendPage(reply, SettingsPage({ viewer, data: await settingsOverview(shell.database.reads, viewer.role, areStepsAway(request)) }))
  })
  registerFirstDay(app, shell)
  registerRecords(app, shell, [shop, department, skill, bay, taxCode])
}
