import { randomUUID } from 'node:crypto'
import type { FastifyBaseLogger } from 'fastify'
import { randomFrom } from '../calc/random.ts'
import type { PlanBefore } from '../calc/schedule/change.ts'
import { checkSchedule } from '../calc/schedule/checkSchedule.ts'
import type { Cases } from '../calc/schedule/chances.ts'
import { listImpossible, type Impossible } from '../calc/schedule/impossible.ts'
import { searchLeastChange } from '../calc/schedule/leastChange.ts'
import type { Schedule } from '../calc/schedule/problem.ts'
import { searchSchedule, type Search } from '../calc/schedule/search.ts'
import { toShopProblem, type ShopFacts, type ShopProblem } from '../calc/schedule/shopProblem.ts'
import { startLongWork, type LongWork } from '../shared/longWork.ts'
import { leaveOutImpossible, leaveOutStuck } from './leaveOut.ts'
import { toPlanBefore, withBays } from './planBefore.ts'
import type { PlanInForce } from './planStore.ts'
import { printOf } from './prints.ts'
import type { Searched, SearchGiven } from './searching.ts'

/** From the plan in force with as little change as can be, or from the beginning. */
export const WAYS = ['least change', 'anew'] as const
export type Way = (typeof WAYS)[number]

/** A plan as it was made, with what it was made from. */
export interface Plan {
  readonly facts: ShopFacts
  readonly shop: ShopProblem
  readonly schedule: Schedule
  readonly leastDelay: number
  readonly madeAt: Date
  readonly print: string
  readonly tries: number
  /** How the plan ends with other hours; null until the search has ended. */
  readonly cases: Cases | null
}

/** A plan that nobody has taken yet. */
export interface Proposal extends Plan {
  readonly id: string
  readonly way: Way
  /** The plan in force it was made beside; null where there was none. */
  readonly base: PlanInForce | null
  readonly before: PlanBefore | null
}

/** Why there is no plan: what fits nowhere. */
export interface NoPlan {
  readonly facts: ShopFacts
  readonly shop: ShopProblem
  readonly impossible: readonly Impossible[]
}

export interface Asked {
  readonly facts: ShopFacts
  readonly now: Date
  readonly way: Way
  readonly base: PlanInForce | null
  readonly timeZone: string
  /** Bays chosen by hand, by the build's id: as if the plan in force had them. */
  readonly bays?: ReadonlyMap<string, string>
}

export interface Planner {
  /** Makes a first proposal at once and goes on looking for a better one beside the service. The one made the other way stays beside it. */
  begin(asked: Asked, log: FastifyBaseLogger): void
  stop(): void
  close(): Promise<void>
  /** Nothing is proposed any more: what was is taken, or nobody wants it. */
  drop(): void
  readonly proposals: readonly Proposal[]
  readonly noPlan: NoPlan | null
  /** Which way is being searched. */
  readonly searching: Way | null
  /** Why the search ended before its time; empty where it did not. */
  readonly failure: string
}

export const MOST_SEARCH_MS = 30_000

