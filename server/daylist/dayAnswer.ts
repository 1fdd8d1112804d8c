import { z } from 'zod'
import { inOneLine } from '../hours/operationName.ts'
import { planSchema, toPlanAnswer } from '../schedule/planAnswer.ts'
import type { DayItem, PersonDay } from './dayRead.ts'

const instant = z.iso.datetime()

const workSchema = z.object({
  operationId: z.string(), buildId: z.string(), name: z.string(), hours: z.array(z.object({ fromAt: instant, toAt: instant })), endsAt: instant,
  bayId: z.string().nullable(), machineId: z.string().nullable(), with: z.array(z.string()).describe('Who else is on it'),
  state: z.enum(['open', 'running', 'done']), waitsFor: z.array(z.object({ operationId: z.string(), name: z.string() })), held: z.string().describe('Why its part may not be worked on; empty where it may'),
})

export const daySchema = z.object({
  personId: z.string(), plan: planSchema,
  left: z.array(workSchema).describe('Planned for earlier days and not done'),
  days: z.array(z.object({ date: z.iso.date(), isThere: z.boolean(), work: z.array(workSchema) })).describe('Today, and the next day on which they are there'),
})

export function toDayAnswer(found: PersonDay | null, personId: string): z.infer<typeof daySchema> {
  if (found === null) return { personId, plan: null, left: [], days: [] }
  const toWork = ({ work, hours, state, waitsFor, held }: DayItem): z.infer<typeof workSchema> => ({
    operationId: work.operationId, buildId: work.buildId, name: work.name, endsAt: work.endsAt, bayId: work.bayId, machineId: work.machineId, with: work.personIds.filter((id) => id !== personId),
    hours: hours.map(({ fromMs, toMs }) => ({ fromAt: new Date(fromMs).toISOString(), toAt: new Date(toMs).toISOString() })), state, held,
    waitsFor: waitsFor.map((operation) => ({ operationId: operation.id, name: inOneLine(operation) })),
  })
  return { personId, plan: toPlanAnswer(found), left: found.left.map(toWork), days: found.days.map(({ date, isThere, items }) => ({ date, isThere, work: items.map(toWork) })) }
}
