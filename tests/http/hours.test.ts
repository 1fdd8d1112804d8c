import t, { type Test } from 'tap'
import { randomUUID } from 'node:crypto'
import { aBuild } from '../support/aBuild.ts'
import { openShop, type Json, type TestShop } from '../support/shop.ts'

/** A door pod with two operations on it, a clock that the test turns, and a shop far from Greenwich. */
async function bench(t: Test, at = '2027-01-12T12:00:00Z', timeZone = 'America/St_Johns') {
  const time = { now: new Date(at) }
  const shop = await openShop(t, { clock: () => time.now })
  await shop.database.write((write) => write.shop.update({ where: { id: 'shop' }, data: { timeZone } }))
  const { build, zone, department } = await aBuild(shop)
  const { create } = shop.as('manager').api
  const part = await create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Door pod', quantity: 2, cautions: 'heavy item' })
  const operation = (kind: string, more: Json = {}) => create('/api/operations', { buildId: build.id, partId: part.id, kind, departmentId: department.id, setUp: '0.5 h', run: '1 h', ...more })
  const mold = await operation('mold')
  const sand = await operation('sand')
  return {
    shop, time, build, zone, part, department, mold, sand, operation, technician: shop.as('technician'),
    turn: (minutes: number) => { time.now = new Date(time.now.getTime() + minutes * 60_000) },
    stateOf: async (id: string) => (await shop.database.reads.operation.findUniqueOrThrow({ where: { id } })).state,
    entries: () => shop.database.reads.timeEntry.findMany({ orderBy: [{ createdAt: 'asc' }, { id: 'asc' }] }),
  }
}

const problem = (answer: { json(): Json }) => answer.json() as { detail: string, fields?: { field: string, message: string }[] }
const history = (shop: TestShop, recordId: string) => shop.database.reads.auditEntry.findMany({ where: { recordId }, orderBy: [{ at: 'asc' }, { id: 'asc' }] })

t.test('a technician starts on the first thing offered, switches to nothing else, and stops: one entry of the time between', async t => {
  const { technician, mold, turn, entries, stateOf, shop } = await bench(t)
  const before = await technician.page('/now')
  t.match(before, /Nothing is running/)
  t.match(before, /Door pod/)
  t.notMatch(before, /Op 20, sand/, 'sanding waits for molding')
  t.match(before, /Resin, hardener/, 'the caution of what comes next stands there')

  const started = await technician.post('/timers', { operationId: mold.id, kind: 'work' })
  t.equal(started.statusCode, 303)
  t.equal(await stateOf(mold.id), 'running', 'the operation has begun')
  turn(75)
  const during = await technician.page('/now')
  t.match(during, /1:15/)
  // Set-up 0.5 h and two pods of 1 h.
  t.match(during, /of 2\.5 h on this operation/)
  const stopped = await technician.post('/timer-stops', { operationId: mold.id })
  t.equal(stopped.statusCode, 303)
  const written = await entries()
  t.equal(written.length, 1)
  t.match(written[0], { seconds: 75 * 60, kind: 'work', correctsId: null })
  const after = await technician.page(stopped.headers.location as string)
  t.match(after, /Saved: <strong>1\.25 h work on P-101 Door pod, Op 10, mold/)
  t.match(after, /08:30 to 09:45/, 'in the shop’s own time')
  t.same((await history(shop, written[0]!.id)).map(({ action }) => action), ['logged'])
  t.same((await history(shop, mold.id)).map(({ action }) => action), ['created', 'timer started: work', 'changed', 'timer stopped'])
})

t.test('the same press sent twice over poor Wi-Fi, or on two phones, writes one entry', async t => {
  const { technician, mold, sand, turn, entries } = await bench(t)
  await technician.post('/timers', { operationId: mold.id })
  turn(30)
  const key = randomUUID()
  const [first, again] = await Promise.all([1, 2].map(() => technician.post('/timer-stops', { operationId: mold.id, _key: key })))
  t.equal(first!.statusCode, 303)
  t.equal(again!.headers.location, first!.headers.location, 'both get the same answer')
  t.equal((await entries()).length, 1)

  const late = await technician.post('/timer-stops', { operationId: mold.id })
  t.equal(late.statusCode, 409)
  t.match(late.body, /Nothing is running/, 'a second phone is told, not thanked')

  await technician.post('/timers', { operationId: sand.id })
  const stale = await technician.post('/timer-stops', { operationId: mold.id })
  t.equal(stale.statusCode, 409)
  t.match(stale.body, /Another timer runs now/)
  t.equal((await entries()).length, 1, 'a stale page stops nothing')
})

