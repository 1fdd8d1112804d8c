import t from 'tap'
import { addDays } from '../../server/calc/calendar.ts'
import { randomFrom } from '../../server/calc/random.ts'
import { checkSchedule } from '../../server/calc/schedule/checkSchedule.ts'
import { listOverloads } from '../../server/calc/schedule/overload.ts'
import { searchSchedule } from '../../server/calc/schedule/search.ts'
import { hoursOnDay, workedStretches, type HoursRule } from '../../server/calc/schedule/shopHours.ts'
import { listImpossible } from '../../server/calc/schedule/impossible.ts'
import { toShopProblem, type ShopFacts, type ShopWork } from '../../server/calc/schedule/shopProblem.ts'
import { whyNoPlan } from '../../server/schedule/impossibleWords.ts'
import { isHolidayRegion, listHolidays } from '../../server/settings/holidays.ts'
import { instantOf } from '../../server/shared/shopTime.ts'

const HOUR = 3600
const WEEK: HoursRule = { workdays: [1, 2, 3, 4, 5], holidays: [], hours: { fromS: 8 * HOUR, toS: 17 * HOUR }, pause: null, away: [] }
const inHours = (rule: HoursRule, date: string) => hoursOnDay(date, rule).map(({ fromS, toS }) => `${fromS / HOUR}-${toS / HOUR}`).join(' ')

t.test('a day is worked in the shop’s hours, without the break, days off and being away', async (t) => {
  t.equal(inHours(WEEK, '2031-03-04'), '8-17')
  t.equal(inHours(WEEK, '2031-03-08'), '', 'a Saturday')
  t.equal(inHours({ ...WEEK, holidays: ['2031-03-04'] }, '2031-03-04'), '')
  const half = { ...WEEK, pause: { fromS: 12 * HOUR, toS: 12.5 * HOUR } }
  t.equal(inHours(half, '2031-03-04'), '8-12 12.5-17')
  const away = { ...half, away: [{ fromOn: '2031-03-03', toOn: '2031-03-04', hours: { fromS: 11 * HOUR, toS: 14 * HOUR } }, { fromOn: '2031-03-06', toOn: '2031-03-07', hours: null }] }
  t.equal(inHours(away, '2031-03-04'), '8-11 14-17')
  t.equal(inHours(away, '2031-03-05'), '8-12 12.5-17')
  t.equal(inHours(away, '2031-03-07'), '')
})

// The changes of the clock in 2026, from the IANA time zone database as Node carries it.
t.test('the shop opens at eight by its own clock on both sides of a change', async (t) => {
  for (const [zone, change, before, after] of [
    ['America/St_Johns', '2026-03-08', '2026-03-07T11:30', '2026-03-08T10:30'], ['Europe/Lisbon', '2026-10-25', '2026-10-24T07:00', '2026-10-25T08:00'],
    ['Australia/Lord_Howe', '2026-04-05', '2026-04-03T21:00', '2026-04-04T21:30'], ['Asia/Kathmandu', '2026-10-25', '2026-10-24T02:15', '2026-10-25T02:15'],
  ] as const) {
    const stretches = workedStretches([addDays(change, -1), change], { ...WEEK, workdays: [1, 2, 3, 4, 5, 6, 7] }, (date, seconds) => instantOf(zone, date, `${String(seconds / HOUR).padStart(2, '0')}:00`).getTime())
    t.same(stretches.map(({ fromMs }) => new Date(fromMs).toISOString().slice(0, 16)), [before, after], zone)
    t.same(stretches.map(({ fromMs, toMs }) => (toMs - fromMs) / HOUR / 1000), [9, 9], zone)
  }
})

// 5 U.S.C. 6103(a) names the days of the United States by rule; the dates of 2026 are counted out from it by hand.
t.test('public holidays are those of the country', async (t) => {
  const days = new Map(listHolidays('US', 2026).map(({ on, name }) => [on, name]))
  for (const on of ['2026-01-01', '2026-01-19', '2026-02-16', '2026-05-25', '2026-06-19', '2026-09-07', '2026-11-11', '2026-11-26', '2026-12-25']) t.ok(days.has(on), on)
  t.ok(days.has('2026-07-03'), 'the fourth of July is a Saturday: the Friday before is kept')
  // Easter Sunday 2026 is April 5 by the published tables, from memory: Good Friday two days before.
  t.ok(listHolidays('PT', 2026).some(({ on }) => on === '2026-04-03'))
  t.same(listHolidays('', 2026), [])
  t.same(['US', 'US-NY', 'PT'].map(isHolidayRegion), [true, true, true])
  t.same(['us', 'ZZ', 'US-XX', 'the moon'].map(isHolidayRegion), [false, false, false, false])
})

