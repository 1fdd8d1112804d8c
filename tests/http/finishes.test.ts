import t from 'tap'
import { randomUUID } from 'node:crypto'
import { aBench, history } from '../support/aBench.ts'

const leather = { kind: 'leather', material: 'full grain', color: 'tan', code: '', batch: '' }
const bench = async (test: Parameters<typeof aBench>[0]) => {
  const desk = await aBench(test)
  const manager = desk.shop.as('manager')
  const wrap = await desk.operation('wrap')
  const finish = await desk.technician.api.create('/api/finishes', { buildId: desk.build.id, partId: desk.part.id, ...leather })
  const stateOf = async () => desk.shop.database.reads.finish.findUniqueOrThrow({ where: { id: finish.id } })
  const approve = (by = 'Imre') => manager.api.post(`/api/finishes/${finish.id}/approvals`, { by })
  return { ...desk, manager, wrap, finish, finishNow: stateOf, approve }
}

t.test('nothing is wrapped before the sample is approved: neither timer, state nor hours, on pages and under the API', async (t) => {
  const { technician, wrap, sand, finish, approve, stateOf, entries, shop } = await bench(t)
  const says = /Held by S-001 leather, full grain, tan: no sample was shown yet\. It can start when the customer’s approval is recorded\./
  const link = new RegExp(`href="/finishes/${finish.id}"`)
  const page = await technician.post('/timers', { operationId: wrap.id, kind: 'work' })
  t.equal(page.statusCode, 409)
  t.match(page.body, says)
  t.match(page.body, link)
  const api = await technician.api.post('/api/timer', { operationId: wrap.id, kind: 'work' })
  t.equal(api.statusCode, 409)
  t.match(api.json(), { title: 'The sample is not approved', help: { href: `/finishes/${finish.id}`, name: 'Open S-001 leather, full grain, tan' } })

  const hours = { operationId: wrap.id, date: '2027-01-12', time: '1.5', kind: 'work', why: 'typed, kept' }
  const form = await technician.post('/hours/new', hours)
  t.equal(form.statusCode, 422)
  t.match(form.body, says)
  t.match(form.body, link)
  t.match(form.body, /value="typed, kept"/)
  t.match((await technician.api.post('/api/time-entries', { ...hours, time: 5400 })).json(), { fields: [{ field: 'operationId', message: says, help: { href: `/finishes/${finish.id}` } }] })

  for (const state of ['running', 'done']) {
    const { version } = await shop.database.reads.operation.findUniqueOrThrow({ where: { id: wrap.id } })
    t.match((await technician.api.patch(`/api/operations/${wrap.id}`, { state }, { 'if-match': `"${version}"` })).json(), { status: 422, fields: [{ field: 'state', message: says }] })
    t.match((await technician.post(`/operations/${wrap.id}/states`, { state })).body, says)
  }
  t.same([await stateOf(wrap.id), (await entries()).length], ['not started', 0])
  t.equal((await technician.post('/timers', { operationId: sand.id, kind: 'work' })).statusCode, 303, 'what lies beneath the finish goes on')
  t.equal((await technician.post('/timers', { operationId: wrap.id, kind: 'waiting' })).statusCode, 303, 'waiting for the sample can be timed')

  t.equal((await approve()).statusCode, 200)
  t.equal((await technician.post('/timer-stops', { operationId: wrap.id, why: 'waited for the sample' })).statusCode, 303)
  t.equal((await technician.post('/timers', { operationId: wrap.id, kind: 'work' })).statusCode, 303)
  t.equal(await stateOf(wrap.id), 'running')
})

t.test('whoever talks with the customer writes the decision down: by whom, when, and why not', async (t) => {
  const { finish, finishNow, shop, technician, manager } = await bench(t)
  const delivery = shop.as('delivery')
  const url = `/finishes/${finish.id}/approvals`
  t.equal((await technician.post(url, { by: 'Imre' })).statusCode, 403)
  t.notMatch(await technician.page(`/finishes/${finish.id}`), /What the customer decided/)
  t.equal((await technician.post(`/finishes/${finish.id}/samples`)).statusCode, 303)
  t.match(await technician.page(`/finishes/${finish.id}`), /The sample was shown; the customer has not decided yet/)
  const bad = [
    [{ by: '' }, /By whom is needed/], [{ by: 'Imre', decision: 'refused' }, /Why was the sample refused/],
    [{ by: 'Imre', on: '2027-01-13' }, /is still to come/], [{ by: 'Imre', on: 'soon' }, /calendar date/], [{ by: 'Imre', decision: 'perhaps' }, /Decision is one of/],
  ] as const
  for (const [typed, says] of bad) {
    const answer = await delivery.post(url, { why: '', on: '', ...typed })
    t.equal(answer.statusCode, 422, JSON.stringify(typed))
    t.match(answer.body, says)
  }
  const key = randomUUID()
  for (let times = 0; times < 2; times += 1) t.equal((await delivery.post(url, { _key: key, decision: 'refused', by: 'Imre', on: '', why: 'too red' })).statusCode, 303)
  t.match(await finishNow(), { sampleState: 'refused', approvedBy: 'Imre', approvedOn: '2027-01-12', refusal: 'too red' })
  t.match(await manager.page(`/finishes/${finish.id}`), /Refused by Imre, Tue 12 Jan 2027: too red/)
  await delivery.post(url, { decision: 'approved', by: 'Imre', on: '2027-01-11', why: '' })
  t.match(await finishNow(), { sampleState: 'approved', approvedOn: '2027-01-11', refusal: '' })
  const decided = (await history(shop, finish.id)).filter(({ changes }) => changes.includes('sampleState') && !changes.includes('partId'))
  t.same(decided.map(({ personName }) => personName), ['Test technician', 'Test delivery', 'Test delivery'])
  const { version } = await finishNow()
  const typed = await manager.api.patch(`/api/finishes/${finish.id}`, { sampleState: 'approved' }, { 'if-match': `"${version}"` })
  t.equal(typed.statusCode, 422, 'nobody types an approval into the record')
})

