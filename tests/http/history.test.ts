import t from 'tap'
import { addDays, addWorkingDays, isWorkingDay } from '../../server/calc/calendar.ts'
import { estimateLabor } from '../../server/calc/estimate/estimate.ts'
import { toInputs } from '../../server/builds/inputs.ts'
import { loadBuilds } from '../../server/builds/store.ts'
import { loadLearned } from '../../server/history/learned.ts'
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

t.test('what the shop’s hours teach is what was put into them, kind by kind, and most intervals hold it', async (t) => {
  const { history } = await loadLearned(reads)
  const wide = history.groups.filter(({ records }) => records >= 5)
  t.ok(wide.length > 20, `${wide.length} kinds and departments with 5 records or more`)
  const far = wide.filter(({ kind, low, high }) => HABITS[kind]!.median * 1000 < low - 60 || HABITS[kind]!.median * 1000 > high + 60)
  t.ok(far.length <= 3, `stated median far outside its interval: ${far.map(({ kind, low, high }) => `${kind} ${low} to ${high}`).join(', ')}`)
  const sand = history.groups.find(({ kind, records }) => kind === 'sand' && records >= 30)!
  t.ok(sand.ratio > 1_250 && sand.ratio < 1_500, `sand, stated 1.4: ${sand.ratio}`)
  t.ok(history.together! < 150, `each operation was drawn by itself: ${history.together} of 1000`)
})

t.test('each closed build is foretold from the others, and the page says how many ended inside, with what so few are worth', async (t) => {
  const manager = shop.as('manager')
  const { coverage } = (await manager.api.get('/api/history')).json() as { coverage: { builds: number, in80: number, in90: number, inEstimate: number, operations: { all: number, in80: number } } }
  t.ok(coverage.builds >= closed.length && coverage.in80 <= coverage.in90)
  const share = coverage.operations.in80 / coverage.operations.all
  t.ok(share >= 0.75 && share <= 0.85, `operations inside their 80 in 100: ${share}`)
  t.ok(coverage.in80 / coverage.builds > 0.65, `${coverage.in80} of ${coverage.builds} builds, together as the shop has set it`)
  t.ok(coverage.inEstimate < coverage.in80, 'more than inside the estimate as typed')
  const page = (await manager.page('/history')).replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
  t.match(page, new RegExp(`Builds, inside their 80 in 100 ${coverage.in80} of ${coverage.builds}`))
  t.match(page, /still leave much to chance/)
  t.match(await manager.page('/history?how=c80'), /One that ends exactly on the value counts as inside/)
  for (const { name } of await reads.person.findMany({ select: { name: true }, where: { role: 'technician' } })) t.notMatch(page, name)
})

