import { findWaiting } from '../calc/schedule/readyWork.ts'
import { withRemovalOrder } from '../calc/schedule/removalLinks.ts'
import type { HourHistory } from '../calc/estimate/hourHistory.ts'
import type { ShopBuild, ShopFacts } from '../calc/schedule/shopProblem.ts'
import { loadBuilds } from '../builds/store.ts'
import { loadLearned } from '../history/learned.ts'
import { toStep } from '../hours/nextWork.ts'
import { listBenchOperations, listPredecessors, loadTrees } from '../hours/nowStore.ts'
import { loadOperationEntries } from '../hours/store.ts'
import type { Reads } from '../shared/database/database.ts'
import { USUAL_TOGETHER_THOUSANDTHS } from '../spread/spreads.ts'
import { label } from '../shared/records/kind.ts'
import { figuresOrWhy, mayRollOutNow, toWork } from './openWork.ts'
import { shopTimes } from './shopTimes.ts'
import { loadExpected, loadPlacings, loadRemovalOrder, loadShopDay } from './store.ts'

export const TICK_MS = 15 * 60_000
const WEEKS = 26
const TICKS_A_WEEK = 7 * 24 * 4

/** A day late of an urgent build weighs as much as two of a usual one and four of one that can wait. Our choice, no source. */
const WEIGHTS: Readonly<Record<string, number>> = { urgent: 4, usual: 2, 'can wait': 1 }

interface Besides {
  /** A build that is asked about. */
  readonly alsoBuildId?: string | null
  /** How unsure hours are by closed operations, where chances are wanted. */
  readonly history?: HourHistory | null
}

/** The same with what the shop’s closed operations teach of how unsure hours are: slower, for a plan with its chances. */
export async function loadUnsureFacts(reads: Reads, now: Date, alsoBuildId: string | null = null): Promise<ShopFacts> {
  const { history } = await loadLearned(reads)
  return loadShopFacts(reads, now, { alsoBuildId, history })
}

/** All that a plan is made from, at an instant: the work of builds in the shop, of service visits that go on, and of one build more that is asked about. */
export async function loadShopFacts(reads: Reads, now: Date, { alsoBuildId = null, history = null }: Besides = {}): Promise<ShopFacts> {
  const day = await loadShopDay(reads)
  const bench = await listBenchOperations(reads, alsoBuildId)
  const ids = [...new Set(bench.map(({ buildId }) => buildId))]
  const [builds, rules, expected, trees, placed] = [await loadBuilds(reads, ids), await listPredecessors(reads), await loadExpected(reads, ids), await loadTrees(reads, ids), await loadPlacings(reads, ids)]
  const steps = bench.map(toStep)
  const entered = findWaiting(steps, rules.map(({ earlierId, laterId }) => ({ before: earlierId, after: laterId })))
  const ofBuild = bench.flatMap(({ visit, kind }, place) => (visit === null ? [{ id: steps[place]!.id, ownerId: steps[place]!.ownerId, kind }] : []))
  const waiting = withRemovalOrder(entered, await loadRemovalOrder(reads, ids), ofBuild)
  const placings = new Map(placed.map((one) => [one.id, one]))
  const visitEntries = await loadOperationEntries(reads, bench.filter(({ visit }) => visit !== null).map(({ id }) => id))
  // Twenty-six weeks from this hour end within one day more.
  const times = shopTimes(day, now, 7 * WEEKS + 1)
  return {
    fromMs: Math.ceil(now.getTime() / TICK_MS) * TICK_MS, tickMs: TICK_MS, horizonTicks: WEEKS * TICKS_A_WEEK,
    togetherThousandths: day.shop?.goWrongTogether ?? USUAL_TOGETHER_THOUSANDTHS, rule: times.rule, rollMs: times.rollMs,
    bays: day.bays.map(({ id, name }) => ({ id, name, closed: times.closedOf({ bayId: id }) })),
    machines: day.machines.map((machine) => ({ ...machine, closed: times.closedOf({ machineId: machine.id }) })),
    finishers: day.finishers.map((finisher) => ({ id: finisher.id, name: finisher.name, awayDays: finisher.leadDays + 2 * finisher.shipDays, rule: JSON.stringify(finisher), ...times.finisherDays(finisher) })),
    people: day.people.filter(({ role, skills }) => role === 'technician' || skills.length > 0)
      .map((person) => ({ id: person.id, name: person.name, skillIds: person.skills.map(({ skillId }) => skillId), hoursRule: times.ruleOf(person), hours: times.hoursOf(person) })),
    builds: builds.flatMap((stored): ShopBuild[] => {
      const { head } = stored
      const own = bench.filter(({ buildId, state }) => buildId === head.id && state !== 'done')
      const due = own.some(({ visit }) => visit === null) ? head.promisedOn ?? head.deadline : null
      const { priority } = placed.find(({ buildId }) => buildId === head.id)?.build ?? { priority: 'usual' }
      if (own.length === 0) return []
      const { figures, why } = figuresOrWhy(stored)
      return [{
        id: head.id, name: `${label('B', head.number)} ${head.title}`, bayId: head.bay?.id ?? null, weight: WEIGHTS[priority] ?? 2, dueMs: due === null ? null : times.closingOn(due),
        refusal: why, mayRollOutNow: mayRollOutNow(stored, placings), work: toWork(own, { figures, history, day, waiting, trees, visitEntries, placings, expected, times }),
      }]
    }),
  }
}