t.test('switching writes what ran before; a person has one timer', async t => {
  const { technician, mold, sand, turn, entries, shop } = await bench(t)
  await technician.post('/timers', { operationId: mold.id })
  turn(20)
  await technician.post('/timers', { operationId: sand.id })
  turn(5)
  await technician.post('/timers', { operationId: sand.id })
  t.equal((await shop.database.reads.timer.findMany()).length, 1)
  t.same((await entries()).map(({ operationId, seconds }) => [operationId, seconds]), [[mold.id, 1200]], 'pressing what runs already changes nothing')
})

t.test('rework and waiting are asked for their why, and the time counts to the press', async t => {
  const { technician, mold, turn, entries, stateOf } = await bench(t)
  await technician.post('/timers', { operationId: mold.id })
  turn(60)
  await technician.post('/timers', { operationId: mold.id, kind: 'rework' })
  turn(30)
  const asked = await technician.post('/timer-stops', { operationId: mold.id })
  t.equal(asked.statusCode, 422)
  t.match(asked.body, /Rework needs a why/)
  t.match(asked.body, /Did not fit/, 'with the usual answers for one press')
  const at = /name="at" value="([^"]+)"/.exec(asked.body)![1]!
  turn(10)
  const answered = await technician.post('/timer-stops', { operationId: mold.id, at, whyChosen: 'Did not fit' })
  t.equal(answered.statusCode, 303)
  t.same((await entries()).map(({ kind, seconds, why }) => [kind, seconds, why]), [['work', 3600, ''], ['rework', 1800, 'Did not fit']])
  await technician.post('/timers', { operationId: mold.id, kind: 'waiting' })
  t.equal(await stateOf(mold.id), 'waiting')
  await technician.post('/timers', { operationId: mold.id, kind: 'work', why: 'Resin cures' })
  t.equal(await stateOf(mold.id), 'running')
})

t.test('a timer that ran through the night is not believed: the hours are asked for', async t => {
  const { technician, mold, turn, entries, shop } = await bench(t)
  await technician.post('/timers', { operationId: mold.id })
  for (const hours of [8, 9]) {
    turn(hours * 60)
    await technician.page('/now')
  }
  const asked = await technician.post('/timer-stops', { operationId: mold.id })
  t.equal(asked.statusCode, 422)
  t.match(asked.body, /This timer ran 17 h, longer than anybody works at a stretch/)
  t.equal((await entries()).length, 0)
  t.equal((await shop.database.reads.timer.findMany()).length, 1, 'it still runs')
  const absurd = await technician.post('/timer-stops', { operationId: mold.id, time: '30' })
  t.match(absurd.body, /at most 24 h/)
  t.match(absurd.body, /value="30"/, 'what was typed is still there')
  await technician.post('/timer-stops', { operationId: mold.id, time: '7.5' })
  t.same((await entries()).map(({ seconds }) => seconds), [27_000])
})

t.test('over midnight and over a clock change the seconds are those between the instants', async t => {
  // In St. John’s the clock went from 02:00 to 03:00 on 14 March 2027 (second Sunday of March, 2:00 local).
  const { technician, mold, turn, entries } = await bench(t, '2027-03-14T02:00:00Z')
  await technician.post('/timers', { operationId: mold.id })
  turn(6 * 60)
  await technician.post('/timer-stops', {})
  t.equal((await entries())[0]!.seconds, 6 * 3600)
  const page = await technician.page('/hours')
  t.match(page, /Sat 13 Mar 2027: 6\.00 h/, 'the day it began on')
  t.match(page, /22:30 to 05:30/, 'seven hours by the wall, six by the clock')
})

t.test('what is done takes no timer, and "operation is done" logs and closes it in one', async t => {
  const { technician, mold, sand, turn, stateOf, entries } = await bench(t)
  await technician.post('/timers', { operationId: mold.id })
  turn(45)
  await technician.post('/timer-stops', { operationId: mold.id, isDone: 'yes' })
  t.equal(await stateOf(mold.id), 'done')
  t.equal((await entries()).length, 1)
  const refused = await technician.post('/timers', { operationId: mold.id })
  t.equal(refused.statusCode, 409)
  t.match(refused.body, /Set it back to running on its own page/)
  t.match(await technician.page('/now'), /Op 20, sand/, 'the next one is offered now')
  t.equal((await technician.api.post('/api/timer', { operationId: randomUUID() })).statusCode, 404)

  const answer = await technician.post(`/operations/${sand.id}/states`, { remaining: '0.75 h' })
  t.equal(answer.statusCode, 303)
  t.match(await technician.page('/now'), /0\.8 h · B-0001/, 'the technician’s own figure stands for what is left')
  await technician.post('/timers', { operationId: sand.id })
  const noted = await technician.post(`/operations/${sand.id}/states`, { remaining: '1:30' })
  t.match(await technician.page(noted.headers.location as string), /Saved: <strong>1\.50 h still to do on P-101 Door pod, Op 20, sand/)
  t.match((await technician.post(`/operations/${sand.id}/states`, { remaining: 'soon' })).body, /Still to do/)
})

