import { z } from 'zod'
import type { PlannedHere } from '../calc/schedule/planDifference.ts'
import { whyMoved } from './causeWords.ts'
import { planContentSchema } from './planContent.ts'
import { WAYS } from './planner.ts'
import type { Drawn } from './proposals.ts'
import { changedOf, reasonsFor, toProposalData, type Stands } from './standingData.ts'

const instant = z.iso.datetime()
const lateness = { late: z.int().describe('Builds after their date'), daysLate: z.int().describe('Their days, together'), moved: z.int().describe('Operations at another time, by others, or in another bay') }

const difference = z.object({
  work: z.array(z.object({
    operationId: z.string(), buildId: z.string(), name: z.string(), is: z.enum(['moved', 'new', 'longer', 'shorter', 'left out']), why: z.string(),
    before: z.object({ startsAt: instant, endsAt: instant, personIds: z.array(z.string()), bayId: z.string().nullable() }).nullable(),
    after: z.object({ startsAt: instant, endsAt: instant, personIds: z.array(z.string()), bayId: z.string().nullable() }).nullable(),
  })),
  builds: z.array(z.object({ buildId: z.string(), before: instant.nullable(), after: instant.nullable(), dueAt: instant.nullable() })),
  today: z.array(z.object({ personId: z.string(), operationId: z.string(), before: instant.nullable(), after: instant.nullable() })).describe('Whose today is no longer as told: each has to be asked before the plan is taken'),
})

export const scheduleSchema = z.object({
  state: z.enum(['no plan', 'proposed', 'in force', 'nothing fits']),
  isSearching: z.boolean(), failure: z.string(),
  inForce: z.object({
    id: z.string(), takenAt: instant, madeAt: instant, reason: z.string(), isStale: z.boolean().describe('Something the plan depends on has changed since'),
    changed: z.array(z.string()).describe('What has'), goneOn: z.array(z.string()).describe('Builds in which work was logged, begun or finished since'), content: planContentSchema,
  }).nullable(),
  proposals: z.array(z.object({
    id: z.string(), way: z.enum(WAYS), madeAt: instant, isStale: z.boolean().describe('It no longer holds and cannot be taken'), spoiled: z.array(z.string()).describe('What has changed so that it does not'), isSearching: z.boolean(), ...lateness, toAsk: z.array(z.string()).describe('People whose today changes'), content: planContentSchema,
  })),
  why: z.array(z.string()).describe('What fits nowhere, even alone'),
})

export const differenceSchema = z.object({ proposal: z.string(), ...lateness, toAsk: z.array(z.string()), difference: difference.nullable().describe('Null where no plan is in force') })

export function toScheduleAnswer(stands: Stands): z.infer<typeof scheduleSchema> {
  const { planner, inForce, drawn, print } = stands
  const { changed, goneOn } = changedOf(stands)
  const why = reasonsFor(stands)
  return {
    state: why.length > 0 ? 'nothing fits' : inForce !== null ? 'in force' : drawn.length > 0 ? 'proposed' : 'no plan', isSearching: planner.searching !== null, failure: planner.failure, why: [...why],
    inForce: inForce && {
      id: inForce.id, takenAt: inForce.takenAt.toISOString(), madeAt: inForce.madeAt.toISOString(), reason: inForce.reason,
      isStale: inForce.print !== print, changed: [...changed], goneOn: [...goneOn], content: inForce.content,
    },
    proposals: drawn.map((one) => {
      const { proposal: { id, way, madeAt }, content, lateness: { late, daysLate }, moved, toAsk } = one
      const { spoiled, isSearching } = toProposalData(one, stands)
      return { id, way, madeAt: madeAt.toISOString(), isStale: spoiled.length > 0, spoiled: [...spoiled], isSearching, late, daysLate, moved, toAsk: [...toAsk], content }
    }),
  }
}

const toWhere = (one: PlannedHere | null) => one && { startsAt: one.startsAt, endsAt: one.endsAt, personIds: [...one.personIds], bayId: one.bayId }

export function toDifferenceAnswer({ proposal, difference, lateness: { late, daysLate }, moved, toAsk }: Drawn, timeZone: string): z.infer<typeof differenceSchema> {
  const why = whyMoved(proposal, timeZone)
  return {
    proposal: proposal.id, late, daysLate, moved, toAsk: [...toAsk],
    difference: difference && {
      work: difference.work.map(({ is, before, after }) => {
        const { operationId, buildId, name } = (after ?? before)!
        return { operationId, buildId, name, is, why: is === 'shorter' ? 'its own hours' : why(operationId, is === 'longer'), before: toWhere(before), after: toWhere(after) }
      }),
      builds: difference.builds.map(({ buildId, before, after, dueAt }) => ({ buildId, before, after, dueAt })),
      today: difference.today.map(({ personId, operationId, before, after }) => ({ personId, operationId, before, after })),
    },
  }
}
