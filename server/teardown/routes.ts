import { takeUploads } from '../shared/photos/upload.ts'
import type { App, Shell } from '../shared/shell.ts'
import { registerTeardownApi } from './apiRoutes.ts'
import { registerTeardownPages, registerTeardownPost } from './pageRoutes.ts'

export async function registerTeardown(app: App, shell: Shell): Promise<void> {
  registerTeardownPages(app, shell)
  registerTeardownApi(app, shell)
  await takeUploads(app, (scope) => registerTeardownPost(scope, shell))
}
