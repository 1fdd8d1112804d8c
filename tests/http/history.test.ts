import t from 'tap'
import { addDays, addWorkingDays, isWorkingDay } from '../../server/calc/calendar.ts'
import { estimateLabor } from '../../server/calc/estimate.ts'
import { toInputs } from '../../server/builds/inputs.ts'
import { loadBuilds } from '../../server/builds/store.ts'
import { calendarDateIn } from '../../server/shared/shopTime.ts'
import { TIME_ZONE } from '../../seed/days.ts'
import { fillDemo } from '../../seed/fill.ts'
import { HABITS, REWORK, WAITING } from '../../seed/history/habits.ts'
import { openShop } from '../support/shop.ts'

const NOW = new Date('2027-05-12T18:30:00Z')
const TODAY = '2027-05-12'
const WEEK = { workdays: [1, 2, 3, 4, 5], holidays: [] } as const

const shop = await openShop(t, { clock: () => NOW })
await fillDemo(shop.database, NOW)
const { database: { reads } } = shop
const closed = await reads.build.findMany({
  where: { stage: 'delivered', deliveredOn: { gte: addDays(TODAY, -730), lte: TODAY } },
  include: { vehicle: true, entries: { orderBy: { startedAt: 'asc' } }, lines: true, parts: true, operations: true },
  orderBy: { number: 'asc' },
})
const stored = await loadBuilds(reads, closed.map(({ id }) => id))
const estimates = new Map(stored.map((one) => [one.head.id, estimateLabor(toInputs(one).labor)]))
const operations = stored.flatMap((one) => estimates.get(one.head.id)!.operations.map(({ operation, sums }) => {
  const entries = one.entries.filter(({ operationId }) => operationId === operation.id)
  const secondsOf = (kind: string): number => entries.filter((entry) => entry.kind === kind).reduce((sum, { seconds }) => sum + seconds, 0)
  return { kind: operation.kind, estimated: sums.laborS, work: secondsOf('work'), rework: secondsOf('rework'), waiting: secondsOf('waiting') }
}))

t.test('two years of small builds are closed, of both sizes, for different people and vehicles', async (t) => {
  t.ok(closed.length >= 24, `${closed.length} closed builds`)
  const counter = closed.filter(({ kind }) => kind === 'counter job')
  const everyday = closed.filter(({ kind }) => kind === 'everyday build')
  t.ok(counter.length >= 10 && everyday.length >= 12 && counter.length + everyday.length === closed.length)
  t.ok(new Set(closed.map(({ vehicle }) => vehicle.customerId)).size >= 12)
  t.ok(new Set(closed.map(({ vehicle }) => vehicle.body)).size >= 6)
})

// Job sizes of the trade: common practice, no source.
t.test('a counter job takes one to four hours, an everyday build twelve to forty', async (t) => {
  for (const { id, kind, title, lines, parts } of closed) {
    const hours = estimates.get(id)!.total.sums.laborS / 3600
    const [least, most] = kind === 'counter job' ? [1, 4] : [12, 40]
    t.ok(hours >= least && hours <= most, `${title}: ${hours.toFixed(1)} h`)
    t.ok(kind === 'counter job' ? lines.length <= 3 && parts.length === 0 : lines.length >= 3 && lines.length <= 8 && parts.length >= 1 && parts.length <= 4, title)
  }
})

t.test('all their operations are done and have hours', async (t) => {
  t.same(closed.flatMap((build) => build.operations.filter(({ state }) => state !== 'done')), [])
  t.same(operations.filter(({ work }) => work <= 0), [])
})

t.test('their hours lie between teardown and delivery, on working days while the shop is open', async (t) => {
  for (const { title, number, entries, consentOn, deliveredOn } of closed) {
    const outside = entries.filter(({ startedAt, seconds }) => {
      const end = new Date(startedAt.getTime() + seconds * 1000)
      const day = calendarDateIn(TIME_ZONE, startedAt)
      const clock = (at: Date): string => at.toLocaleTimeString('en-GB', { timeZone: TIME_ZONE })
      return day <= consentOn! || day > deliveredOn! || !isWorkingDay(day, WEEK)
        || clock(startedAt) < '08:00:00' || clock(end) > '17:00:00' || calendarDateIn(TIME_ZONE, end) !== day
    })
    t.same(outside, [], `B-${number} ${title}`)
  }
})