t.test('work is offered by skill, by promise and by what must be finished first', async t => {
  const { shop, technician, operation, mold, build, department } = await bench(t)
  const { create } = shop.as('manager').api
  const welding = await create('/api/skills', { name: 'Welding', departmentId: department.id })
  await operation('weld', { number: 5, skillId: welding.id })
  const page = await technician.page('/now')
  t.notMatch(page, /Op 5, weld/, 'nobody is offered what they cannot do')
  t.notMatch(page, /Op 10, mold/, 'and molding now waits for it')
  t.match(await technician.page('/now?find=pod+mold'), /Waits for P-101 Door pod, Op 5, weld\./, 'who looks for it is told what it waits for')
  t.notMatch(await technician.page('/now?find=weld+sand'), /Op \d+/, 'nothing holds both words')

  const other = await create('/api/builds', { title: 'Promised first', kind: 'everyday build', vehicleId: String(build.vehicleId), promisedOn: '2027-01-20' })
  const zone = await create('/api/zones', { buildId: other.id, name: 'Dash', place: 'dash' })
  const line = await create('/api/equipment-lines', { buildId: other.id, zoneId: zone.id, name: 'Processor', quantity: 1 })
  await create('/api/operations', { buildId: other.id, lineId: line.id, kind: 'fit', departmentId: department.id, run: '1 h' })
  const hasSkill = await shop.as('manager').api.patch(`/api/people/${technician.personId}`, { skills: [welding.id] }, { 'if-match': '1' })
  t.equal(hasSkill.statusCode, 200, hasSkill.body)
  const skilled = await technician.page('/now')
  t.ok(skilled.indexOf('Processor') < skilled.indexOf('Op 5, weld'), 'the earlier promise comes first')
  t.match(skilled, /Airbags and belt pretensioners/, 'the dash brings its caution along')
  t.ok(mold.id)
})

t.test('hours are logged afterward on their day; the absurd is refused and nothing typed is lost', async t => {
  const { technician, mold, entries } = await bench(t)
  const form = await technician.page(`/hours/new?operationId=${mold.id}`)
  t.match(form, new RegExp(`value="${mold.id}" selected`))
  const good = { operationId: mold.id, date: '2027-01-11', time: '2:30', kind: 'work', why: '' }
  const refusals: readonly (readonly [Json, RegExp])[] = [
    [{ time: '25' }, /Hours is at most 24 h; this is 25 h/], [{ time: '-2' }, /Hours: .*is negative/], [{ time: '' }, /Hours is needed/],
    [{ time: 'two' }, /Hours:/], [{ date: '2027-01-13' }, /is still to come/], [{ date: '2027-02-30' }, /calendar date/], [{ date: '1027-01-01' }, /Check the year/],
    [{ kind: 'rework' }, /Rework needs a why/], [{ kind: 'play' }, /Kind is one of/], [{ operationId: randomUUID() }, /no such operation/],
  ]
  for (const [wrong, expected] of refusals) {
    const answer = await technician.post('/hours/new', { ...good, why: 'typed, kept', ...(wrong.kind === 'rework' ? { why: '' } : {}), ...wrong } as Record<string, string>)
    t.equal(answer.statusCode, 422, JSON.stringify(wrong))
    t.match(answer.body, expected)
    if (wrong.kind !== 'rework') t.match(answer.body, /value="typed, kept"/)
  }
  t.equal((await entries()).length, 0)
  const key = randomUUID()
  for (let times = 0; times < 5; times += 1) t.equal((await technician.post('/hours/new', { ...good, _key: key })).statusCode, 303)
  t.same((await entries()).map(({ seconds, startedAt }) => [seconds, startedAt.toISOString()]), [[9000, '2027-01-11T03:30:00.000Z']], 'posted five times, written once')
  const full = await technician.post('/hours/new', { ...good, time: '22' })
  t.match(full.body, /With the 2\.5 h already logged on 2027-01-11 that day would have more than 24 h/)
  t.match(await technician.page('/hours'), /afterward/)
})

