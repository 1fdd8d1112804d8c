import { z } from 'zod'
import { whyNoPlan } from './impossibleWords.ts'
import type { Plan, Planner } from './planner.ts'

const instant = z.iso.datetime()

export const scheduleSchema = z.object({
  state: z.enum(['no plan', 'planned', 'nothing fits']), isSearching: z.boolean(), failure: z.string(),
  isStale: z.boolean().describe('Something the plan depends on has changed since'), madeAt: instant.nullable(),
  delay: z.int().nullable().describe('Quarter hours that builds are late, together'),
  leastDelay: z.int().nullable().describe('No plan can have less'),
  builds: z.array(z.object({ buildId: z.string(), endsAt: instant.nullable(), dueAt: instant.nullable() })),
  work: z.array(z.object({ operationId: z.string(), startsAt: instant, endsAt: instant, personIds: z.array(z.string()), bayId: z.string().nullable() })),
  leftOut: z.array(z.object({ operationId: z.string(), why: z.string() })),
  why: z.array(z.string()).describe('What fits nowhere, even alone'),
})

export function toScheduleAnswer({ plan, noPlan, isSearching, failure }: Planner, print: string, timeZone: string): z.infer<typeof scheduleSchema> {
  const leftOut = (plan ?? noPlan)?.shop.leftOut.map(({ workId, why }) => ({ operationId: workId, why })) ?? []
  if (plan === null) {
    return { state: noPlan === null ? 'no plan' : 'nothing fits', isSearching, failure, isStale: false, madeAt: null, delay: null, leastDelay: null, builds: [], work: [], leftOut, why: noPlan === null ? [] : whyNoPlan(noPlan, timeZone) }
  }
  return {
    state: 'planned', isSearching, failure, leftOut, why: [], isStale: plan.print !== print, madeAt: plan.madeAt.toISOString(), delay: plan.schedule.delay, leastDelay: plan.leastDelay,
    builds: plan.facts.builds.map(({ id, dueMs }) => {
      const end = plan.shop.endOf.get(id)
      return { buildId: id, endsAt: end === undefined ? null : instantAt(plan, plan.schedule.placed[end]!.endTick), dueAt: dueMs === null ? null : new Date(dueMs).toISOString() }
    }),
    work: plan.schedule.placed.flatMap(({ startTick, endTick, resources }, place) => {
      const operationId = plan.shop.workOf[place]
      if (operationId === null || operationId === undefined) return []
      const { people, bays } = plan.facts
      const bay = resources.find((resource) => resource >= people.length && resource < people.length + bays.length)
      return [{
        operationId, startsAt: instantAt(plan, startTick), endsAt: instantAt(plan, endTick), bayId: bay === undefined ? null : bays[bay - people.length]!.id,
        personIds: resources.filter((resource) => resource < people.length).map((resource) => people[resource]!.id),
      }]
    }),
  }
}

const instantAt = ({ facts }: Plan, tick: number): string => new Date(facts.fromMs + tick * facts.tickMs).toISOString()
