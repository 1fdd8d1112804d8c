import type { App, Shell } from '../shared/shell.ts'
import { registerCustodyApi } from './apiRoutes.ts'
import { registerCustodyPages } from './pageRoutes.ts'

export function registerCustody(app: App, shell: Shell): void {
  registerCustodyPages(app, shell)
  registerCustodyApi(app, shell)
}
