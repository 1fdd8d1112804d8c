import { registerRecords } from '../shared/records/register.ts'
import type { App, Shell } from '../shared/shell.ts'
import { person } from './records.ts'

export function registerPeople(app: App, shell: Shell): void {
  registerRecords(app, shell, [person])
}
