import type { App, Shell } from '../shared/shell.ts'
import { registerTakeoverApi } from './apiRoutes.ts'
import { registerComparison } from './comparisonRoutes.ts'
import { registerTakeoverPages } from './pageRoutes.ts'

export function registerTakeovers(app: App, shell: Shell): void {
  registerTakeoverApi(app, shell)
  registerTakeoverPages(app, shell)
  registerComparison(app, shell)
}