t.test('a ratio counts in the estimate once a manager accepts it, in every view alike, and stands as typed again once it is taken back', async (t) => {
  const manager = shop.as('manager')
  const show = await reads.build.findFirstOrThrow({ where: { kind: 'show build' }, select: { id: true } })
  const estimate = async () => (await manager.api.get(`/api/builds/${show.id}/estimate`)).json() as Record<'operations' | 'zones' | 'departments' | 'owners', { labor: number, operationId: string }[]> & { total: { labor: number } }
  const sum = (rows: readonly { labor: number }[]): number => rows.reduce((all, { labor }) => all + labor, 0)
  const before = await estimate()
  type Item = { kind: string, departmentId: string, open: number, learned: { ratio: number, records: number } | null, accepted: { id: string, ratio: number } | null }
  const offered = async () => ((await manager.api.get(`/api/builds/${show.id}/hour-corrections`)).json() as { items: Item[] }).items
  const sand = (await offered()).find(({ kind, learned }) => kind === 'sand' && learned!.records > 20)!
  const wanted = { kind: sand.kind, departmentId: sand.departmentId, ratio: sand.learned!.ratio }
  const address = `/api/builds/${show.id}/hour-corrections`
  t.same(await estimate(), before, 'looking changes nothing')
  const chances = async () => (await manager.api.get(`/api/builds/${show.id}/spread`)).json() as { hours: { even: number, in80: number }, operations: { operationId: string, records: number }[] }
  const { hours: unasked, operations: unsure } = await chances()
  t.ok(unsure.filter(({ records }) => records > 0).length > 100, 'what has no three values is as unsure as closed operations of its kind')
  t.ok(Math.abs(unasked.even / before.total.labor - 1) < 0.1 && unasked.in80 > before.total.labor, `around the estimate as typed, ${before.total.labor} s: ${unasked.even} and ${unasked.in80} s`)
  t.equal((await manager.api.post(address, { ...wanted, ratio: wanted.ratio + 10 })).statusCode, 409, 'nobody accepts a ratio that has moved unseen')
  t.equal((await manager.api.post(address, { ...wanted, kind: 'weave' })).statusCode, 409)
  t.equal((await shop.as('technician').api.post(address, wanted)).statusCode, 403)
  t.equal((await manager.api.post(`/api/builds/${closed[0]!.id}/hour-corrections`, wanted)).statusCode, 409, 'a delivered build is settled')
  t.same(await estimate(), before)

  await manager.api.post(address, wanted, { 'idempotency-key': 'once' })
  await manager.api.post(address, wanted, { 'idempotency-key': 'once' })
  t.equal(await reads.hourCorrection.count({ where: { buildId: show.id } }), 1, 'a repeated request accepts once')
  const after = await estimate()
  const own = await reads.operation.findMany({ where: { buildId: show.id, kind: 'sand', departmentId: sand.departmentId, removedAt: null }, select: { id: true, partId: true } })
  const ids = new Set(own.map(({ id }) => id))
  for (const { operationId, labor } of after.operations) {
    const was = before.operations.find((each) => each.operationId === operationId)!.labor
    // Rounded for one person, before the crew and the allowance.
    if (ids.has(operationId)) t.ok(Math.abs(labor - was * wanted.ratio / 1000) <= 4, `${was} s came to ${labor} s`)
    else t.equal(labor, was)
  }
  for (const view of [after.operations, after.zones, after.departments, after.owners]) t.equal(sum(view), after.total.labor)
  const costing = (await manager.api.get(`/api/builds/${show.id}/costing`)).json() as { total: { estimated: number } } | { labor: { estimated: number } }
  t.match(JSON.stringify(costing), String(after.total.labor))
  const times = String(wanted.ratio / 1000)
  t.match((await manager.page(`/parts/${own.find(({ partId }) => partId !== null)!.partId}`)).replace(/<[^>]*>/g, ''), `× ${times} from ${sand.learned!.records} records`)
  t.match(await manager.page(`/builds/${show.id}/history`), /accepted by/)
  const spread = await chances()
  t.ok(spread.operations.some(({ operationId, records }) => ids.has(operationId) && records === sand.learned!.records), 'closed operations give the spread of what has no three values')
  t.same((await reads.auditEntry.findMany({ where: { recordKind: 'hour correction' } })).map(({ action }) => action), ['accepted'])
  // It stands wherever the line is shown, whatever the operation is on.
  const wordsOf = async (path: string): Promise<string> => (await manager.page(path)).replace(/<[^>]*>/g, '')
  const stands = `× ${times} from ${sand.learned!.records} records`
  t.match(await wordsOf(`/operations/${own[0]!.id}`), stands)
  t.match(await wordsOf(`/operations?build=${show.id}`), stands)
  t.match(await wordsOf(`/builds/${show.id}/estimate?by=part`), `as our hours run: sand ${stands}`)
  t.match(await wordsOf(`/builds/${show.id}/estimate`), `as our hours run: sand ${stands}`, 'with its department')
  t.match(await wordsOf(`/builds/${show.id}/quote`), stands, 'and for the shop beside the quote')
  for (const [place, path] of [['lineId', 'equipment-lines'], ['factoryPartId', 'factory-parts']] as const) {
    const planned = await reads.operation.findMany({ where: { buildId: show.id, removedAt: null, [place]: { not: null } } })
    const item = (await offered()).find(({ kind, departmentId, learned, accepted: done }) => (learned?.records ?? 0) > 0 && !done && planned.some((each) => each.kind === kind && each.departmentId === departmentId))!
    const one = planned.find(({ kind, departmentId }) => kind === item.kind && departmentId === item.departmentId)!
    await manager.api.post(address, { kind: item.kind, departmentId: item.departmentId, ratio: item.learned!.ratio })
    const says = `× ${item.learned!.ratio / 1000} from ${item.learned!.records} records`
    t.match(await wordsOf(`/${path}/${String(one[place])}`), says, path)
    t.match(await wordsOf(`/builds/${show.id}/estimate?by=equipment`), `${item.kind} ${says}`, path)
    const { accepted: done } = (await offered()).find(({ kind, departmentId }) => kind === item.kind && departmentId === item.departmentId)!
    await manager.api.post(`${address}/${done!.id}/taken-back`, {})
  }

  const { accepted } = (await offered()).find(({ kind, departmentId }) => kind === sand.kind && departmentId === sand.departmentId)!
  t.equal((await manager.api.post(`${address}/${accepted!.id}/taken-back`, {})).statusCode, 200)
  t.same(await estimate(), before)
  t.equal((await manager.api.post(`${address}/${accepted!.id}/taken-back`, {})).statusCode, 404)
})

