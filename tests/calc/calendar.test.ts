import { spawnSync } from 'node:child_process'
import Sqlite from 'better-sqlite3'
import fc from 'fast-check'
import t from 'tap'
import {
  addDays, addMonths, addWorkingDays, dateInZone, daysBetween, formatDate, isCalendarDate, isWorkingDay, parseDate, startOfWeek, weekdayOf, workingDaysBetween,
} from '../../server/calc/calendar.ts'
import { isOutside, warrantyOf } from '../../server/calc/warranty.ts'
import type { WorkingCalendar } from '../../server/calc/calendar.ts'

const SEEDED = { seed: 20270212, numRuns: 100 }
const SHOP: WorkingCalendar = { workdays: [1, 2, 3, 4, 5], holidays: ['2027-02-15', '2026-12-25', '2027-01-01'] }
const gnuDate = spawnSync('date', ['-u', '-d', '2027-02-12', '+%F'], { encoding: 'utf8' })
const hasGnuDate = gnuDate.status === 0 && gnuDate.stdout.trim() === '2027-02-12'
const day = fc.integer({ min: 0, max: 73_000 }).map(days => addDays('1950-01-01', days))

/** What GNU date prints for many days at once. */
function askDate(days: readonly string[], format: string): string[] {
  return spawnSync('date', ['-u', '-f', '-', format], { input: days.join('\n'), encoding: 'utf8', env: { ...process.env, LC_ALL: 'C' } }).stdout.trim().split('\n')
}

t.test('only days that exist are days', async t => {
  for (const text of ['2027-02-12', '2028-02-29', '2000-02-29', '2026-12-31', '9999-12-31', '0001-01-01']) t.equal(isCalendarDate(text), true, text)
  for (const text of ['2027-02-29', '1900-02-29', '2027-02-30', '2027-04-31', '2027-13-01', '2027-00-10', '2027-01-00', '0000-01-01', '2027-2-12', '12.02.2027', '2027-02-12T00:00', '']) {
    t.equal(isCalendarDate(text), false, text)
  }
})

t.test('a day that is not one is refused in words', async t => {
  t.same(parseDate(' 2027-02-12 '), { ok: true, date: '2027-02-12' })
  t.same(parseDate('2027-02-30'), { ok: false, message: 'The calendar has no day 2027-02-30.' })
  t.same(parseDate('12 Feb'), { ok: false, message: 'Write a day as year-month-day, as 2027-02-12.' })
  t.throws(() => addDays('2027-02-30', 1), RangeError)
  t.throws(() => addDays('9999-12-31', 1), RangeError)
})

t.test('days are added over leap days and year ends', async t => {
  t.equal(addDays('2028-02-28', 1), '2028-02-29')
  t.equal(addDays('2027-02-28', 1), '2027-03-01')
  t.equal(addDays('2100-02-28', 1), '2100-03-01', 'a century is no leap year')
  t.equal(addDays('2000-02-28', 1), '2000-02-29', 'but every fourth one is')
  t.equal(addDays('2026-12-31', 1), '2027-01-01')
  t.equal(addDays('2027-01-01', -1), '2026-12-31')
  t.equal(addDays('1969-12-31', 2), '1970-01-02')
  t.equal(daysBetween('2028-01-01', '2029-01-01'), 366)
  t.equal(daysBetween('2027-01-01', '2028-01-01'), 365)
  t.equal(daysBetween('2027-03-01', '2027-02-28'), -1)
})

t.test('a warranty ends on the same day of the month, or the last there is', async t => {
  t.equal(addMonths('2027-02-12', 24), '2029-02-12')
  t.equal(addMonths('2028-02-29', 12), '2029-02-28')
  t.equal(addMonths('2027-01-31', 1), '2027-02-28')
  t.equal(addMonths('2027-11-30', 3), '2028-02-29')
  t.equal(addMonths('2000-01-31', 1), '2000-02-29')
  t.equal(addMonths('2100-01-31', 1), '2100-02-28')
  t.equal(addMonths('2027-01-15', -1), '2026-12-15')
  t.equal(addMonths('2027-03-31', -13), '2026-02-28')
})

t.test('months are added as others document it, and as SQLite counts when told to stay in the month', async t => {
  // Published: java.time, LocalDate.plusMonths, "2007-03-31 plus one month … the last valid day of the month, 2007-04-30, is selected".
  t.equal(addMonths('2007-03-31', 1), '2007-04-30')
  // Published: dateutil's relativedelta as shown on Python's tutor list, 2005-01-31 and one month.
  t.equal(addMonths('2005-01-31', 1), '2005-02-28')
  const database = new Sqlite(':memory:')
  const floor = database.prepare("SELECT date(?, ?, 'floor') AS day").pluck()
  fc.assert(fc.property(day, fc.integer({ min: -60, max: 240 }), (from, months) => {
    t.equal(addMonths(from, months), floor.get(from, `${months < 0 ? '-' : '+'}${Math.abs(months)} months`), `${from} and ${months}`)
  }), SEEDED)
  database.close()
})

