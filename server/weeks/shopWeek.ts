import { addDays, startOfWeek } from '../calc/calendar.ts'
import { loadShopFacts } from '../schedule/facts.ts'
import { printOf } from '../schedule/prints.ts'
import { loadOpenDays, type OpenDays } from '../schedule/openDays.ts'
import { loadPlanInForce, type PlanInForce } from '../schedule/planStore.ts'
import type { Reads } from '../shared/database/database.ts'
import { toShopRows, type ShopRow } from './weekRows.ts'
import { loadFinishersOf, loadWeekHours } from './weekStore.ts'

export const DAYS_A_WEEK = 7

export interface ShopWeek {
  /** Its Monday. */
  readonly from: string
  readonly inForce: PlanInForce
  readonly isStale: boolean
  readonly openDays: OpenDays
  readonly rows: readonly ShopRow[]
}

interface Asked {
  /** Any day of the week; undefined for the one that goes on or comes next. */
  readonly week: string | undefined
  readonly today: string
  readonly now: Date
}

/** The Monday of the week that is meant. */
export async function mondayOf(reads: Reads, { week, today, now }: Asked): Promise<string> {
  return startOfWeek(week ?? await firstDay(reads, today, now))
}

/** The shop's week by the plan in force; null where none is. */
export async function loadShopWeek(reads: Reads, from: string, now: Date): Promise<ShopWeek | null> {
  const inForce = await loadPlanInForce(reads)
  if (inForce === null) return null
  const { content, print } = inForce
  const openDays = await loadOpenDays(reads, from, addDays(from, DAYS_A_WEEK - 1))
  const { days } = openDays
  const hours = await loadWeekHours(reads, new Date(days[0]!.fromMs), new Date(days.at(-1)!.toMs))
  const finishers = await loadFinishersOf(reads, content.work.filter(({ dueBackAt }) => dueBackAt !== null).map(({ operationId }) => operationId))
  return { from, inForce, isStale: printOf(await loadShopFacts(reads, now)) !== print, openDays, rows: toShopRows({ content, openDays, hours, finishers, now }) }
}

/** Today, or where the shop does not open again this week the day on which it does: on a Saturday, Monday. */
async function firstDay(reads: Reads, today: string, now: Date): Promise<string> {
  const { days } = await loadOpenDays(reads, today, addDays(today, DAYS_A_WEEK))
  return days.find(({ open }) => open !== null && open.toMs > now.getTime())?.date ?? today
}
