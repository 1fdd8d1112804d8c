import { registerRecords } from '../shared/records/register.ts'
import type { App, Shell } from '../shared/shell.ts'
import { customer } from './records.ts'

export function registerCustomers(app: App, shell: Shell): void {
  registerRecords(app, shell, [customer])
}
