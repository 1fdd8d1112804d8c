import { z } from 'zod'
import type { Limit } from '../calc/schedule/takingLimits.ts'
import { chanceOfDay, chancesOf, instantOfTick, type Asked } from './asking.ts'

const instant = z.iso.datetime()

export const takingSchema = z.object({
  state: z.enum(['fits', 'does not fit', 'cannot be planned', 'no operations', 'in the plan', 'delivered']),
  plannedAt: instant.nullable().describe('When the plan in force was taken; null where there is none, and a first plan stands in for it'), isStale: z.boolean(),
  startsAt: instant.nullable(), endsAt: instant.nullable().describe('With all that is planned left as it is'),
  chances: z.object({ even: instant, in80: instant, in90: instant }).nullable().describe('Null where nobody is unsure of its hours'),
  by: z.iso.date().nullable(), inTime: z.int().nullable().describe('Cases in 100 that end by that day'),
  aloneEndsAt: instant.nullable().describe('With the shop to itself'),
  limits: z.array(z.object({ what: z.string(), name: z.string(), endsAt: instant })).describe('Without each of these alone it would end then; the one that gains most first'),
  first: z.object({
    endsAt: instant, later: z.array(z.object({ buildId: z.string(), endsAt: instant, thenEndsAt: instant, dueAt: instant.nullable() })),
  }).nullable().describe('If it went before all others: its end, and who ends later then'),
  leftOut: z.array(z.object({ operationId: z.string(), why: z.string() })),
})

const NOTHING = { plannedAt: null, isStale: false, startsAt: null, endsAt: null, chances: null, by: null, inTime: null, aloneEndsAt: null, limits: [], first: null, leftOut: [] }

export function toTakingAnswer(asked: Asked): z.infer<typeof takingSchema> {
  if (!('taking' in asked)) return { ...NOTHING, state: asked.state }
  const { state, taking, planInForce, isStale, question } = asked
  const at = (tick: number): string => instantOfTick(asked, tick)
  const atOrNull = (tick: number | null): string | null => (tick === null ? null : at(tick))
  const chances = chancesOf(asked)
  const chance = chanceOfDay(asked)
  return {
    state, plannedAt: planInForce?.takenAt.toISOString() ?? null, isStale, startsAt: atOrNull(taking.startTick), endsAt: atOrNull(taking.endTick),
    chances: chances && { even: at(chances.even), in80: at(chances.in80), in90: at(chances.in90) }, by: question.by, inTime: chance === null ? null : Math.round(100 * chance),
    aloneEndsAt: atOrNull(taking.aloneTick), limits: taking.limits.flatMap(({ what, name, endTick }: Limit) => (endTick === null ? [] : [{ what, name, endsAt: at(endTick) }])),
    first: taking.first && { endsAt: at(taking.first.endTick), later: taking.first.later.map(({ buildId, keptTick, thenTick, dueTick }) => ({ buildId, endsAt: at(keptTick), thenEndsAt: at(thenTick), dueAt: atOrNull(dueTick) })) },
    leftOut: taking.leftOut.map(({ workId, why }) => ({ operationId: workId, why })),
  }
}
