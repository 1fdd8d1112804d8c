import { randomFrom } from '../../server/calc/random.ts'
import { searchSchedule } from '../../server/calc/schedule/search.ts'
import { toShopProblem } from '../../server/calc/schedule/shopProblem.ts'
import { loadShopFacts } from '../../server/schedule/facts.ts'
import { printOf } from '../../server/schedule/prints.ts'
import { toPlanContent, type PlanContent } from '../../server/schedule/planContent.ts'
import { keepPlan } from '../../server/schedule/planStore.ts'
import type { Database } from '../../server/shared/database/database.ts'

/** Plans a shop as it stands at an instant and puts that plan in force. */
export async function takePlan(database: Database, now: Date): Promise<PlanContent> {
  const facts = await loadShopFacts(database.reads, now)
  const shop = toShopProblem(facts)
  const schedule = searchSchedule(shop.problem, randomFrom(1)).best()
  if (schedule === null) throw new Error('the shop cannot be planned')
  const print = printOf(facts)
  const content = toPlanContent({ facts, shop, schedule, leastDelay: 0, madeAt: now, print, tries: 0, cases: null })
  await database.write((write) => keepPlan(write, { madeAt: now, reason: 'first plan', print, content }, { personId: null, personName: 'somebody', requestId: 'test', now }))
  return content
}
