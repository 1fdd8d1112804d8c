import { registerRecords } from '../shared/records/register.ts'
import type { App, Shell } from '../shared/shell.ts'
import { build, zone, openPoint } from './records.ts'

export function registerBuilds(app: App, shell: Shell): void {
  registerRecords(app, shell, [build, zone, openPoint])
}