t.test('after the build every grouping comes to the same hours, money is that of the costing, and nobody is named or can be told from a department', async (t) => {
  const manager = shop.as('manager')
  type Took = { name: string, estimated: number, logged: number, rework: number, over: number }
  type After = Record<'departments' | 'kinds' | 'rework', Took[]> & { total: Took, money: { price: number, cost: number, margin: number } }
  const sum = (rows: readonly Took[]) => ({ estimated: rows.reduce((all, row) => all + row.estimated, 0), logged: rows.reduce((all, row) => all + row.logged, 0), rework: rows.reduce((all, row) => all + row.rework, 0) })
  const all = (await manager.api.get('/api/after')).json() as After & { builds: (After & { id: string })[] }
  t.ok(all.builds.length >= closed.length)
  for (const side of [all.departments, all.kinds, all.builds.map(({ total }) => total)]) t.match(all.total, sum(side))
  t.equal(sum(all.rework).rework, all.total.rework)
  t.equal(all.total.over, all.total.logged - all.total.estimated)
  t.equal(all.money.margin, all.money.price - all.money.cost)

  const one = closed.find(({ kind, entries }) => kind === 'everyday build' && entries.some((entry) => entry.kind === 'rework'))!
  const after = (await manager.api.get(`/api/builds/${one.id}/after`)).json() as After & { parts: Took[] }
  for (const side of [after.parts, after.departments, after.kinds]) t.match(after.total, sum(side))
  const logged = one.entries.filter(({ kind }) => kind !== 'waiting').reduce((seconds, entry) => seconds + entry.seconds, 0)
  t.equal(after.total.logged, logged)
  t.equal(after.total.rework, one.entries.filter(({ kind }) => kind === 'rework').reduce((seconds, entry) => seconds + entry.seconds, 0))
  t.match(JSON.stringify((await manager.api.get(`/api/builds/${one.id}/costing`)).json()), `"margin":${after.money.margin}`)

  // A department in which one person alone has worked anywhere in the shop never stands by itself.
  const departments = await reads.department.findMany({ select: { id: true, name: true } })
  for (const { id, name } of departments) {
    const people = await reads.timeEntry.groupBy({ by: ['personId'], where: { kind: { not: 'waiting' }, operation: { departmentId: id, visitId: null } } })
    const isTold = all.departments.some((row) => row.name === name) || after.departments.some((row) => row.name === name)
    if (people.length < 2) t.notOk(isTold, `${name}: ${people.length}`)
  }
  t.ok(all.departments.some(({ name }) => name === 'Departments told together'))
  const texts = [await manager.page('/after'), await manager.page(`/builds/${one.id}/after`), (await manager.get('/after/hours.csv')).body, (await manager.get(`/builds/${one.id}/after/hours.csv`)).body]
  const people = await reads.person.findMany({ where: { entries: { some: {} } }, select: { name: true } })
  const shown = texts.map((text) => text.replace(/<header class="top">.*?<\/header>/s, ''))
  for (const { name } of people) for (const text of shown) t.notMatch(text, new RegExp(name.split(' ').at(-1)!))
  const hours = texts[3]!.trim().split('\r\n').slice(1).map((line) => line.split(',').slice(-3, -1).reduce((total, cell) => total + Number(cell), 0))
  t.ok(Math.abs(hours.reduce((total, value) => total + value, 0) * 3600 - logged) < 1)
  t.equal((await shop.as('technician').get('/after')).statusCode, 403)
})
