import { addDays } from '../calc/calendar.ts'
import type { PlanDifference } from '../calc/schedule/planDifference.ts'
import type { ShopFacts } from '../calc/schedule/shopProblem.ts'
import { calendarDateIn, clockTimeIn, instantOf } from '../shared/shopTime.ts'
import { asKept, compareKept, withoutPins, withWork, type Kept } from './asKept.ts'
import type { PlannedWork } from './planContent.ts'
import type { PlanInForce } from './planStore.ts'

/** Hours: its work takes so much longer. Days: it cannot begin before so many working days later, as when a part is late. */
export const LATE_BY = ['hours', 'days'] as const
export interface Late {
  readonly by: number
  readonly unit: (typeof LATE_BY)[number]
}

export interface Effect {
  readonly planned: PlannedWork
  readonly kept: Kept
  readonly later: Kept
  readonly difference: PlanDifference
}

/** What an operation makes late, with everything in the order of the plan in force; null where that plan does not know it, or cannot stand. */
export function effectOf(facts: ShopFacts, base: PlanInForce, operationId: string, late: Late, timeZone: string): Effect | null {
  const open = withoutPins(facts)
  const kept = asKept(open, base, timeZone)
  const planned = kept?.content.work.find((work) => work.operationId === operationId)
  if (kept === null || planned === undefined) return null
  const later = asKept(delayed(open, planned, late, timeZone), base, timeZone)
  return later && { planned, kept, later, difference: compareKept(kept, later) }
}

function delayed(facts: ShopFacts, { operationId, startsAt, stands, personIds }: PlannedWork, { by, unit }: Late, timeZone: string): ShopFacts {
  if (unit === 'hours') return withWork(facts, operationId, ({ remainingS }) => ({ remainingS: remainingS + by * 3600 * Math.max(1, personIds.length) }))
  // What runs already cannot begin later: it is over later by as many days of the calendar.
  if (stands === 'running') return withWork(facts, operationId, ({ waitS }) => ({ waitS: waitS + by * 86_400 }))
  const start = new Date(startsAt)
  const clock = clockTimeIn(timeZone, start)
  const worked = new Set(facts.people.flatMap(({ id, hours }) => (personIds.length === 0 || personIds.includes(id) ? hours.map(({ fromMs }) => calendarDateIn(timeZone, new Date(fromMs))) : [])))
  let date = calendarDateIn(timeZone, start)
  for (let days = 0, tried = 0; days < by && tried < 400; tried += 1) {
    date = addDays(date, 1)
    if (worked.has(date)) days += 1
  }
  return withWork(facts, operationId, ({ earliestMs }) => ({ earliestMs: Math.max(earliestMs ?? 0, instantOf(timeZone, date, clock).getTime()) }))
}
