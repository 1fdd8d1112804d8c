import { registerRecords } from '../shared/records/register.ts'
import type { App, Shell } from '../shared/shell.ts'
import { kit, kitPart } from './records.ts'

export function registerKits(app: App, shell: Shell): void {
  registerRecords(app, shell, [kit, kitPart])
}
