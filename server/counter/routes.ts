import { registerRecords } from '../shared/records/register.ts'
import type { App, Shell } from '../shared/shell.ts'
import { registerCounterJobs } from './jobRoutes.ts'
import { standardFitting } from './records.ts'

export function registerCounter(app: App, shell: Shell): void {
  registerRecords(app, shell, [standardFitting])
  registerCounterJobs(app, shell)
}
