import { figuresOf } from '../../server/builds/figures.ts'
import { loadBuilds, type StoredBuild } from '../../server/builds/store.ts'
import type { Database } from '../../server/shared/database/database.ts'

const ABOVE_PRICE = 1.05
const LARGEST_ABOVE_PRICE = 1.2
// Below this the customer would have been asked again before it was reached.
const NEAR = 0.88
const STEP = 1_000

/** Writes down what the customers of closed builds had agreed to: the price, with room for what the job then took. */
export async function agreeOn(database: Database, buildIds: readonly string[]): Promise<void> {
  const agreed = (await loadBuilds(database.reads, buildIds)).map((stored) => ({ id: stored.head.id, consent: consentOf(stored) }))
  await database.write(async (write) => {
    for (const { id, consent } of agreed) await write.build.update({ where: { id }, data: { consent } })
  })
}

function consentOf(stored: StoredBuild): number {
  const { bill, costing } = figuresOf(stored)
  const { priceMinor } = costing.build
  const reached = costing.labor.figures.loggedSellMinor + bill.sell.totalMinor
  const wanted = Math.max(priceMinor * ABOVE_PRICE, Math.min(reached / NEAR, priceMinor * LARGEST_ABOVE_PRICE - STEP))
  return Math.ceil(wanted / STEP) * STEP
}