t.test('a correction stands beside what it corrects, which is kept and shown; only the last one counts', async t => {
  const { technician, shop, mold, sand, entries, turn } = await bench(t)
  await technician.post('/hours/new', { operationId: mold.id, date: '2027-01-12', time: '8', kind: 'work', why: '' })
  const [first] = await entries()
  turn(5)
  const form = await technician.page(`/hours/${first!.id}/correction`)
  t.match(form, /value="8\.00"/)
  const corrected = { operationId: sand.id, date: '2027-01-11', time: '3.5', kind: 'rework', why: 'Wrong operation' }
  t.equal((await technician.post(`/hours/${first!.id}/correction`, corrected)).statusCode, 303)
  const [original, correction] = await entries()
  t.match(original, { seconds: 28_800, operationId: mold.id, kind: 'work' }, 'the first entry is untouched')
  t.match(correction, { seconds: 12_600, operationId: sand.id, kind: 'rework', correctsId: first!.id })
  const page = await technician.page('/hours')
  t.match(page, /Mon 11 Jan 2027: 3\.50 h/)
  t.match(page, /was 8\.00 h work on Tue 12 Jan 2027, corrected by Test technician, Tue 12 Jan 2027 08:35/)
  t.notMatch(page, /Tue 12 Jan 2027: /, 'what was corrected away counts no more')

  const late = await technician.post(`/hours/${first!.id}/correction`, corrected)
  t.equal(late.statusCode, 409, 'an entry is corrected once; then its correction is')
  t.equal((await technician.get(`/hours/${first!.id}/correction`)).headers.location, `/hours/${correction!.id}/correction`)
  t.equal((await shop.as('manager').post(`/hours/${correction!.id}/correction`, { ...corrected, time: '0' })).statusCode, 303, 'a manager corrects anybody’s, and 0 takes hours back')
  const { items } = (await technician.api.get('/api/time-entries')).json() as { items: { seconds: number, correctedById: string | null, personId: string }[] }
  t.same(items.filter(({ correctedById }) => correctedById === null).map(({ seconds, personId }) => [seconds, personId]), [[0, technician.personId]], 'they stay the technician’s hours')
  t.same((await history(shop, correction!.id)).map(({ action, personName }) => [action, personName]), [['corrected', 'Test technician']])
})

t.test('nobody sees or corrects somebody else’s hours but a manager, and whoever delivers has none', async t => {
  const { technician, shop, mold, build } = await bench(t)
  const manager = shop.as('manager')
  const own = await manager.api.create('/api/time-entries', { operationId: mold.id, date: '2027-01-12', time: 3600 })
  for (const answer of [
    await technician.get(`/hours/${own.id}/correction`), await technician.post(`/hours/${own.id}/correction`, { operationId: mold.id, date: '2027-01-12', time: '1', kind: 'work' }),
    await technician.get(`/hours?person=${manager.personId}`), await technician.api.get(`/api/time-entries/${own.id}`), await technician.api.get(`/api/time-entries?person=${manager.personId}`),
  ]) t.equal(answer.statusCode, 404)
  t.same((await technician.api.get(`/api/time-entries?build=${build.id}`)).json(), { items: [], next: null })
  t.equal((await technician.api.post('/api/time-entries', { operationId: mold.id, date: '2027-01-12', time: 3600, personId: manager.personId })).statusCode, 404)
  t.equal((await shop.as('delivery').get('/now')).statusCode, 403)
  t.equal((await shop.as('delivery').api.get('/api/timer')).statusCode, 403)

  const forOther = await manager.api.create('/api/time-entries', { operationId: mold.id, date: '2027-01-12', time: '1.5 h', personId: technician.personId })
  t.match(await technician.page('/hours'), /1\.50/, 'a manager enters what stood on a slip of paper')
  t.match(await manager.page(`/hours?person=${technician.personId}`), /Correct 1\.50 h/)
  t.equal((await manager.api.post('/api/time-entries', { operationId: mold.id, date: '2027-01-12', time: 60, personId: randomUUID() })).statusCode, 422)
  t.ok(forOther.id)
})

t.test('the timer under /api: start, look, switch, stop, with the key of a repeated request', async t => {
  const { technician, mold, turn, entries } = await bench(t)
  const started = await technician.api.post('/api/timer', { operationId: mold.id })
  t.equal(started.statusCode, 200, started.body)
  t.match(started.json(), { timer: { operationId: mold.id, kind: 'work' }, entry: null })
  turn(10)
  t.match((await technician.api.get('/api/timer')).json(), { timer: { operationId: mold.id } })
  const headers = { 'idempotency-key': randomUUID() }
  const stops = [await technician.api.post('/api/timer-stops', {}, headers), await technician.api.post('/api/timer-stops', {}, headers)]
  t.same(stops.map(({ statusCode }) => statusCode), [200, 200])
  t.match(stops[1]!.json(), { timer: null, entry: { seconds: 600 } })
  t.equal((await entries()).length, 1)
  t.equal((await technician.api.post('/api/timer', { operationId: mold.id, kind: 'play' })).statusCode, 422)
  t.equal((await technician.api.post('/api/timer', { operationId: mold.id, nonsense: 1 })).statusCode, 422)
  await technician.api.post('/api/timer', { operationId: mold.id, kind: 'waiting' })
  turn(3)
  const asked = await technician.api.post('/api/timer-stops', {})
  t.equal(asked.statusCode, 422)
  t.match(problem(asked).fields, [{ field: 'why', message: /Waiting needs a why/ }])
})
