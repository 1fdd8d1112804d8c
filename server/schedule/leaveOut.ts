import { listImpossible } from '../calc/schedule/impossible.ts'
import { toShopProblem, type ShopFacts } from '../calc/schedule/shopProblem.ts'
import { whyLeftOut } from './impossibleWords.ts'

/**
 * The same facts, with work that fits nowhere though it had the whole shop to itself marked as such, so that it is left
 * out with its reason and what waits for it, and all the rest can be planned. What is held by hand stays: whoever held
 * it says where it is to go.
 */
export function leaveOutImpossible(facts: ShopFacts, timeZone: string): ShopFacts {
  const shop = toShopProblem(facts)
  const found = listImpossible(shop.problem).filter(({ activity, why }) => shop.problem.activities[activity]!.fixed === null && ALONE.includes(why))
  const reasons = new Map(found.flatMap((one): [string, string][] => {
    // On its way to a finisher it has the name and the place of its own work.
    const workId = shop.workOf.slice(0, one.activity + 1).findLast((id) => id !== null)
    return workId === undefined || workId === null ? [] : [[workId, whyLeftOut(one, { facts, shop, timeZone })]]
  }))
  return reasons.size === 0 ? facts : marked(facts, reasons)
}

/** The same, without the first work that fits with all the rest by no means; null where that is no work that can be left out. */
export function leaveOutStuck(facts: ShopFacts, timeZone: string): ShopFacts | null {
  const shop = toShopProblem(facts)
  const one = listImpossible(shop.problem).find(({ activity, why }) => shop.problem.activities[activity]!.fixed === null && TOGETHER.includes(why))
  const workId = one === undefined ? undefined : shop.workOf.slice(0, one.activity + 1).findLast((id) => id !== null)
  return one === undefined || workId === undefined || workId === null ? null : marked(facts, new Map([[workId, whyLeftOut(one, { facts, shop, timeZone })]]))
}

const TOGETHER: readonly string[] = ['no room', 'bay is taken']

const ALONE: readonly string[] = ['nobody is there', 'never together', 'not in one piece', 'too long', 'bay is closed']

/** The same facts with this work marked as what cannot be planned, each with its reason. */
export const marked = (facts: ShopFacts, reasons: ReadonlyMap<string, string>): ShopFacts => ({
  ...facts, builds: facts.builds.map((build) => ({ ...build, work: build.work.map((work) => (reasons.has(work.id) ? { ...work, refusal: reasons.get(work.id)! } : work)) })),
})
