import { registerRecords } from '../shared/records/register.ts'
import type { App, Shell } from '../shared/shell.ts'
import { registerRemovalOrder } from './orderRoutes.ts'
import { registerAlterations } from './alterationRoutes.ts'
import { registerOrderAnswers } from './answerRoutes.ts'
import { registerOrderRules } from './ruleRoutes.ts'
import { bin, factoryPart, fastener, removal, orderEdge, alteration, replacementPart } from './records.ts'

export function registerRemoval(app: App, shell: Shell): void {
  registerRecords(app, shell, [bin, factoryPart, fastener, removal, orderEdge, alteration, replacementPart])
  registerRemovalOrder(app, shell)
  registerOrderRules(app, shell)
  registerOrderAnswers(app, shell)
  registerAlterations(app, shell)
}