const DAY_MS = 86_400_000
const TICK_MS = 900_000
// A Monday at midnight; the shop opens at eight and closes at four.
const MONDAY = Date.parse('2031-03-03T00:00:00Z')
const workdays = Array.from({ length: 12 * 7 }, (_, day) => day).filter((day) => day % 7 < 5)
const at = (day: number, hour: number): number => MONDAY + day * DAY_MS + hour * 3_600_000

const WORK: ShopWork = {
  id: 'w', name: 'work', shortName: 'work', remainingS: 2 * HOUR, remainingCasesS: [], crew: 1, skill: null, personId: null, after: [], waitS: 0, isInVehicle: false, keepsIn: false,
  isInOnePiece: false, machineId: null, finisherId: null, backMs: null, pinnedMs: null, earliestMs: null, runningBy: [],
}
const SHOP: Omit<ShopFacts, 'builds'> = {
  fromMs: MONDAY, tickMs: TICK_MS, horizonTicks: 12 * 7 * 96, togetherThousandths: 300, rule: '', rollMs: 0,
  people: ['a', 'b'].map((id) => ({ id, name: id, skillIds: [], hoursRule: '', hours: workdays.map((day) => ({ fromMs: at(day, 8), toMs: at(day, 16) })) })),
  bays: [{ id: 'one', name: 'Bay 1', closed: [] }], machines: [], finishers: [],
}
const plan = (works: readonly Partial<ShopWork>[], shop: Partial<ShopFacts> = {}) => {
  const facts: ShopFacts = { ...SHOP, ...shop, builds: [{ id: 'build', name: 'B-0001', bayId: null, dueMs: null, weight: 1, refusal: '', mayRollOutNow: true, work: works.map((work) => ({ ...WORK, ...work })) }] }
  const { problem, workOf, backOf, sentOf } = toShopProblem(facts)
  const schedule = searchSchedule(problem, randomFrom(1)).best()!
  t.same(checkSchedule(problem, schedule), [], 'it can be worked')
  const when = (tick: number): string => new Date(MONDAY + tick * TICK_MS).toISOString().slice(0, 16)
  return (id: string) => {
    const { startTick, endTick } = schedule.placed[workOf.indexOf(id)]!
    return { from: when(startTick), to: when(endTick), left: sentOf.has(id) ? when(schedule.placed[sentOf.get(id)!]!.endTick) : null, back: backOf.has(id) ? when(schedule.placed[backOf.get(id)!]!.endTick) : null }
  }
}

t.test('what goes to an outside finisher leaves with the next batch and is back after its working days', async (t) => {
  const anodizer = {
    id: 'anodizer', name: 'Anodizer', awayDays: 9 + 2, rule: '', workMs: workdays.map((day) => at(day, 8)),
    sendMs: workdays.filter((day) => day % 7 === 1).map((day) => at(day, 16)),
  }
  // Packed on Monday, gone on Tuesday the 4th; eleven working days on is Wednesday the 19th. Common practice, no source.
  const shop = { finishers: [anodizer] }
  const sent = plan([{ id: 'machined', finisherId: 'anodizer' }, { id: 'fitted', after: ['machined'] }], shop)
  t.same(sent('machined'), { from: '2031-03-03T08:00', to: '2031-03-03T10:00', left: '2031-03-04T16:00', back: '2031-03-19T08:15' })
  t.equal(sent('fitted').from, '2031-03-19T08:15')
  // Not ready before Tuesday evening, it waits for the batch of the week after.
  const late = plan([{ id: 'machined', finisherId: 'anodizer', remainingS: 20 * HOUR }], shop)
  t.same(late('machined'), { from: '2031-03-03T08:00', to: '2031-03-05T12:00', left: '2031-03-11T16:00', back: '2031-03-26T08:15' })
  const away = plan([{ id: 'machined', finisherId: 'anodizer', remainingS: 0, backMs: at(3, 8) }, { id: 'fitted', after: ['machined'] }], shop)
  t.equal(away('fitted').from, '2031-03-06T08:00', 'once it is away, the day the finisher named goes first')
})

