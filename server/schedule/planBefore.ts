import { addDays } from '../calc/calendar.ts'
import type { Before, PlanBefore } from '../calc/schedule/change.ts'
import type { ShopFacts, ShopProblem } from '../calc/schedule/shopProblem.ts'
import { calendarDateIn, instantOf } from '../shared/shopTime.ts'
import type { PlanContent, PlannedWork } from './planContent.ts'

/** The plan in force, in the ticks of what is planned now. */
export function toPlanBefore(content: PlanContent, { facts, shop }: { readonly facts: ShopFacts, readonly shop: ShopProblem }, timeZone: string): PlanBefore {
  const { people, bays, fromMs, tickMs } = facts
  const planned = new Map(content.work.map((work) => [work.operationId, work]))
  const placeOf = new Map([...people, ...bays].map(({ id }, place) => [id, place]))
  const tick = (instant: string): number => Math.round((Date.parse(instant) - fromMs) / tickMs)
  const toCome = ({ fromAt, toAt }: PlannedWork['hours'][number]): number => Math.max(0, tick(toAt) - Math.max(0, tick(fromAt)))
  const toBefore = (work: PlannedWork): Before => ({
    startTick: tick(work.startsAt), endTick: tick(work.endsAt), work: work.hours.reduce((sum, stretch) => sum + toCome(stretch), 0),
    // Whoever is there no longer is nobody of now.
    people: work.personIds.map((id) => placeOf.get(id) ?? -1).sort((one, other) => one - other), bay: work.bayId === null ? null : placeOf.get(work.bayId) ?? null,
  })
  return {
    peopleCount: people.length, delay: content.delay, midnights: midnightsOf(facts, timeZone),
    ends: endsOf(content, shop, tick),
    activities: shop.workOf.map((id) => (id === null ? null : planned.has(id) ? toBefore(planned.get(id)!) : 'new')),
  }
}

/** When each of the problem’s ends came by the plan in force. */
function endsOf({ builds }: PlanContent, { endOf, problem }: ShopProblem, tick: (instant: string) => number): (number | null)[] {
  const byActivity = new Map(builds.flatMap(({ buildId, endsAt }) => (endsAt === null || !endOf.has(buildId) ? [] : [[endOf.get(buildId)!, tick(endsAt)] as const])))
  return problem.ends.map(({ activity }) => byActivity.get(activity) ?? null)
}

/** The ticks at which a day of the shop begins, from tomorrow on. */
export function midnightsOf({ fromMs, tickMs, horizonTicks }: ShopFacts, timeZone: string): number[] {
  const today = calendarDateIn(timeZone, new Date(fromMs))
  const days = Math.ceil(horizonTicks * tickMs / 86_400_000)
  return Array.from({ length: days }, (_, later) => Math.ceil((instantOf(timeZone, addDays(today, later + 1), '00:00').getTime() - fromMs) / tickMs))
}

/** The same with bays chosen by hand, by the build’s id. */
export function withBays(before: PlanBefore, { facts, shop, bays }: { readonly facts: ShopFacts, readonly shop: ShopProblem, readonly bays: ReadonlyMap<string, string> | undefined }): PlanBefore {
  if (bays === undefined) return before
  return {
    ...before,
    activities: before.activities.map((was, place) => {
      const stay = shop.problem.activities[place]!.stay
      const bay = stay === null ? undefined : bays.get(facts.builds[stay]!.id)
      const wanted = facts.bays.findIndex(({ id }) => id === bay)
      return was === null || was === 'new' || wanted < 0 ? was : { ...was, bay: facts.people.length + wanted }
    }),
  }
}
