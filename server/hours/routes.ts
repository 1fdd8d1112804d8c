import type { App, Shell } from '../shared/shell.ts'
import { registerHourApi } from './apiRoutes.ts'
import { registerHourPages } from './pageRoutes.ts'
import type { PlanFor } from './planned.ts'
import { registerTimerPages } from './timerRoutes.ts'

export function registerHours(app: App, shell: Shell, planFor: PlanFor): void {
  registerHourPages(app, shell, planFor)
  registerTimerPages(app, shell, planFor)
  registerHourApi(app, shell)
}