t.test('a machine holds its work through the night where it does, and takes none while it is closed', async (t) => {
  const mill = { id: 'mill', name: 'Mill', count: 1, holdsWork: true, closed: [] }
  const works = [{ id: 'first', machineId: 'mill', remainingS: 10 * HOUR }, { id: 'second', machineId: 'mill', remainingS: 2 * HOUR }]
  const two = plan(works, { machines: [mill] })
  t.ok(two('second').from >= two('first').to || two('second').to <= two('first').from, 'one at a time')
  t.same(plan(works, { machines: [{ ...mill, count: 2 }] })('second').from, '2031-03-03T08:00', 'two of them, both at once')
  const closed = plan([{ id: 'first', machineId: 'mill' }], { machines: [{ ...mill, closed: [{ fromMs: at(0, 0), toMs: at(2, 0) }] }] })
  t.equal(closed('first').from, '2031-03-05T08:00')
})

t.test('in one piece, not before a day, held, and in a bay that is closed', async (t) => {
  const whole = plan([{ id: 'first', personId: 'a', remainingS: 6 * HOUR }, { id: 'poured', personId: 'a', after: ['first'], isInOnePiece: true, remainingS: 4 * HOUR }])
  t.equal(whole('poured').from, '2031-03-04T08:00', 'two hours of Monday are left and do not do')
  t.equal(plan([{ id: 'w', earliestMs: at(2, 8) }])('w').from, '2031-03-05T08:00')
  t.equal(plan([{ id: 'w', pinnedMs: at(1, 13) }])('w').from, '2031-03-04T13:00')
  const inBay = plan([{ id: 'w', isInVehicle: true }], { bays: [{ id: 'one', name: 'Bay 1', closed: [{ fromMs: at(0, 0), toMs: at(1, 0) }] }] })
  t.equal(inBay('w').from, '2031-03-04T08:00')
})

t.test('whoever is named for the work of a crew is one of them, and the others have the skill', async (t) => {
  const [a, b] = SHOP.people
  const people = [{ ...a!, name: 'Ann' }, { ...b!, skillIds: ['welding'] }, { ...b!, id: 'c', skillIds: ['welding'], hours: b!.hours.filter(({ fromMs }) => fromMs >= at(1, 0)) }]
  const welding = { id: 'welding', name: 'welding' }
  // Sixteen person-hours by two are a day of eight; alone they were two.
  const two = { crew: 2, personId: 'a', skill: welding, remainingS: 16 * HOUR }
  t.match(plan([{ id: 'w', ...two }], { people })('w'), { from: '2031-03-03T08:00', to: '2031-03-03T16:00' })
  t.equal(plan([{ id: 'w', ...two, crew: 3, remainingS: 24 * HOUR }], { people })('w').from, '2031-03-04T08:00', 'the third is there from Tuesday')
  const leftOut = (work: Partial<ShopWork>, all = people) => toShopProblem({ ...SHOP, people: all, builds: [{ id: 'build', name: 'B-0001', bayId: null, dueMs: null, weight: 1, refusal: '', mayRollOutNow: true, work: [{ ...WORK, ...work }] }] }).leftOut.map(({ why }) => why)
  t.same(leftOut({ ...two, crew: 4, name: 'Weld' }), ['Weld needs 3 people with the skill welding besides the person named, and there are 2.'])
  const many = Array.from({ length: 13 }, (_, place) => ({ ...a!, id: String(place) }))
  // Three of thirteen are chosen in 286 ways, three of eleven in 165.
  t.match(leftOut({ crew: 3, name: 'Lift' }, many), [/^Lift needs 3 people, who can be chosen in more than 200 ways/])
  t.same(leftOut({ crew: 3 }, many.slice(2)), [])
})

