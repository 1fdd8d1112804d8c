import t from 'tap'
import { checkSchedule } from '../../server/calc/schedule/checkSchedule.ts'
import { listImpossible } from '../../server/calc/schedule/impossible.ts'
import { searchSchedule } from '../../server/calc/schedule/search.ts'
import { randomFrom } from '../../server/calc/random.ts'
import { drawShop, spoiledPlans } from '../support/generatedShop.ts'

const SHOPS = 2_000

t.test('plans of two thousand shops drawn by chance can be worked as they stand, or it is said what cannot', async (t) => {
  const wrong: unknown[] = []
  let planned = 0
  for (let seed = 1_001; seed <= 1_000 + SHOPS; seed += 1) {
    const problem = drawShop(seed)
    const found = searchSchedule(problem, randomFrom(seed))
    for (let step = 0; step < 15; step += 1) found.step()
    const best = found.best()
    if (best === null && listImpossible(problem).length === 0) wrong.push({ seed, why: 'no plan and no reason' })
    if (best === null) continue
    planned += 1
    wrong.push(...checkSchedule(problem, best).map((fault) => ({ seed, fault })))
    if (spoiledPlans(problem, best).some((plan) => checkSchedule(problem, plan).length === 0)) wrong.push({ seed, why: 'a spoiled plan is taken for a good one' })
  }
  t.same(wrong, [])
  t.ok(planned >= 1_300, `${planned} of ${SHOPS} planned`)
})
