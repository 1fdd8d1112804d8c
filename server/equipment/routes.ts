import { registerRecords } from '../shared/records/register.ts'
import { EVERYBODY } from '../shared/roles.ts'
import type { App, Shell } from '../shared/shell.ts'
import { equipmentItem, equipmentLine } from './records.ts'

export function registerEquipment(app: App, shell: Shell): void {
  registerRecords(app, shell, [equipmentItem, equipmentLine])
  // The place "Stock" begins with the materials; the catalog stands beside them.
  app.get('/stock', { config: { roles: EVERYBODY }, schema: { hide: true } }, async (_request, reply) => reply.redirect('/materials', 303))
}
