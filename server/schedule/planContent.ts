import { z } from 'zod'
import { chanceBy, endWithin } from '../calc/schedule/chances.ts'
import { workingStretches } from '../calc/schedule/shopTicks.ts'
import type { Plan } from './planner.ts'

const instant = z.iso.datetime()
const from = { fromAt: instant, toAt: instant }

/** One operation in a plan. */
const workSchema = z.object({
  operationId: z.string(), buildId: z.string(),
  name: z.string().describe('Item and operation'), shortName: z.string().describe('The same in few words'),
  startsAt: instant, endsAt: instant,
  hours: z.array(z.object(from)).describe('When it is worked on: from the start to the end without nights and breaks'),
  personIds: z.array(z.string()), bayId: z.string().nullable(), machineId: z.string().nullable(),
  after: z.array(z.object({ operationId: z.string(), waitS: z.int() })).describe('What must be finished first, and the seconds to wait after it'),
  stands: z.enum(['open', 'running', 'held']).optional().describe('Held: begins when it was set to by hand'),
  leavesAt: instant.nullable().optional().describe('When the batch it goes to the outside finisher with leaves; null where it goes to none or is away already'),
  dueBackAt: instant.nullable().describe('When it is back from the outside finisher; null where it goes to none'),
})

export const planContentSchema = z.object({
  fromAt: instant.describe('Nothing is planned before'),
  people: z.array(z.object({ id: z.string(), name: z.string() })),
  bays: z.array(z.object({ id: z.string(), name: z.string() })),
  builds: z.array(z.object({
    buildId: z.string(), name: z.string().describe('Number and title'),
    endsAt: instant.nullable().describe('Null where it cannot be planned to its end'), dueAt: instant.nullable(),
    chances: z.object({ even: instant, in80: instant, in90: instant, kept: z.int().nullable().describe('In 100, where it is promised') }).nullable(),
    steps: z.array(instant).optional().describe('By when it has ended in 5, 10, 15 … 95 of 100 cases; empty where nobody is unsure, or while it is being looked for'),
    drivers: z.array(z.object({ operationId: z.string(), share: z.int().describe('Of the variance of the end, thousandths') })).optional().describe('What makes it early or late most'),
  })),
  work: z.array(workSchema),
  visits: z.array(z.object({ buildId: z.string(), bayId: z.string(), ...from })).describe('Which vehicle stands in which bay'),
  leftOut: z.array(z.object({ buildId: z.string(), operationId: z.string(), why: z.string() })),
  delay: z.int(), leastDelay: z.int(), tries: z.int(),
})

/** A plan by itself: what it says is in it, so that it can be stored, compared and shown without what it was made from. */
export type PlanContent = z.infer<typeof planContentSchema>
export type PlannedWork = PlanContent['work'][number]

/** The sampling error of an 80-in-100 value is then about a fifteenth of one deviation. */
export const CASES = 400

/** So many shares of all cases, evenly from 5 to 95 in 100. */
export const STEPS_KEPT = 19

export function toPlanContent({ facts, shop, schedule, cases, leastDelay, tries }: Plan): PlanContent {
  const { people, bays, builds, machines } = facts
  const at = (tick: number): string => new Date(facts.fromMs + tick * facts.tickMs).toISOString()
  const bayAt = new Map(bays.map(({ id }, place) => [people.length + place, id]))
  const machineAt = new Map(machines.map(({ id }, place) => [people.length + bays.length + place, id]))
  const buildOf = new Map(builds.flatMap((build) => build.work.map((work) => [work.id, { build, work }] as const)))
  return {
    fromAt: at(0), people: people.map(({ id, name }) => ({ id, name })), bays: bays.map(({ id, name }) => ({ id, name })),
    delay: schedule.delay, leastDelay, tries,
    builds: builds.map(({ id, name, dueMs, work }) => {
      const end = shop.endOf.get(id)
      const place = end === undefined ? -1 : shop.problem.ends.findIndex(({ activity }) => activity === end)
      // Where nobody is unsure of anything, a chance would claim more than anybody knows.
      const isUnsure = work.some(({ remainingCasesS }) => remainingCasesS.length > 0)
      const own = isUnsure ? cases?.ends[place] ?? null : null
      return {
        buildId: id, name, endsAt: end === undefined ? null : at(schedule.placed[end]!.endTick), dueAt: dueMs === null ? null : new Date(dueMs).toISOString(),
        chances: own && {
          even: at(endWithin(own, 0.5)), in80: at(endWithin(own, 0.8)), in90: at(endWithin(own, 0.9)),
          kept: dueMs === null ? null : Math.round(100 * chanceBy(own, Math.ceil((dueMs - facts.fromMs) / facts.tickMs))),
        },
        steps: own === null ? [] : Array.from({ length: STEPS_KEPT }, (_, step) => at(endWithin(own, (step + 1) / (STEPS_KEPT + 1)))),
        drivers: own === null ? [] : (cases?.drivers[place] ?? []).flatMap(({ activity, shareThousandths: share }) => (shop.workOf[activity] ? [{ operationId: shop.workOf[activity], share }] : [])),
      }
    }),
    work: schedule.placed.flatMap(({ startTick, endTick, resources }, place) => {
      const id = shop.workOf[place]
      if (id === null || id === undefined) return []
      const { build, work } = buildOf.get(id)!
      const { fixed } = shop.problem.activities[place]!
      const team = resources.filter((resource) => resource < people.length)
      return [{
        operationId: id, buildId: build.id, name: work.name, shortName: work.shortName, startsAt: at(startTick), endsAt: at(endTick),
        hours: workingStretches(team.map((resource) => shop.problem.resources[resource]!), startTick, endTick).map(([one, other]) => ({ fromAt: at(one), toAt: at(other) })),
        personIds: team.map((resource) => people[resource]!.id), bayId: resources.map((resource) => bayAt.get(resource)).find((bay) => bay !== undefined) ?? null, machineId: resources.map((resource) => machineAt.get(resource)).find((machine) => machine !== undefined) ?? null,
        after: work.after.filter((one) => buildOf.has(one)).map((one) => ({ operationId: one, waitS: buildOf.get(one)!.work.waitS })), stands: fixed === null ? 'open' as const : fixed.resources.length > 0 ? 'running' as const : 'held' as const,
        leavesAt: shop.sentOf.has(id) ? at(schedule.placed[shop.sentOf.get(id)!]!.endTick) : null,
        dueBackAt: shop.backOf.has(id) ? at(schedule.placed[shop.backOf.get(id)!]!.endTick) : null,
      }]
    }),
    visits: schedule.visits.map(({ stay, bay, fromTick, toTick }) => ({ buildId: builds[stay]!.id, bayId: bayAt.get(bay)!, fromAt: at(fromTick), toAt: at(toTick) })),
    leftOut: shop.leftOut.map(({ buildId, workId, why }) => ({ buildId, operationId: workId, why })),
  }
}
