import type { Stretch } from '../calc/schedule/shopTicks.ts'
import type { AxisDay } from '../calc/schedule/timeAxis.ts'
import { addDays, daysBetween } from '../calc/calendar.ts'
import { groupBy } from '../calc/grouping.ts'
import type { Reads } from '../shared/database/database.ts'
import { calendarDateIn, instantOf } from '../shared/shopTime.ts'
import { shopTimes, type ShopTimes } from './shopTimes.ts'
import { loadShopDay, type StoredShopDay } from './store.ts'

export interface OpenDays {
  readonly timeZone: string
  readonly open: readonly Stretch[]
  /** Every day from the first to the last, those off as well. */
  readonly days: readonly AxisDay[]
  /** Of the same days: when people are there, and bays and machines can be used. */
  readonly times: ShopTimes
  readonly shopDay: StoredShopDay
}

/** When the shop is open from one day to another, both included. */
export async function loadOpenDays(reads: Reads, fromDate: string, toDate: string): Promise<OpenDays> {
  const shopDay = await loadShopDay(reads)
  const timeZone = shopDay.shop?.timeZone ?? 'UTC'
  const count = Math.max(1, daysBetween(fromDate, toDate) + 1)
  const times = shopTimes(shopDay, instantOf(timeZone, fromDate, '12:00'), count)
  const byDate = groupBy(times.open, ({ fromMs }) => calendarDateIn(timeZone, new Date(fromMs)))
  return {
    timeZone, open: times.open, times, shopDay,
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
