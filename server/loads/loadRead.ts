import { addDays, startOfWeek } from '../calc/calendar.ts'
import { sumOf } from '../calc/grouping.ts'
import { loadOf, secondsWithin, type LoadedPerson, type LoadingWork, type WeekLoad } from '../calc/schedule/load.ts'
import type { Stretch } from '../calc/schedule/shopTicks.ts'
import { loadShopFacts } from '../schedule/facts.ts'
import { printOf } from '../schedule/prints.ts'
import { loadOpenDays } from '../schedule/openDays.ts'
import type { PlanContent } from '../schedule/planContent.ts'
import { loadPlanInForce, type PlanInForce } from '../schedule/planStore.ts'
import type { Reads } from '../shared/database/database.ts'
import { loadDepartments } from './loadStore.ts'

const WEEKS = 8
const DAYS_A_WEEK = 7

export interface LoadWeek extends Stretch {
  /** Its Monday. */
  readonly date: string
  /** Of a week that goes on only what is still to come counts. */
  readonly isFromNow: boolean
}

/** A department, or the whole shop, week by week. */
export interface DepartmentLoad {
  /** Null for the whole shop. */
  readonly departmentId: string | null
  readonly name: string
  readonly weeks: readonly (WeekLoad & { readonly isOver: boolean })[]
}

/** What is promised within these weeks and not planned, or only after its promise. */
export interface Overdue {
  readonly buildId: string
  readonly name: string
  readonly dueMs: number
  /** Person-hours planned after the promise, in seconds. */
  readonly lateS: number
  /** Why some of it is not planned. */
  readonly leftOut: readonly string[]
}

export interface ShopLoad {
  readonly inForce: PlanInForce
  readonly isStale: boolean
  readonly timeZone: string
  readonly weeks: readonly LoadWeek[]
  /** The departments in use, the whole shop last. */
  readonly loads: readonly DepartmentLoad[]
  readonly overdue: readonly Overdue[]
  /** People and builds by their ids. */
  readonly names: ReadonlyMap<string, string>
}

/** Hours planned against hours people are there, by department, for this week from now on and the seven after it; null without a plan in force. */
export async function loadShopLoad(reads: Reads, today: string, now: Date): Promise<ShopLoad | null> {
  const inForce = await loadPlanInForce(reads)
  if (inForce === null) return null
  const { content, print } = inForce
  const thisMonday = startOfWeek(today)
  const { days: all, times, shopDay, timeZone } = await loadOpenDays(reads, thisMonday, addDays(thisMonday, (WEEKS + 1) * DAYS_A_WEEK - 1))
  // On a Saturday the next eight weeks begin on Monday.
  const isOver = !all.slice(0, DAYS_A_WEEK).some(({ open }) => open !== null && open.toMs > now.getTime())
  const days = isOver ? all.slice(DAYS_A_WEEK) : all
  const { departments, departmentOfSkill, departmentOf } = await loadDepartments(reads, content.work.map(({ operationId }) => operationId))
  const weeks = Array.from({ length: WEEKS }, (_, later): LoadWeek => {
    const own = days.slice(later * DAYS_A_WEEK, (later + 1) * DAYS_A_WEEK)
    const [first, last] = [own[0]!, own.at(-1)!]
    const opening = own.find(({ open }) => open !== null)?.open?.fromMs ?? first.fromMs
    return { fromMs: Math.max(first.fromMs, now.getTime()), toMs: last.toMs, date: first.date, isFromNow: now.getTime() > opening }
  })
  const people = shopDay.people.filter(({ role, skills }) => role === 'technician' || skills.length > 0).map((person): LoadedPerson & { name: string } => ({
    id: person.id, name: person.name, hours: times.hoursOf(person), departmentIds: [...new Set(person.skills.flatMap(({ skillId }) => departmentOfSkill.get(skillId) ?? []))],
  }))
  const work = content.work.map(({ operationId, buildId, personIds, hours }): LoadingWork => ({
    buildId, departmentId: departmentOf.get(operationId) ?? '', people: personIds.length, hours: hours.map(({ fromAt, toAt }) => ({ fromMs: Date.parse(fromAt), toMs: Date.parse(toAt) })),
  }))
  const toLoad = (departmentId: string | null, name: string): DepartmentLoad => ({
    departmentId, name, weeks: loadOf(weeks, work, people, departmentId).map((week) => ({ ...week, isOver: Math.round(week.plannedS) > Math.round(week.thereS) })),
  })
  return {
    inForce, isStale: printOf(await loadShopFacts(reads, now)) !== print, timeZone, weeks,
    loads: [...departments.map(({ id, name }) => toLoad(id, name)).filter(({ weeks: own }) => own.some(({ plannedS, thereS }) => plannedS > 0 || thereS > 0)), toLoad(null, 'Whole shop')],
    overdue: overdueOf(content, weeks.at(-1)!.toMs), names: new Map([...people.map(({ id, name }) => [id, name] as const), ...content.builds.map(({ buildId, name }) => [buildId, name] as const)]),
  }
}

function overdueOf({ builds, work, leftOut }: PlanContent, toMs: number): Overdue[] {
  return builds.flatMap(({ buildId, name, dueAt }) => {
    const dueMs = dueAt === null ? null : Date.parse(dueAt)
    if (dueMs === null || dueMs > toMs) return []
    const lateS = sumOf(work.filter((one) => one.buildId === buildId), ({ hours, personIds }) => personIds.length * secondsWithin(hours.map((one) => ({ fromMs: Date.parse(one.fromAt), toMs: Date.parse(one.toAt) })), { fromMs: dueMs, toMs: Infinity }))
    const out = leftOut.filter((one) => one.buildId === buildId).map(({ why }) => why)
    return lateS > 0 || out.length > 0 ? [{ buildId, name, dueMs, lateS: Math.round(lateS), leftOut: out }] : []
  })
}
