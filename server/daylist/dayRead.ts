import { addDays } from '../calc/calendar.ts'
import { findWaiting } from '../calc/schedule/readyWork.ts'
import type { Stretch } from '../calc/schedule/shopTicks.ts'
import { toStep } from '../hours/nextWork.ts'
import { listBenchOperations, listPredecessors, type BenchOperation } from '../hours/nowStore.ts'
import { loadHolds } from '../operations/heldStore.ts'
import { loadShopFacts } from '../schedule/facts.ts'
import { printOf } from '../schedule/prints.ts'
import { loadOpenDays, type OpenDays } from '../schedule/openDays.ts'
import type { PlannedWork } from '../schedule/planContent.ts'
import { loadPlanInForce, type PlanInForce } from '../schedule/planStore.ts'
import type { Reads } from '../shared/database/database.ts'
import { calendarDateIn } from '../shared/shopTime.ts'

/** So far it is looked for the next day on which somebody is there. */
const MOST_DAYS_AHEAD = 60

/** One operation of somebody on a day. */
export interface DayItem {
  readonly work: PlannedWork
  /** On that day; empty where its day is over. */
  readonly hours: readonly Stretch[]
  /** As it stands now; null where it is gone. */
  readonly operation: BenchOperation | null
  readonly state: 'open' | 'running' | 'done'
  /** What must be finished first and is not. */
  readonly waitsFor: readonly BenchOperation[]
  /** Why its part may not be worked on; empty where it may. */
  readonly held: string
}

export interface DayOfPlan {
  readonly date: string
  readonly toMs: number
  readonly isThere: boolean
  readonly items: readonly DayItem[]
}

export interface PersonDay {
  readonly inForce: PlanInForce
  readonly isStale: boolean
  readonly timeZone: string
  /** Planned for earlier days and not done. */
  readonly left: readonly DayItem[]
  /** Today, and the next day on which they are there. */
  readonly days: readonly DayOfPlan[]
  /** They work on something at this moment, planned or not. */
  readonly isRunning: boolean
  /** People, bays and machines by their ids. */
  readonly names: ReadonlyMap<string, string>
}

interface Asked {
  readonly personId: string
  readonly today: string
  readonly now: Date
}

/** What one person has to do today and next by the plan in force; null where none is. */
export async function loadPersonDay(reads: Reads, { personId, today, now }: Asked): Promise<PersonDay | null> {
  const inForce = await loadPlanInForce(reads)
  if (inForce === null) return null
  const openDays = await loadOpenDays(reads, today, addDays(today, MOST_DAYS_AHEAD))
  const [benchOperations, rules] = [await listBenchOperations(reads), await listPredecessors(reads)]
  const own = inForce.content.work.filter(({ personIds }) => personIds.includes(personId)).toSorted((one, other) => Date.parse(one.startsAt) - Date.parse(other.startsAt))
  const holds = await loadHolds(reads, [...new Set(benchOperations.flatMap(({ partId }) => partId ?? []))])
  const operations = new Map(benchOperations.map((operation) => [operation.id, operation]))
  const waiting = findWaiting(benchOperations.map(toStep), rules.map(({ earlierId, laterId }) => ({ before: earlierId, after: laterId })))
  const running = new Set(openDays.shopDay.timers.filter((timer) => timer.personId === personId).map(({ operationId }) => operationId))
  const toItem = (work: PlannedWork, hours: readonly Stretch[]): DayItem => {
    const operation = operations.get(work.operationId) ?? null
    const isDone = operation === null || operation.state === 'done'
    return {
      work, hours, operation, state: isDone ? 'done' : running.has(work.operationId) ? 'running' : 'open',
      waitsFor: isDone ? [] : (waiting.get(work.operationId) ?? []).flatMap((id) => operations.get(id) ?? []), held: isDone ? '' : holds.get(work.operationId)?.words ?? '',
    }
  }
  const there = hoursOf(openDays, personId)
  const todayMs = openDays.days[0]!.fromMs
  return {
    inForce, isStale: printOf(await loadShopFacts(reads, now)) !== inForce.print, timeZone: openDays.timeZone, isRunning: running.size > 0,
    names: new Map([...inForce.content.people, ...inForce.content.bays, ...openDays.shopDay.machines].map(({ id, name }) => [id, name])),
    left: own.filter(({ endsAt }) => Date.parse(endsAt) <= todayMs).map((work) => toItem(work, [])).filter(({ state }) => state !== 'done'),
    days: [today, ...nextDay(openDays, there)].map((date): DayOfPlan => {
      const day = openDays.days.find((one) => one.date === date)!
      const isOn = (one: Stretch): boolean => one.fromMs < day.toMs && one.toMs > day.fromMs
      return {
        date, toMs: day.toMs, isThere: there.some(isOn),
        items: own.flatMap((work) => {
          const hours = work.hours.map(({ fromAt, toAt }) => ({ fromMs: Date.parse(fromAt), toMs: Date.parse(toAt) })).filter(isOn)
          return hours.length === 0 ? [] : [toItem(work, hours)]
        }),
      }
    }),
  }
}

function hoursOf({ shopDay, times }: OpenDays, personId: string): readonly Stretch[] {
  const person = shopDay.people.find(({ id }) => id === personId)
  return person === undefined ? [] : times.hoursOf(person)
}

function nextDay({ days, timeZone }: OpenDays, there: readonly Stretch[]): string[] {
  const later = there.map(({ fromMs }) => calendarDateIn(timeZone, new Date(fromMs))).find((date) => date > days[0]!.date)
  return later === undefined ? [] : [later]
}
