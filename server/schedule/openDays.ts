import type { Stretch } from '../calc/schedule/shopTicks.ts'
import type { AxisDay } from '../calc/schedule/timeAxis.ts'
import { addDays, daysBetween } from '../calc/calendar.ts'
import { groupBy } from '../calc/grouping.ts'
import type { Reads } from '../shared/database/database.ts'
import { calendarDateIn, instantOf } from '../shared/shopTime.ts'
import { openHours } from './openHours.ts'
import { loadShopDay } from './store.ts'

const SHOP_WITHOUT_HOURS = { timeZone: 'UTC', opensAt: 28_800, closesAt: 61_200, workdays: '1,2,3,4,5' }

export interface OpenDays {
  readonly timeZone: string
  readonly open: readonly Stretch[]
  /** Every day from the first to the last, those off as well. */
  readonly days: readonly AxisDay[]
}

/** When the shop is open from one day to another, both included. */
export async function loadOpenDays(reads: Reads, fromDate: string, toDate: string): Promise<OpenDays> {
  const hours = (await loadShopDay(reads)).shop ?? SHOP_WITHOUT_HOURS
  const { timeZone } = hours
  const count = Math.max(1, daysBetween(fromDate, toDate) + 1)
  const open = openHours(hours, instantOf(timeZone, fromDate, '12:00'), count)
  const byDate = groupBy(open, ({ fromMs }) => calendarDateIn(timeZone, new Date(fromMs)))
  return {
    timeZone, open,
    days: Array.from({ length: count }, (_, later): AxisDay => {
      const date = addDays(fromDate, later)
      const own = byDate.get(date)
      return {
        date, fromMs: instantOf(timeZone, date, '00:00').getTime(), toMs: instantOf(timeZone, addDays(date, 1), '00:00').getTime(),
        open: own === undefined ? null : { fromMs: own[0]!.fromMs, toMs: own.at(-1)!.toMs },
      }
    }),
  }
}
