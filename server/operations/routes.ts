import { registerRecords } from '../shared/records/register.ts'
import type { App, Shell } from '../shared/shell.ts'
import { operation, predecessor } from './records.ts'

export function registerOperations(app: App, shell: Shell): void {
  registerRecords(app, shell, [operation, predecessor])
}
