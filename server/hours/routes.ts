import type { App, Shell } from '../shared/shell.ts'
import { registerHourApi } from './apiRoutes.ts'
import { registerHourPages } from './pageRoutes.ts'
import { registerTimerPages } from './timerRoutes.ts'

export function registerHours(app: App, shell: Shell): void {
  registerHourPages(app, shell)
  registerTimerPages(app, shell)
  registerHourApi(app, shell)
}