t.test('what fits nowhere is told in words: which skill, until which day, which bay', async (t) => {
  const welding = { id: 'welding', name: 'welding' }
  const leaving = { ...SHOP.people[0]!, skillIds: ['welding'], hours: SHOP.people[0]!.hours.filter(({ fromMs }) => fromMs < at(11, 20)) }
  const told = (work: Partial<ShopWork>, shop: Partial<ShopFacts> = {}): string => {
    const facts: ShopFacts = { ...SHOP, ...shop, builds: [{ id: 'build', name: 'B-0001', bayId: null, dueMs: null, weight: 1, refusal: '', mayRollOutNow: true, work: [{ ...WORK, name: 'Weld the frame', ...work }] }] }
    const own = toShopProblem(facts)
    return whyNoPlan({ facts, shop: own, impossible: listImpossible(own.problem) }, 'UTC').join()
  }
  t.match(told({ skill: welding, earliestMs: at(14, 8) }, { people: [leaving, SHOP.people[1]!] }), /^Weld the frame: nobody with the skill welding is there after .*14/)
  t.match(told({ isInVehicle: true }, { bays: [{ id: 'one', name: 'Bay 1', closed: [{ fromMs: at(0, 0), toMs: at(90, 0) }] }] }), /^Weld the frame: Bay 1 is closed\.$/)
  t.match(told({ isInOnePiece: true, remainingS: 9 * HOUR }), /must be done in one piece, and the longest time without a break is 8 hours/)
  t.match(told({ pinnedMs: at(5, 9) }), /nobody is there on .*8.*, 09:00/)
  const mill = { id: 'mill', name: 'Mill', count: 1, holdsWork: false, closed: [{ fromMs: at(1, 0), toMs: at(90, 0) }] }
  t.match(told({ machineId: 'mill', earliestMs: at(2, 8) }, { machines: [mill] }), /^Weld the frame: Mill is closed after Mon 3 Mar 2031\.$/)
  t.match(told({ machineId: 'mill' }, { machines: [{ ...mill, closed: [{ fromMs: at(0, 8), toMs: at(90, 0) }] }] }), /^Weld the frame: those it needs are never there at the same time: a or b; Mill\.$/, 'open at night alone')
  const tarn = { id: 'tarn', name: 'Tarn Anodizing', awayDays: 9, rule: '', workMs: [at(0, 8)], sendMs: [at(0, 16)] }
  t.match(told({ finisherId: 'tarn', earliestMs: at(2, 8) }, { finishers: [tarn] }), /^Weld the frame, to Tarn Anodizing: no batch to Tarn Anodizing leaves after Mon 3 Mar 2031\.$/)
  t.match(told({ finisherId: 'tarn' }, { finishers: [{ ...tarn, sendMs: [] }] }), /no batch to Tarn Anodizing leaves in the half year that is looked at/)
  t.match(told({ skill: welding, crew: 2, earliestMs: at(14, 8) }, { people: [leaving, { ...leaving, id: 'c', name: 'c' }] }), /no crew of 2 with the skill welding is there after Fri 14 Mar 2031/)
})

t.test('more is due than there are hours: by skill, and for all together', async (t) => {
  const wiring = { id: 'wiring', name: 'wiring' }
  const [a, b] = SHOP.people
  const people = [{ ...a!, skillIds: ['wiring'] }, b!]
  const due = (day: number, hours: number, skill: typeof wiring | null) =>
    ({ id: `due ${day}`, name: '', bayId: null, dueMs: at(day, 16), weight: 2, refusal: '', mayRollOutNow: true, work: [{ ...WORK, remainingS: hours * HOUR, skill }] })
  // One wires eight hours a day: by Wednesday 24, and two together are there 48. By hand, common practice, no source.
  t.same(listOverloads({ ...SHOP, people, builds: [due(2, 24, wiring), due(4, 16, wiring)] }), [], 'to the hour it can be done')
  t.same(listOverloads({ ...SHOP, people, builds: [due(2, 24, wiring), due(4, 17, wiring)] }), [{ dueMs: at(4, 16), skill: 'wiring', dueS: 41 * HOUR, thereS: 40 * HOUR }])
  t.same(listOverloads({ ...SHOP, people, builds: [due(2, 49, null)] }), [{ dueMs: at(2, 16), skill: null, dueS: 49 * HOUR, thereS: 48 * HOUR }])
})