t.test('what was logged has the medians that are stated, and their spreads', async (t) => {
  const found = new Set(operations.map(({ kind }) => kind))
  for (const [kind, { median, spread }] of Object.entries(HABITS)) {
    const logs = operations.filter((one) => one.kind === kind).map(({ work, estimated }) => Math.log(work / estimated)).sort((one, other) => one - other)
    if (!found.has(kind)) { t.fail(`nothing of the history is ${kind}`); continue }
    // The median of n normal values has the standard error σ·√(π ÷ 2n): Kendall and Stuart, The Advanced Theory of Statistics, vol. 1; from memory.
    const error = spread * Math.sqrt(Math.PI / (2 * logs.length))
    const middle = (logs[Math.floor((logs.length - 1) / 2)]! + logs[Math.floor(logs.length / 2)]!) / 2
    t.ok(Math.abs(middle - Math.log(median)) <= 3 * error, `${kind}: median ${Math.exp(middle).toFixed(3)} of ${logs.length}, stated ${median}`)
  }
  // Over all kinds together: in units of the stated spread the logarithms are standard normal.
  const scores = operations.map(({ kind, work, estimated }) => (Math.log(work / estimated) - Math.log(HABITS[kind]!.median)) / HABITS[kind]!.spread)
  const variance = scores.reduce((sum, score) => sum + score ** 2, 0) / scores.length
  // The mean square of n standard normal values has the standard error √(2 ÷ n); from memory.
  t.ok(Math.abs(variance - 1) <= 3 * Math.sqrt(2 / scores.length), `mean square ${variance.toFixed(3)} of ${scores.length}`)
})

t.test('rework and waiting come as often as stated, and say why', async (t) => {
  const expected = operations.map(({ kind }) => REWORK.shareOfKind[kind] ?? REWORK.share)
  const within = (count: number, shares: readonly number[], words: string): void => {
    const mean = shares.reduce((sum, share) => sum + share, 0)
    const error = Math.sqrt(shares.reduce((sum, share) => sum + share * (1 - share), 0))
    t.ok(Math.abs(count - mean) <= 3 * error, `${words}: ${count}, expected ${mean.toFixed(1)} ± ${error.toFixed(1)}`)
  }
  within(operations.filter(({ rework }) => rework > 0).length, expected, 'operations with rework')
  within(operations.filter(({ waiting }) => waiting > 0).length, operations.map(() => WAITING.share), 'operations with waiting')
  t.same(closed.flatMap(({ entries }) => entries.filter(({ kind, why }) => kind !== 'work' && why === '')), [])
})

t.test('some were delivered late, most were not, and all within a fortnight of the promise', async (t) => {
  const late = closed.filter(({ promisedOn, deliveredOn }) => promisedOn! < deliveredOn!)
  t.ok(late.length >= 3 && late.length < closed.length / 2, `${late.length} late`)
  t.ok(closed.every(({ promisedOn, deliveredOn }) => deliveredOn! <= addWorkingDays(promisedOn!, 10, WEEK)))
})

t.test('the figures, the bill, the sheet and the order of one of them open', async (t) => {
  const session = shop.as('manager')
  const build = closed.find(({ kind }) => kind === 'everyday build')!
  for (const path of ['', '/estimate', '/materials', '/restoration', '/return-to-stock', '/removal']) {
    const answer = await session.get(`/builds/${build.id}${path}`)
    t.equal(answer.statusCode, 200, path)
  }
  const list = await session.get('/builds?show=delivered')
  t.equal(list.statusCode, 200)
  t.match(list.body, build.title)
  t.ok(list.body.length <= 100_000, `${list.body.length} bytes`)
})
