import { registerRecords } from '../shared/records/register.ts'
import type { App, Shell } from '../shared/shell.ts'
import { equipmentItem, equipmentLine } from './records.ts'

export function registerEquipment(app: App, shell: Shell): void {
  registerRecords(app, shell, [equipmentItem, equipmentLine])
}
