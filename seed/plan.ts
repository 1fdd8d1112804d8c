import { randomFrom } from '../server/calc/random.ts'
import { simulateCases } from '../server/calc/schedule/chances.ts'
import { searchSchedule } from '../server/calc/schedule/search.ts'
import { toShopProblem } from '../server/calc/schedule/shopProblem.ts'
import { loadUnsureFacts } from '../server/schedule/facts.ts'
import { printOf } from '../server/schedule/prints.ts'
import { toPlanContent } from '../server/schedule/planContent.ts'
import { keepPlan } from '../server/schedule/planStore.ts'
import type { Database } from '../server/shared/database/database.ts'
import { get, type World } from './world.ts'

/** Fewer than the service draws: the demo is there sooner. */
const CASES = 100

/** The plan the shop works by today: the first one found, taken this morning. */
export async function addPlan(database: Database, { days: { now }, people }: World): Promise<void> {
  const facts = await loadUnsureFacts(database.reads, now)
  const shop = toShopProblem(facts)
  const search = searchSchedule(shop.problem, randomFrom(1))
  const schedule = search.best()
  if (schedule === null) throw new Error('the demo shop cannot be planned')
  const cases = simulateCases(shop.problem, schedule, { ticks: shop.unsureTicks, togetherThousandths: facts.togetherThousandths }, CASES, randomFrom(1))
  const print = printOf(facts)
  const content = toPlanContent({ facts, shop, schedule, leastDelay: search.leastDelay, madeAt: now, print, tries: 0, cases })
  const { id, name } = get(people, 'c.oake')
  await database.write((write) => keepPlan(write, { madeAt: now, reason: 'Plan for the week', print, content }, { personId: id, personName: name, requestId: 'demo', now }))
}
