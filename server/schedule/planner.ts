import type { FastifyBaseLogger } from 'fastify'
import { checkSchedule } from '../calc/schedule/checkSchedule.ts'
import type { Ends } from '../calc/schedule/chances.ts'
import { listImpossible, type Impossible } from '../calc/schedule/impossible.ts'
import type { Schedule } from '../calc/schedule/problem.ts'
import { toShopProblem, type ShopFacts, type ShopProblem } from '../calc/schedule/shopProblem.ts'
import { startLongWork, type LongWork } from '../shared/longWork.ts'
import { randomFrom } from '../calc/random.ts'
import { searchSchedule } from '../calc/schedule/search.ts'
import { printOf } from './facts.ts'
import type { Searched, SearchGiven } from './searching.ts'

/** A plan as it was made, with what it was made from. */
export interface Plan {
  readonly facts: ShopFacts
  readonly shop: ShopProblem
  readonly schedule: Schedule
  readonly leastDelay: number
  readonly madeAt: Date
  readonly print: string
  readonly tries: number
  /** How the plan ends with other hours, for each of the problem's ends; null until the search has ended. */
  readonly ends: readonly Ends[] | null
}

/** Why there is no plan: what fits nowhere. */
export interface NoPlan {
  readonly facts: ShopFacts
  readonly shop: ShopProblem
  readonly impossible: readonly Impossible[]
}

export interface Planner {
  /** Makes a first plan at once and goes on looking for a better one beside the service. */
  begin(facts: ShopFacts, now: Date, log: FastifyBaseLogger): void
  stop(): void
  close(): Promise<void>
  readonly plan: Plan | null
  readonly noPlan: NoPlan | null
  readonly isSearching: boolean
  /** Why the search ended before its time; empty where it did not. */
  readonly failure: string
}

export const MOST_SEARCH_MS = 30_000

/** Keeps the one plan of the shop. It lives as long as the service runs; every plan is checked before it is shown. */
export function newPlanner(mostMs = MOST_SEARCH_MS): Planner {
  let plan: Plan | null = null
  let noPlan: NoPlan | null = null
  let work: LongWork | null = null
  let failure = ''
  const take = (schedule: Schedule, rest: Omit<Plan, 'schedule'>): void => {
    const faults = checkSchedule(rest.shop.problem, schedule)
    if (faults.length > 0) throw new Error(`the plan cannot be worked: ${faults.slice(0, 3).join('; ')}`)
    plan = { ...rest, schedule }
  }
  const search = (first: Schedule, rest: Omit<Plan, 'schedule'>, log: FastifyBaseLogger): void => {
    const given: SearchGiven = { problem: rest.shop.problem, mostMs, first, unsure: { ticks: rest.shop.unsureTicks, togetherThousandths: rest.facts.togetherThousandths } }
    const own = startLongWork<Searched>({
      file: './searching', beside: import.meta.url, given,
      onTold: ({ tries, leastDelay, better, ends }) => {
        if (work !== own || plan === null) return
        try {
          take(better ?? plan.schedule, { ...rest, tries, leastDelay, ends })
        } catch (error) {
          log.error({ err: error }, 'a plan was turned away')
          failure = 'A better plan was found that cannot be worked, and was turned away. The one before it stands.'
          own.stop()
        }
      },
      onEnd: (error) => {
        if (work !== own) return
        work = null
        if (error === null) return
        log.error({ err: error }, 'the search for a better plan broke off')
        failure = 'The search for a better plan broke off. The plan found before stands.'
      },
    })
    work = own
  }
  return {
    begin(facts, now, log) {
      void work?.cut()
      work = null
      failure = ''
      const shop = toShopProblem(facts)
      const first = searchSchedule(shop.problem, randomFrom(1))
      const schedule = facts.builds.length === 0 ? null : first.best()
      if (schedule === null) {
        plan = null
        noPlan = { facts, shop, impossible: listImpossible(shop.problem) }
        return
      }
      noPlan = null
      const rest = { facts, shop, leastDelay: first.leastDelay, madeAt: now, print: printOf(facts), tries: 0, ends: null }
      try {
        take(schedule, rest)
      } catch (error) {
        log.error({ err: error }, 'a plan was turned away')
        plan = null
        failure = 'The plan that was found cannot be worked as it stands, so none is shown. Look for running work with more hours left than half a year holds.'
        return
      }
      if (shop.endOf.size > 0) search(schedule, rest, log)
    },
    stop: () => work?.stop(),
    async close() {
      await work?.cut()
      work = null
    },
    get plan() { return plan },
    get noPlan() { return noPlan },
    get isSearching() { return work !== null },
    get failure() { return failure },
  }
}
