import type { App, Shell } from '../shared/shell.ts'
import { registerTakeoverApi } from './apiRoutes.ts'

export function registerTakeovers(app: App, shell: Shell): void {
  registerTakeoverApi(app, shell)
}
