import { registerRecords } from '../shared/records/register.ts'
import type { App, Shell } from '../shared/shell.ts'
import { material, materialNeed } from './records.ts'

export function registerMaterials(app: App, shell: Shell): void {
  registerRecords(app, shell, [material, materialNeed])
}
