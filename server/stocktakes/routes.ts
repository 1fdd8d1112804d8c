import type { App, Shell } from '../shared/shell.ts'
import { registerTakeApi } from './apiRoutes.ts'
import { registerTakePages } from './pageRoutes.ts'

export function registerStockTakes(app: App, shell: Shell): void {
  registerTakePages(app, shell)
  registerTakeApi(app, shell)
}
