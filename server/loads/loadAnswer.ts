import { z } from 'zod'
import { planSchema, toPlanAnswer } from '../schedule/planAnswer.ts'
import type { ShopLoad } from './loadRead.ts'

const instant = z.iso.datetime()

export const loadSchema = z.object({
  plan: planSchema,
  weeks: z.array(z.object({ from: z.iso.date().describe('The Monday'), fromAt: instant.describe('For the week that goes on: now'), toAt: instant })),
  rows: z.array(z.object({
    departmentId: z.string().nullable().describe('Null for the whole shop'), name: z.string(),
    weeks: z.array(z.object({ plannedS: z.int(), thereS: z.int(), isOver: z.boolean() })).describe('Seconds of work planned, and in which people with a skill of the department are there; in the order of the weeks'),
  })),
  overdue: z.array(z.object({ buildId: z.string(), dueAt: instant, lateS: z.int().describe('Seconds of work planned after the promise'), leftOut: z.array(z.string()).describe('Why some of it is not planned') })),
})

export function toLoadAnswer(found: ShopLoad | null): z.infer<typeof loadSchema> {
  if (found === null) return { plan: null, weeks: [], rows: [], overdue: [] }
  const at = (ms: number): string => new Date(ms).toISOString()
  return {
    plan: toPlanAnswer(found), weeks: found.weeks.map(({ date, fromMs, toMs }) => ({ from: date, fromAt: at(fromMs), toAt: at(toMs) })),
    rows: found.loads.map(({ departmentId, name, weeks }) => ({ departmentId, name, weeks: weeks.map(({ plannedS, thereS, isOver }) => ({ plannedS: Math.round(plannedS), thereS: Math.round(thereS), isOver })) })),
    overdue: found.overdue.map(({ buildId, dueMs, lateS, leftOut }) => ({ buildId, dueAt: at(dueMs), lateS, leftOut: [...leftOut] })),
  }
}
