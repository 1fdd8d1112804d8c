import { z } from 'zod'
import { TIME_KINDS } from './forms.ts'
import type { LoggedEntry } from './store.ts'
import type { Timing } from './timers.ts'

const kind = z.enum(TIME_KINDS)
const typedTime = z.union([z.int(), z.string()]).describe('Time; an integer in s, or a text with its unit, as 1.5 h, 1:30 or 90 min')

export const entrySchema = z.object({
  id: z.string(),
  createdAt: z.string(),
  buildId: z.string(),
  operationId: z.string(),
  personId: z.string(),
  kind,
  startedAt: z.string().describe('UTC; hours logged afterward begin as their day does in the shop’s time zone'),
  seconds: z.int(),
  why: z.string(),
  correctsId: z.string().nullable().describe('The entry whose place this one takes'),
  correctedById: z.string().nullable().describe('The entry that took the place of this one; null while this one counts'),
  enteredById: z.string(),
}).meta({ id: 'TimeEntry' })

export const timerSchema = z.object({ buildId: z.string(), operationId: z.string(), kind, startedAt: z.string() }).meta({ id: 'Timer' })

export const timingSchema = z.object({
  timer: timerSchema.nullable().describe('What runs now'),
  entry: entrySchema.nullable().describe('What stopping or switching wrote'),
})

const typed = {
  operationId: z.string(), date: z.string().describe('A calendar date, YYYY-MM-DD'), time: typedTime,
  kind: z.string().optional().describe(`One of: ${TIME_KINDS.join(', ')}; work unless said otherwise`),
  why: z.string().optional().describe('Needed for rework and waiting'),
}

export const newEntrySchema = z.strictObject({ ...typed, personId: z.string().optional().describe('For managers: whose hours') })
export const correctionSchema = z.strictObject(typed)

const settlement = {
  why: z.string().optional().describe('Why the time until now was rework or waiting'),
  time: typedTime.optional().describe('Hours really worked; asked for where a timer ran more than 16 h'),
  at: z.string().optional().describe('When Stop was pressed, UTC, where that was before now'),
}

export const startSchema = z.strictObject({ operationId: z.string(), kind: z.string().optional(), ...settlement })
export const stopSchema = z.strictObject({ operationId: z.string().optional(), isDone: z.boolean().optional().describe('Sets the operation done'), ...settlement })

export function entryJson(entry: LoggedEntry): z.infer<typeof entrySchema> {
  const { id, buildId, operationId, personId, seconds, why, correctsId, enteredById } = entry
  return {
    id, buildId, operationId, personId, seconds, why, correctsId, enteredById, kind: kind.parse(entry.kind),
    createdAt: entry.createdAt.toISOString(), startedAt: entry.startedAt.toISOString(), correctedById: entry.correctedBy?.id ?? null,
  }
}

export function timerJson(timer: Timing['timer']): z.infer<typeof timerSchema> | null {
  if (!timer) return null
  const { buildId, operationId, startedAt } = timer
  return { buildId, operationId, kind: kind.parse(timer.kind), startedAt: startedAt.toISOString() }
}

export const timingJson = ({ timer, entry }: Timing): z.infer<typeof timingSchema> =>
  ({ timer: timerJson(timer), entry: entry ? entryJson(entry) : null })
