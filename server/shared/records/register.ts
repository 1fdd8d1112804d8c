import type { App, Shell } from '../shell.ts'
import { registerApi } from './apiRoutes.ts'
import type { RecordKind } from './kind.ts'
import { registerPages } from './pageRoutes.ts'

/** Serves kinds of records as pages and under /api. */
export function registerRecords(app: App, shell: Shell, kinds: readonly RecordKind[]): void {
  for (const kind of kinds) {
    registerPages(app, shell, kind)
    registerApi(app, shell, kind)
  }
}
