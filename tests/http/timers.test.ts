import t from 'tap'
import { randomUUID } from 'node:crypto'
import { aBench, history } from '../support/aBench.ts'
import type { Json } from '../support/shop.ts'

const problem = (answer: { json(): Json }) => answer.json() as { detail: string, fields?: { field: string, message: string }[] }

t.test('a technician starts on the first thing offered, switches to nothing else, and stops: one entry of the time between', async t => {
  const { technician, mold, turn, entries, stateOf, shop } = await aBench(t)
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
  t.match(during, /<a href="\?how=logged" class="hand">1\.3<\/a> of <a href="\?how=estimate">2\.5 h<\/a> on this operation/)
  t.match(await technician.page('/now?how=logged'), /since 08:30[\s\S]*1\.25 h/)
  t.match(await technician.page('/now?how=estimate'), /set-up/i)
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

t.test('the same press sent twice over a poor network, or on two phones, writes one entry', async t => {
  const { technician, mold, sand, turn, entries } = await aBench(t)
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
  const { technician, mold, sand, turn, entries, shop } = await aBench(t)
  await technician.post('/timers', { operationId: mold.id })
  turn(20)
  await technician.post('/timers', { operationId: sand.id })
  turn(5)
  await technician.post('/timers', { operationId: sand.id })
  t.equal((await shop.database.reads.timer.findMany()).length, 1)
  t.same((await entries()).map(({ operationId, seconds }) => [operationId, seconds]), [[mold.id, 1200]], 'pressing what runs already changes nothing')
})

t.test('rework and waiting are asked for their why, and the time counts to the press', async t => {
  const { technician, mold, turn, entries, stateOf } = await aBench(t)
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
  const { technician, mold, turn, entries, shop } = await aBench(t)
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
  const { technician, mold, turn, entries } = await aBench(t, '2027-03-14T02:00:00Z')
  await technician.post('/timers', { operationId: mold.id })
  turn(6 * 60)
  await technician.post('/timer-stops', {})
  t.equal((await entries())[0]!.seconds, 6 * 3600)
  const page = await technician.page('/hours')
  t.match(wordsOf(page), /Sat 13 Mar 2027: 6\.00 h/, 'the day it began on')
  t.match(page, /22:30 to 05:30/, 'seven hours by the wall, six by the clock')
})

t.test('what is done takes no timer, and "operation is done" logs and closes it in one', async t => {
  const { technician, mold, sand, turn, stateOf, entries } = await aBench(t)
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
  t.match(wordsOf(await technician.page('/now')), /0\.8 h · B-0001/, 'the technician’s own figure stands for what is left')
  await technician.post('/timers', { operationId: sand.id })
  const noted = await technician.post(`/operations/${sand.id}/states`, { remaining: '1:30' })
  t.match(await technician.page(noted.headers.location as string), /Saved: <strong>1\.50 h still to do on P-101 Door pod, Op 20, sand/)
  t.match((await technician.post(`/operations/${sand.id}/states`, { remaining: 'soon' })).body, /Remaining/)
})

t.test('work is offered by skill, by promise and by what must be finished first', async t => {
  const { shop, technician, operation, mold, build, department } = await aBench(t)
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

t.test('the timer under /api: start, look, switch, stop, with the key of a repeated request', async t => {
  const { technician, mold, turn, entries } = await aBench(t)
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

function wordsOf(html: string): string {
  return html.replaceAll(/<[^>]*>/g, '')
}

t.test('while the timer runs it is said how much of the estimate remains, and then what is still to do is asked for', async (t) => {
  const { technician, sand, turn } = await aBench(t)
  // 0.5 h set-up and two pieces of 1 h: 2.5 h.
  await technician.post('/timers', { operationId: sand.id, kind: 'work' })
  turn(78)
  t.match(await technician.page('/now'), /1\.2 h remaining of 2\.5 h</, 'said, and nothing is asked yet')
  t.notMatch(await technician.page('/now'), /say what is still to do/)
  turn(60)
  t.match(await technician.page('/now'), /0\.2 h remaining of 2\.5 h: say what is still to do/)
  turn(30)
  t.match(await technician.page('/now'), /over by 0\.3 h: say what is still to do/)
  const refused = await technician.post(`/operations/${sand.id}/states`, { remaining: 'soon' })
  t.equal(refused.statusCode, 422)
  t.match(refused.body, /id="remaining"[^>]*value="soon"[^>]*aria-invalid="true"|value="soon"[^>]*aria-invalid/, 'what was typed stays, on the same page')
  await technician.post(`/operations/${sand.id}/states`, { remaining: '1 h' })
  t.match(await technician.page('/now'), /1\.0 h remaining, by the figure that was said/)
})
