import { registerRecords } from '../shared/records/register.ts'
import type { App, Shell } from '../shared/shell.ts'
import { absence, closing, machine, outsideFinisher } from './records.ts'

/** Who and what is there to plan with, and when not: machines, outside finishers, closings, absences. */
export function registerCapacity(app: App, shell: Shell): void {
  registerRecords(app, shell, [machine, outsideFinisher, closing, absence])
}
