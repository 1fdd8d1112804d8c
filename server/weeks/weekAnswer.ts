import { z } from 'zod'
import type { Stretch } from '../calc/schedule/shopTicks.ts'
import { planSchema, toPlanAnswer } from '../schedule/planAnswer.ts'
import type { ShopWeek } from './shopWeek.ts'

const instant = z.iso.datetime()
const stretch = { fromAt: instant, toAt: instant }

export const weekSchema = z.object({
  from: z.iso.date().describe('The Monday'), plan: planSchema,
  rows: z.array(z.object({
    kind: z.enum(['person', 'bay', 'machine', 'outside']), id: z.string(), name: z.string(), count: z.int().describe('How many of the kind there are'),
    work: z.array(z.object({ ...stretch, buildId: z.string(), operationId: z.string().nullable().describe('Null for a vehicle in a bay'), name: z.string() })).describe('By day; in bays, on machines that hold work and outside it goes over nights'),
    off: z.array(z.object(stretch)).describe('Hours of the shop in which a person is not there, over the break; days on which the rest is closed'),
    logged: z.array(z.object({ ...stretch, kind: z.string() })).describe('Hours noted after the fact stand from the opening of their day on'),
  })),
})

export function toWeekAnswer(from: string, found: ShopWeek | null): z.infer<typeof weekSchema> {
  if (found === null) return { from, plan: null, rows: [] }
  const at = ({ fromMs, toMs }: Stretch) => ({ fromAt: new Date(fromMs).toISOString(), toAt: new Date(toMs).toISOString() })
  return {
    from, plan: toPlanAnswer(found),
    rows: found.rows.map(({ kind, id, name, count, items, off, logged }) => ({
      kind, id, name, count, work: items.map((item) => ({ ...at(item), buildId: item.buildId, operationId: item.operationId, name: `${item.build} ${item.what}` })),
      off: off.map(at), logged: logged.map((one) => ({ ...at(one), kind: one.kind })),
    })),
  }
}
