import { registerRecords } from '../shared/records/register.ts'
import type { App, Shell } from '../shared/shell.ts'
import { vehicle } from './records.ts'

export function registerVehicles(app: App, shell: Shell): void {
  registerRecords(app, shell, [vehicle])
}
