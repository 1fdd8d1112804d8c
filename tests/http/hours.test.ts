import t from 'tap'
import { randomUUID } from 'node:crypto'
import { aBench, history } from '../support/aBench.ts'
import type { Json } from '../support/shop.ts'

t.test('hours are logged afterward on their day; the absurd is refused and nothing typed is lost', async t => {
  const { technician, mold, entries } = await aBench(t)
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
  const { technician, shop, mold, sand, entries, turn } = await aBench(t)
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
  t.match(page.replaceAll(/<[^>]*>/g, ''), /Mon 11 Jan 2027: 3\.50 h/)
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
  const { technician, shop, mold, build } = await aBench(t)
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