t.test('another color, material, code or lot takes the approval back and says so; thread and supplier do not', async (t) => {
  const { finish, finishNow, approve, manager, shop, technician, wrap } = await bench(t)
  const change = async (json: Record<string, string>) => {
    const { version } = await finishNow()
    return technician.api.patch(`/api/finishes/${finish.id}`, json, { 'if-match': `"${version}"` })
  }
  await approve()
  for (const json of [{ thread: '40 sand' }, { supplier: 'Tannery Row' }, { grain: 'along' }, { note: 'matt side out' }]) await change(json)
  t.equal((await finishNow()).sampleState, 'approved')
  for (const [field, value] of [['color', 'brown'], ['material', 'split'], ['code', 'L 7'], ['batch', 'lot 12'], ['kind', 'vinyl']] as const) {
    await approve()
    await change({ [field]: value })
    t.match(await finishNow(), { sampleState: 'no sample yet', approvedBy: '', approvedOn: null }, field)
  }
  t.match(await manager.page(`/finishes/${finish.id}`), /The approval taken back: kind changed, Test technician/)
  t.match((await history(shop, finish.id)).map(({ action }) => action).join('; '), /approval taken back: color changed/)
  t.equal((await technician.post('/timers', { operationId: wrap.id, kind: 'work' })).statusCode, 409)
})

t.test('what was done stays done: rework and hours on it are logged, hours are taken back, but nothing is begun anew', async (t) => {
  const { technician, wrap, finish, approve, finishNow, stateOf, entries } = await bench(t)
  await approve()
  await technician.post('/hours/new', { operationId: wrap.id, date: '2027-01-12', time: '1', kind: 'work', why: '' })
  await technician.post(`/operations/${wrap.id}/states`, { state: 'done' })
  await technician.api.patch(`/api/finishes/${finish.id}`, { color: 'black' }, { 'if-match': `"${(await finishNow()).version}"` })
  const rework = { operationId: wrap.id, date: '2027-01-12', time: '0.5', kind: 'rework', why: 'seam lifted' }
  t.equal((await technician.post('/hours/new', rework)).statusCode, 303)
  t.equal((await technician.post(`/operations/${wrap.id}/states`, { state: 'running' })).statusCode, 422, 'begun again it needs the approval again')
  t.equal(await stateOf(wrap.id), 'done')
  await technician.post(`/operations/${wrap.id}/states`, { state: 'waiting' })
  t.equal((await technician.post('/hours/new', rework)).statusCode, 422)
  const [first] = await entries()
  t.equal((await technician.post(`/hours/${first!.id}/correction`, { ...rework, kind: 'work', why: '', time: '0.75' })).statusCode, 303, 'what was logged can be corrected')
})

t.test('a held operation is no work to take: Now shows it as stopped, the part beside its operation, the ledger as a point that stops work, the schedule with the part', async (t) => {
  const { technician, manager, wrap, mold, sand, part, build, finish, approve } = await bench(t)
  for (const { id } of [mold, sand]) await technician.post(`/operations/${id}/states`, { state: 'done' })
  const now = await technician.page('/now')
  t.match(now, /Held by S-001 leather/)
  t.notMatch(now, new RegExp(`name="operationId" value="${wrap.id}"`), 'it cannot be started')
  t.match(await manager.page(`/parts/${part.id}`), /Held by S-001 leather/)
  const ledger = await manager.page(`/builds/${build.id}`)
  t.match(ledger, /S-001<\/i>: sample not approved; wrap cannot start\./)
  const schedule = await manager.page(`/builds/${build.id}/finishes`)
  t.match(schedule, /1 finish is not approved; 1 operation stands still\./)
  t.match(schedule, /cannot start:<\/strong> 30 wrap/)
  await approve()
  t.match(await technician.page('/now'), new RegExp(`name="operationId" value="${wrap.id}"`))
  t.notMatch(await manager.page(`/builds/${build.id}`), /sample not approved/)
  t.match(await manager.page(`/builds/${build.id}/finishes`), /All samples are approved/)
  await manager.post(`/finishes/${finish.id}/removal`)
  t.match(await manager.page(`/builds/${build.id}`), /1 part is to be finished, and no finish is recorded/)
  t.match(await manager.page(`/builds/${build.id}/finishes`), /To be finished, and no finish recorded/)
})
