import { checkSchedule } from '../calc/schedule/checkSchedule.ts'
import { keepAsBefore } from '../calc/schedule/leastChange.ts'
import { comparePlans, type PlanDifference } from '../calc/schedule/planDifference.ts'
import type { ShopFacts, ShopWork } from '../calc/schedule/shopProblem.ts'
import { toShopProblem } from '../calc/schedule/shopProblem.ts'
import { marked } from './leaveOut.ts'
import { toPlanBefore, withBays } from './planBefore.ts'
import { toPlanContent, type PlanContent } from './planContent.ts'
import type { Plan } from './planner.ts'
import type { PlanInForce } from './planStore.ts'
import { toCompared } from './proposals.ts'

export interface Kept {
  readonly plan: Plan
  readonly content: PlanContent
  readonly dayEndsAt: string
}

/** The plan in force as it comes out with these facts, in its order, without a search and without what it leaves out; null where it cannot. */
export function asKept(all: ShopFacts, base: PlanInForce, timeZone: string, bays?: ReadonlyMap<string, string>): Kept | null {
  const facts = marked(all, new Map(base.content.leftOut.map(({ operationId, why }) => [operationId, why])))
  const shop = toShopProblem(facts)
  const before = withBays(toPlanBefore(base.content, { facts, shop }, timeZone), { facts, shop, bays })
  const schedule = keepAsBefore(shop.problem, before)
  if (schedule === null || checkSchedule(shop.problem, schedule).length > 0) return null
  const plan = { facts, shop, schedule, leastDelay: 0, madeAt: new Date(facts.fromMs), print: '', tries: 0, cases: null }
  return { plan, content: toPlanContent(plan), dayEndsAt: new Date(facts.fromMs + (before.midnights[0] ?? 0) * facts.tickMs).toISOString() }
}

export const compareKept = (one: Kept, other: Kept): PlanDifference => comparePlans(toCompared(one.content), toCompared(other.content), one.dayEndsAt)

/** The same facts with one operation otherwise. */
export const withWork = (facts: ShopFacts, id: string, change: (work: ShopWork) => Partial<ShopWork>): ShopFacts =>
  ({ ...facts, builds: facts.builds.map((build) => ({ ...build, work: build.work.map((work) => (work.id === id ? { ...work, ...change(work) } : work)) })) })

/** What is held gives way where it must: it begins no earlier. */
export const withoutPins = (facts: ShopFacts): ShopFacts => ({
  ...facts,
  builds: facts.builds.map((build) => ({ ...build, work: build.work.map((work) => (work.pinnedMs === null ? work : { ...work, pinnedMs: null, earliestMs: Math.max(work.earliestMs ?? 0, work.pinnedMs) })) })),
})
