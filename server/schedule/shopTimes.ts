import { addDays, isWorkingDay, type Weekday } from '../calc/calendar.ts'
import { formatClock } from '../calc/clock.ts'
import { workedStretches, type Away, type HoursRule } from '../calc/schedule/shopHours.ts'
import type { Stretch } from '../calc/schedule/shopTicks.ts'
import { listHolidays } from '../settings/holidays.ts'
import { calendarDateIn, instantOf } from '../shared/shopTime.ts'
import type { StoredShopDay } from './store.ts'

const SHOP_WITHOUT_HOURS = { timeZone: 'UTC', opensAt: 28_800, closesAt: 61_200, workdays: '1,2,3,4,5', holidays: '', pauseFrom: null, pauseTo: null, rollTime: 1800 }

const LAST_MINUTE_S = 24 * 3600 - 60

type Person = StoredShopDay['people'][number]
type Finisher = StoredShopDay['finishers'][number]

/** When the shop, its people, bays, machines and outside finishers are there, day by day from the day of an instant on. */
export interface ShopTimes {
  /** The instant it is seen from. */
  readonly now: Date
  /** When the shop is open. */
  readonly open: readonly Stretch[]
  readonly rollMs: number
  hoursOf(person: Person): Stretch[]
  /** The same in one text, whatever day it is. */
  ruleOf(person: Person): string
  /** When a bay or machine cannot be used, or a finisher is closed. */
  closedOf(owner: { readonly bayId: string } | { readonly machineId: string } | { readonly finisherId: string }): Stretch[]
  /** When a batch can leave for a finisher, and the morning of each of its working days. */
  finisherDays(finisher: Finisher): { readonly sendMs: readonly number[], readonly workMs: readonly number[] }
  openingOn(date: string): number
  closingOn(date: string): number
  /** What all of it follows, whatever day it is. */
  readonly rule: string
}

export function shopTimes({ shop, closings }: StoredShopDay, now: Date, days: number): ShopTimes {
  const { timeZone, opensAt, closesAt, workdays, holidays: region, pauseFrom, pauseTo, rollTime } = shop ?? SHOP_WITHOUT_HOURS
  const today = calendarDateIn(timeZone, now)
  const dates = Array.from({ length: days }, (_, later) => addDays(today, later))
  const years = [...new Set(dates.map((date) => Number(date.slice(0, 4))))]
  const holidays = years.flatMap((year) => listHolidays(region, year)).map(({ on }) => on)
  const closedDates = (isIt: (closing: StoredShopDay['closings'][number]) => boolean): string[] => {
    const own = closings.filter(isIt)
    return dates.filter((date) => own.some(({ fromOn, toOn }) => fromOn <= date && date <= toOn))
  }
  const shopClosed = [...holidays, ...closedDates(({ bayId, machineId, finisherId }) => bayId === null && machineId === null && finisherId === null)]
  const at = (date: string, seconds: number): number => instantOf(timeZone, date, formatClock(Math.min(seconds, LAST_MINUTE_S))).getTime()
  const shopRule: HoursRule = { workdays: weekdays(workdays), holidays: shopClosed, hours: { fromS: opensAt, toS: closesAt }, pause: pauseFrom === null || pauseTo === null ? null : { fromS: pauseFrom, toS: pauseTo }, away: [] }
  const personRule = ({ workdays: own, startsAt, endsAt, absences }: Person): HoursRule => ({
    ...shopRule, workdays: own === '' ? shopRule.workdays : weekdays(own), hours: startsAt === null || endsAt === null ? shopRule.hours : { fromS: startsAt, toS: endsAt }, away: absences.map(toAway),
  })
  return {
    now, open: workedStretches(dates, shopRule, at), rollMs: rollTime * 1000,
    hoursOf: (person) => workedStretches(dates, personRule(person), at),
    ruleOf: ({ workdays: own, startsAt, endsAt, absences }) => JSON.stringify([own, startsAt, endsAt, absences]),
    closedOf: (owner) => closedDates((closing) => ('bayId' in owner ? closing.bayId === owner.bayId : 'machineId' in owner ? closing.machineId === owner.machineId : closing.finisherId === owner.finisherId))
      .map((date) => ({ fromMs: at(date, 0), toMs: at(addDays(date, 1), 0) })),
    finisherDays({ id, workdays: own, sendsOn }) {
      const works = { workdays: weekdays(own), holidays: [...holidays, ...closedDates(({ finisherId }) => finisherId === id)] }
      const sends = { ...works, workdays: sendsOn === '' ? works.workdays : weekdays(sendsOn) }
      return {
        sendMs: dates.filter((date) => isWorkingDay(date, sends) && isWorkingDay(date, shopRule)).map((date) => at(date, closesAt)),
        workMs: dates.filter((date) => isWorkingDay(date, works)).map((date) => at(date, opensAt)),
      }
    },
    openingOn: (date) => at(date, opensAt), closingOn: (date) => at(date, closesAt),
    rule: JSON.stringify([timeZone, opensAt, closesAt, workdays, region, pauseFrom, pauseTo, rollTime, closings]),
  }
}

const weekdays = (text: string): Weekday[] => text.split(',').filter((day) => day !== '').map((day) => Number(day) as Weekday)

const toAway = ({ fromOn, toOn, fromAt, toAt }: Person['absences'][number]): Away => ({ fromOn, toOn, hours: fromAt === null || toAt === null ? null : { fromS: fromAt, toS: toAt } })
