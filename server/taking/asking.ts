import { setImmediate } from 'node:timers/promises'
import { randomFrom } from '../calc/random.ts'
import { chanceBy, endWithin, type Ends } from '../calc/schedule/chances.ts'
import type { ShopBuild, ShopFacts } from '../calc/schedule/shopProblem.ts'
import { drawTakingEnds, takeBuild, type Taking } from '../calc/schedule/taking.ts'
import { listBenchOperations } from '../hours/nowStore.ts'
import { loadUnsureFacts } from '../schedule/facts.ts'
import { leaveOutImpossible } from '../schedule/leaveOut.ts'
import { printOf } from '../schedule/prints.ts'
import { loadPlanInForce, type PlanInForce } from '../schedule/planStore.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { calendarDateIn, instantOf } from '../shared/shopTime.ts'
import type { Question } from './question.ts'

/** The sampling error of an 80-in-100 value is then about a tenth of one deviation. */
export const CASES = 200
/** So many at a time, so that others are served in between. */
const AT_ONCE = 25

/** What a build would mean for the shop, or why that cannot be told. */
export type Asked =
  | { readonly state: 'delivered' | 'no operations' }
  | { readonly state: 'in the plan', readonly endsOn: string | null, readonly chances: readonly string[] | null }
  | Answered

export interface Answered {
  readonly state: 'fits' | 'does not fit' | 'cannot be planned'
  readonly facts: ShopFacts
  readonly build: ShopBuild
  readonly taking: Taking
  readonly planInForce: PlanInForce | null
  readonly isStale: boolean
  /** Null where nobody is unsure of any of its hours. */
  readonly ends: Ends | null
  readonly timeZone: string
  readonly question: Question
}

/** Places a build beside the plan in force. Reads only. */
export async function askTaking(reads: Reads, { id, stage }: { id: string, stage: string }, question: Question, now: Date): Promise<Asked> {
  if (stage === 'delivered') return { state: 'delivered' }
  const [planInForce, { timeZone }] = [await loadPlanInForce(reads), await shopOf(reads)]
  if ((await listBenchOperations(reads)).some(({ buildId, visit }) => buildId === id && visit === null)) {
    const planned = planInForce?.content.builds.find(({ buildId }) => buildId === id)
    const day = (instant: string): string => calendarDateIn(timeZone, new Date(Date.parse(instant) - 1))
    const chances = planned?.chances ?? null
    return { state: 'in the plan', endsOn: planned?.endsAt ? day(planned.endsAt) : null, chances: chances && [chances.even, chances.in80, chances.in90].map(day) }
  }
  const recorded = await loadUnsureFacts(reads, now, id)
  const all = leaveOutImpossible(recorded, timeZone)
  const found = all.builds.find((build) => build.id === id)
  if (found === undefined) return { state: 'no operations' }
  // Its vehicle comes when there is room for it: where it may stand now is in nobody’s plan.
  const build: ShopBuild = { ...found, bayId: null, weight: 1 }
  const facts: ShopFacts = { ...all, builds: all.builds.filter((other) => other.id !== id) }
  const kept = planInForce && new Map(planInForce.content.work.map(({ operationId, startsAt, personIds, bayId }) => [operationId, { startMs: Date.parse(startsAt), personIds, bayId }] as const))
  const taking = takeBuild({ facts, build, kept, earliestMs: question.from === null ? null : instantOf(timeZone, question.from, '00:00').getTime() })
  return {
    state: taking.leftOut.length > 0 || !taking.othersStand ? 'cannot be planned' : taking.plan === null ? 'does not fit' : 'fits',
    facts, build, taking, planInForce, isStale: planInForce !== null && planInForce.print !== printOf({ ...recorded, builds: recorded.builds.filter((other) => other.id !== id) }), timeZone, question,
    ends: build.work.some(({ remainingCasesS }) => remainingCasesS.length > 0) ? await drawEnds(taking, facts, build.id) : null,
  }
}

async function drawEnds(taking: Taking, { togetherThousandths }: ShopFacts, buildId: string): Promise<Ends | null> {
  if (taking.plan === null) return null
  const random = randomFrom(1)
  const ends: number[] = []
  while (ends.length < CASES) {
    ends.push(...drawTakingEnds(taking, { buildId, togetherThousandths }, AT_ONCE, random))
    await setImmediate()
  }
  return ends.sort((one, other) => one - other)
}

/** The day of a tick that ends something: what ends as the day does is of that day. */
export const dayOfEnd = ({ facts, timeZone }: Pick<Answered, 'facts' | 'timeZone'>, tick: number): string => calendarDateIn(timeZone, new Date(facts.fromMs + tick * facts.tickMs - 1))
export const dayOfStart = ({ facts, timeZone }: Pick<Answered, 'facts' | 'timeZone'>, tick: number): string => calendarDateIn(timeZone, new Date(facts.fromMs + tick * facts.tickMs))
export const instantOfTick = ({ facts }: Pick<Answered, 'facts'>, tick: number): string => new Date(facts.fromMs + tick * facts.tickMs).toISOString()

/** Ticks by which half, 80 and 90 of 100 cases have ended; null without chances. */
export const chancesOf = ({ ends }: Answered): { readonly even: number, readonly in80: number, readonly in90: number } | null =>
  ends && { even: endWithin(ends, 0.5), in80: endWithin(ends, 0.8), in90: endWithin(ends, 0.9) }

/** The share of all cases that end by the day asked about; null without a day or chances. */
export function chanceOfDay({ ends, question, facts, timeZone }: Answered): number | null {
  if (ends === null || question.by === null) return null
  const end = instantOf(timeZone, question.by, '23:59').getTime() + 60_000
  return chanceBy(ends, Math.floor((end - facts.fromMs) / facts.tickMs))
}
