import { registerRecords } from '../shared/records/register.ts'
import type { App, Shell } from '../shared/shell.ts'
import { shop, department, skill, bay, taxCode } from './records.ts'

export function registerSettings(app: App, shell: Shell): void {
  registerRecords(app, shell, [shop, department, skill, bay, taxCode])
}
