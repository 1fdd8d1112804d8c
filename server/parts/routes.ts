import { registerRecords } from '../shared/records/register.ts'
import type { App, Shell } from '../shared/shell.ts'
import { part, partUse } from './records.ts'

export function registerParts(app: App, shell: Shell): void {
  registerRecords(app, shell, [part, partUse])
}