t.test('a warranty runs from delivery, its last day included; a replacement’s own date goes first', async t => {
  const ofOneMonth = { deliveredOn: '2007-03-31', months: 1, replacementUntil: null }
  t.same(warrantyOf(ofOneMonth), { until: '2007-04-30', how: 'delivered 2007-03-31 + 1 month' })
  t.equal(isOutside(warrantyOf(ofOneMonth), '2007-04-30'), false)
  t.equal(isOutside(warrantyOf(ofOneMonth), '2007-05-01'), true)
  t.same(warrantyOf({ ...ofOneMonth, replacementUntil: '2009-01-01' }), { until: '2009-01-01', how: 'the replacement’s own date' })
  t.equal(warrantyOf({ ...ofOneMonth, months: null }).until, null)
  t.equal(warrantyOf({ ...ofOneMonth, deliveredOn: null }).until, null)
  t.equal(warrantyOf({ ...ofOneMonth, months: 0 }).until, '2007-03-31')
  t.equal(isOutside({ until: null, how: '' }, '2999-01-01'), false, 'where no end is known nothing is outside')
})

t.test('weeks begin on Monday', async t => {
  t.equal(weekdayOf('2027-02-12'), 5)
  t.equal(weekdayOf('1970-01-01'), 4)
  t.equal(weekdayOf('1969-12-28'), 7)
  t.equal(startOfWeek('2027-01-01'), '2026-12-28')
  t.equal(startOfWeek('2026-12-28'), '2026-12-28')
  t.equal(startOfWeek('2027-01-03'), '2026-12-28')
})

t.test('a day reads with its weekday', async t => {
  t.equal(formatDate('2027-02-12'), 'Fri 12 Feb 2027')
  t.equal(formatDate('2028-02-29'), 'Tue 29 Feb 2028')
  t.equal(formatDate('2026-12-31'), 'Thu 31 Dec 2026')
})

t.test('working days leave out weekends and holidays', async t => {
  // Friday 12 February 2027; Monday the 15th is a holiday.
  t.equal(isWorkingDay('2027-02-15', SHOP), false)
  t.equal(addWorkingDays('2027-02-12', 1, SHOP), '2027-02-16')
  t.equal(addWorkingDays('2027-02-12', 5, SHOP), '2027-02-22')
  t.equal(addWorkingDays('2027-02-16', -1, SHOP), '2027-02-12')
  t.equal(addWorkingDays('2027-02-13', 0, SHOP), '2027-02-16', 'nothing to add still lands on a working day')
  t.equal(addWorkingDays('2027-02-12', 0, SHOP), '2027-02-12')
  t.equal(addWorkingDays('2026-12-24', 1, SHOP), '2026-12-28', 'Christmas on a Friday')
  t.equal(addWorkingDays('2026-12-31', 1, SHOP), '2027-01-04', 'over the year end')
  t.equal(addWorkingDays('2028-02-28', 1, SHOP), '2028-02-29')
  t.equal(workingDaysBetween('2027-02-12', '2027-02-16', SHOP), 1)
  t.equal(workingDaysBetween('2027-02-16', '2027-02-12', SHOP), -1)
  t.equal(workingDaysBetween('2027-02-12', '2027-02-12', SHOP), 0)
  t.throws(() => addWorkingDays('2027-02-12', 1, { workdays: [], holidays: [] }), RangeError)
})

t.test('counting working days and adding them agree', async () => {
  fc.assert(fc.property(day, fc.integer({ min: 1, max: 60 }), (from, days) => {
    const to = addWorkingDays(from, days, SHOP)
    return isWorkingDay(to, SHOP) && workingDaysBetween(from, to, SHOP) === days
  }), SEEDED)
})

t.test('adding days and counting them agree', async () => {
  fc.assert(fc.property(day, fc.integer({ min: -40_000, max: 40_000 }), (from, days) => {
    const to = addDays(from, days)
    return daysBetween(from, to) === days && daysBetween(startOfWeek(to), to) < 7 && weekdayOf(startOfWeek(to)) === 1
  }), SEEDED)
})

t.test('GNU date prints the same days', { skip: hasGnuDate ? false : 'skipped: GNU "date" is not installed' }, async t => {
  const days = fc.sample(day, SEEDED)
  const shifts = days.map((_, index) => index * 37 - 1_800)
  t.same(days.map(formatDate), askDate(days, '+%a %-d %b %Y'))
  t.same(days.map(date => String(weekdayOf(date))), askDate(days, '+%u'))
  t.same(days.map((date, index) => addDays(date, shifts[index]!)), askDate(days.map((date, index) => `${date} ${shifts[index]} days`), '+%F'))
})

t.test('the answer does not depend on where the server stands', async t => {
  const home = process.env.TZ
  t.teardown(() => {
    if (home === undefined) delete process.env.TZ
    else process.env.TZ = home
  })
  for (const zone of ['UTC', 'America/St_Johns', 'Pacific/Chatham', 'America/Sao_Paulo']) {
    process.env.TZ = zone
    t.equal(addDays('2018-11-03', 1), '2018-11-04', `${zone}: a day without midnight in São Paulo`)
    t.equal(daysBetween('2027-03-13', '2027-03-15'), 2, zone)
    t.equal(formatDate('2027-01-01'), 'Fri 1 Jan 2027', zone)
    t.equal(weekdayOf('2028-02-29'), 2, zone)
    t.equal(isCalendarDate('2018-11-04'), true, zone)
  }
})

t.test('an instant falls on the day of the shop, not of the server', async t => {
  const instant = Date.UTC(2027, 0, 1, 2, 30)
  t.equal(dateInZone(instant, 'UTC'), '2027-01-01')
  t.equal(dateInZone(instant, 'America/Chicago'), '2026-12-31')
  t.equal(dateInZone(instant, 'Pacific/Chatham'), '2027-01-01')
  t.equal(dateInZone(Date.UTC(2028, 1, 29, 12), 'Pacific/Kiritimati'), '2028-03-01')
  t.throws(() => dateInZone(instant, 'Nowhere/Else'), RangeError)
})