/** Keeps what is proposed. Proposals live as long as the service runs; every plan is checked before it is shown. */
export function newPlanner(mostMs = MOST_SEARCH_MS): Planner {
  const proposals = new Map<Way, Proposal>()
  let noPlan: NoPlan | null = null
  let work: { readonly way: Way, readonly search: LongWork } | null = null
  let failure = ''
  const propose = (schedule: Schedule, rest: Omit<Proposal, 'schedule'>): void => {
    const faults = checkSchedule(rest.shop.problem, schedule)
    if (faults.length > 0) throw new Error(`the plan cannot be worked: ${faults.slice(0, 3).join('; ')}`)
    proposals.set(rest.way, { ...rest, schedule })
  }
  const search = (first: Schedule, rest: Omit<Proposal, 'schedule'>, log: FastifyBaseLogger): void => {
    const { shop, way, before, facts } = rest
    const given: SearchGiven = { problem: shop.problem, before: way === 'least change' ? before : null, mostMs, first, unsure: { ticks: shop.unsureTicks, togetherThousandths: facts.togetherThousandths } }
    const own = startLongWork<Searched>({
      file: './searching', beside: import.meta.url, given,
      onTold: ({ tries, leastDelay, better, cases }) => {
        const standing = proposals.get(way)
        if (work?.search !== own || standing?.id !== rest.id) return
        try {
          propose(better ?? standing.schedule, { ...rest, tries, leastDelay, cases })
        } catch (error) {
          log.error({ err: error }, 'a plan was turned away')
          failure = 'A better plan was found that cannot be worked, and was turned away. The one before it stands.'
          own.stop()
        }
      },
      onEnd: (error) => {
        if (work?.search !== own) return
        work = null
        if (error === null) return
        log.error({ err: error }, 'the search for a better plan broke off')
        failure = 'The search for a better plan broke off. The plan found before stands.'
      },
    })
    work = { way, search: own }
  }
  const cut = async (): Promise<void> => {
    const running = work
    work = null
    await running?.search.cut()
  }
  return {
    begin(asked, log) {
      const { facts: all, now, way: wanted, base, timeZone } = asked
      void cut()
      failure = ''
      noPlan = null
      const way = base === null ? 'anew' : wanted
      const print = printOf(all)
      for (const [other, { print: own, base: beside }] of proposals) if (other === way || own !== print || beside?.id !== base?.id) proposals.delete(other)
      const begun = beginWith(all, asked) ?? beginWithout(leaveOutImpossible(all, timeZone), asked)
      if (begun === null) {
        const shop = toShopProblem(all)
        noPlan = { facts: all, shop, impossible: listImpossible(shop.problem) }
        return
      }
      const { facts, shop, before, schedule, leastDelay } = begun
      const rest = { id: randomUUID(), facts, shop, way, base, before, leastDelay, madeAt: now, print, tries: 0, cases: null }
      try {
        propose(schedule, rest)
      } catch (error) {
        log.error({ err: error }, 'a plan was turned away')
        failure = 'The plan that was found cannot be worked as it stands, so none is shown. Look for running work with more hours left than half a year holds.'
        return
      }
      if (shop.endOf.size > 0) search(schedule, rest, log)
    },
    stop: () => work?.search.stop(),
    close: cut,
    drop() {
      void cut()
      proposals.clear()
    },
    get proposals() { return WAYS.flatMap((way) => proposals.get(way) ?? []) },
    get noPlan() { return noPlan },
    get searching() { return work?.way ?? null },
    get failure() { return failure },
  }
}

/** A first plan of these facts; null where there is none. */
function beginWith(facts: ShopFacts, { way, base, timeZone, bays }: Omit<Asked, 'facts'>): Pick<Proposal, 'facts' | 'shop' | 'before' | 'schedule' | 'leastDelay'> | null {
  if (facts.builds.length === 0) return null
  const shop = toShopProblem(facts)
  const before = base && withBays(toPlanBefore(base.content, { facts, shop }, timeZone), { facts, shop, bays })
  const search = beginSearch(shop, way === 'least change' ? before : null)
  const schedule = search.best()
  return schedule && { facts, shop, before, schedule, leastDelay: search.leastDelay }
}

/** So many are left out one by one before no plan is said to be possible: each takes a try of the whole shop. */
const MOST_LEFT_OUT = 25

/** A first plan without what does not fit in with all the rest, as when somebody is there for a day more and has work for three. */
function beginWithout(facts: ShopFacts, asked: Omit<Asked, 'facts'>): ReturnType<typeof beginWith> {
  let left: ShopFacts | null = facts
  for (let tried = 0; left !== null && tried < MOST_LEFT_OUT; tried += 1) {
    const begun = beginWith(left, asked)
    if (begun !== null) return begun
    left = leaveOutStuck(left, asked.timeZone)
  }
  return null
}

/** Where the plan in force can be kept by no means, all is planned from the beginning. */
function beginSearch({ problem }: ShopProblem, before: PlanBefore | null): Search {
  const search = before === null ? null : searchLeastChange(problem, before, randomFrom(1))
  return search === null || search.best() === null ? searchSchedule(problem, randomFrom(1)) : search
}
