import t from 'tap'
import { deliver } from '../support/aFinalCheck.ts'
import { aBuild } from '../support/aBuild.ts'
import { openShop, type Answer, type Json } from '../support/shop.ts'

let now = new Date('2031-03-03T09:00:00Z')
const shop = await openShop(t, { clock: () => now })
const { build, zone, department } = await aBuild(shop, 'Four speakers and an amplifier')
const manager = shop.as('manager')
const technician = shop.as('technician')
const delivery = shop.as('delivery')
const { create } = manager.api
const page = `/builds/${build.id}/final-check`
const inZone = { buildId: build.id, zoneId: zone.id }
const item = (kind: string, model: string, more: Json = {}) => create('/api/catalog', { kind, maker: 'Averne', model, cost: '100.00', price: '200.00', ...more })
await create('/api/equipment-lines', { ...inZone, itemId: (await item('amplifier', 'A 4', { current: '48 A', channels: 4, resistance: '2 ohm' })).id, quantity: 1, isFitted: true })
const speakers = await create('/api/equipment-lines', { ...inZone, itemId: (await item('speaker', 'M 165')).id, quantity: 2, isFitted: false })

interface Point { key: string; isSettled: boolean; words: string; title: string; limit: unknown; answer: Json | null }
const check = async (): Promise<{ points: Point[]; unsettled: number; signedAt: string | null; cautions: { title: string }[] }> => (await technician.api.get(`/api${page}`)).json()
const pointOf = async (key: string): Promise<Point> => (await check()).points.find((point) => point.key === key)!
const answer = (json: Json, by = technician): Promise<Answer> => by.api.post(`/api/builds/${build.id}/check-results`, json)
const versionOf = async (): Promise<string> => `"${(await manager.api.get(`/api/builds/${build.id}`)).json<{ version: number }>().version}"`
const setStage = async (stage: string): Promise<Answer> => manager.api.patch(`/api/builds/${build.id}`, { stage }, { 'if-match': await versionOf() })
const detailOf = (given: Answer): string => given.json<{ detail: string }>().detail

t.test('the points that apply stand on the page under the cautions, with why each is asked', async (t) => {
  const html = await technician.page(page)
  for (const words of ['Exhaust gas', 'Level tests', 'Key-off current after sleep', 'Polarity and channel: E-02 2 × Averne M 165', 'Gain by target voltage: E-01', 'E-02 Averne M 165 is not fitted', 'sets nothing and measures nothing']) t.match(html, words)
  t.ok(html.indexOf('Exhaust gas') < html.indexOf('Key-off current'), 'cautions come first')
  t.notMatch(html, 'Distance from the listening seat')
})

t.test('a vehicle does not leave while points are open, whichever way its stage is changed, and the refusal names them', async (t) => {
  const refused = await setStage('delivered')
  t.equal(refused.statusCode, 422)
  t.match(refused.json(), { fields: [{ field: 'stage', message: /cannot be delivered: \d+ points of its final check are open: All equipment is fitted \(E-02 Averne M 165 is not fitted\)/, help: { href: page } }] })
  const form = await manager.page(`/builds/${build.id}/form`)
  const version = /name="_version" value="(\d+)"/.exec(form)![1]!
  const posted = await manager.post(`/builds/${build.id}`, { title: 'Four speakers', kind: 'everyday build', stage: 'delivered', vehicleId: String(build.vehicleId), holding: 'owned', priority: 'usual', _version: version })
  t.equal(posted.statusCode, 422)
  t.match(posted.body, 'cannot be delivered')
  t.match(posted.body, page, 'and leads to the check')
  const born = await manager.api.post('/api/builds', { title: 'Born delivered', kind: 'counter job', stage: 'delivered', vehicleId: build.vehicleId })
  t.match(born.json(), { status: 422, detail: /A new build cannot be delivered already/ })
  t.match((await manager.api.get(`/api/builds/${build.id}`)).json(), { stage: 'intake' })
})

t.test('points without a measured value are ticked together; a point that does not exist is refused', async (t) => {
  const ticked = await technician.post(`/builds/${build.id}/check-results`, { right: ['warning-lights', 'road-test', 'noise', 'tone-sweep', 'works', 'restraints', 'relearning'] })
  t.equal(ticked.statusCode, 303, ticked.body)
  t.match(await pointOf('noise'), { isSettled: true, answer: { outcome: 'right', personName: 'Test technician' } })
  const none = await technician.post(`/builds/${build.id}/check-results`, {})
  t.equal(none.statusCode, 422)
  t.match(none.body, 'Tick what was looked at')
  t.equal((await answer({ point: 'moon-phase', outcome: 'right' })).statusCode, 404)
  t.equal((await answer({ point: 'noise', outcome: 'splendid' })).statusCode, 422)
  t.match(detailOf(await technician.api.post(`/api/builds/${build.id}/check-results`, { point: 'presets', outcome: 'right' })), /what was set/)
  t.equal((await answer({ point: 'presets', outcome: 'right', note: 'High pass 80 Hz; file E-01 on the shop’s disk' })).statusCode, 201)
})

t.test('a measured value has its unit and its limit; what lies outside is not right, and only a manager lets it pass', async (t) => {
  for (const [point, value] of [['rest-voltage', '12.7 V'], ['charge-voltage', '14.3'], ['load-voltage', '13.4 V'], ['voltage-drop.1', '210 mV']]) {
    t.equal((await answer({ point, value, outcome: 'right' })).statusCode, 201, String(point))
  }
  const point = 'key-off-current'
  t.match(detailOf(await answer({ point, outcome: 'right', value: '82 mA' })), /That is not at most 50 mA/)
  t.match(detailOf(await answer({ point, outcome: 'right', value: '38 mV' })), /Measured/)
  t.match(detailOf(await answer({ point, outcome: 'right' })), /Enter what was measured/)
  t.match(detailOf(await answer({ point, outcome: 'let pass', value: '82 mA', note: 'logger' })), /Only a manager/)
  const shown = await technician.post(`/builds/${build.id}/check-results`, { point, outcome: 'right', value: '82', note: 'kept text' })
  t.equal(shown.statusCode, 422)
  for (const words of ['not at most 50 mA', 'kept text', 'value="82"']) t.match(shown.body, words, 'nothing typed is lost')
  t.equal((await technician.post(`/builds/${build.id}/check-results`, { point, outcome: 'not right', value: '82', note: 'a module stays awake' })).statusCode, 303)
  t.match(await pointOf(point), { isSettled: false, answer: { value: 82, outcome: 'not right' } }, 'a bare number is mA')
  t.equal((await technician.post(`/builds/${build.id}/check-results`, { point, outcome: 'right', value: '38' })).statusCode, 303)
  t.match(await pointOf(point), { isSettled: true, answer: { value: 38, entered: { limit: 'at most 50 mA' } } })
  const history = await technician.page(`${page}/${point}`)
  t.ok(history.indexOf('38') < history.indexOf('a module stays awake'), 'both answers stay, the newest first')
  const owner = shop.as('owner')
  const settings = (await owner.api.get('/api/shop/shop')).json<{ version: number }>()
  t.equal((await owner.api.patch('/api/shop/shop', { keyOffMost: '30 mA' }, { 'if-match': `"${settings.version}"` })).statusCode, 200)
  t.match(await technician.page(`${page}/${point}`), 'at most 30 mA', 'the shop may hold another limit')
})

t.test('a gain is held against √(P·R), which is worked out and explained', async (t) => {
  const html = await technician.page(`${page}/gain.1?power=100+W&load=4`)
  for (const words of ['Target voltage', '20 V', '√(power × load)', 'Speakers disconnected']) t.match(html, words)
  const point = 'gain.1'
  t.match(detailOf(await answer({ point, outcome: 'right', power: '100 W', load: '4 ohm', value: '23 V' })), /not from 19 V to 21 V/)
  t.match(detailOf(await answer({ point, outcome: 'right', power: '0 W', load: '4 ohm', value: '20 V' })), /more than nothing/)
  t.equal((await answer({ point, outcome: 'right', power: '100 W', load: '4 ohm', value: '19.8 V' })).statusCode, 201)
  t.match(await pointOf(point), { isSettled: true, answer: { entered: { power: '100 W', load: '4 ohm', value: '19.8 V' } } })
})

t.test('codes read now are held against those of intake; a new one stands in the way until it is cleared', async (t) => {
  const read = (code: string, readAt: string) => create('/api/fault-codes', { buildId: build.id, code, readAt, readOn: '2031-03-03' })
  await read('P0420', 'intake')
  await read('P0420', 'final check')
  const fresh = await read('U0100', 'final check')
  const html = await technician.page(`${page}/fault-codes`)
  t.match(html, /stands-out[^]*U0100[^]*new since intake, not cleared/)
  t.match(detailOf(await answer({ point: 'fault-codes', outcome: 'right' })), /U0100 is new since intake/)
  await technician.api.patch(`/api/fault-codes/${fresh.id}`, { clearedOn: '2031-03-03' }, { 'if-match': '"1"' })
  t.equal((await answer({ point: 'fault-codes', outcome: 'right' })).statusCode, 201)
})

t.test('what the records leave open is mended there, or a manager lets it pass; what opens later counts again', async (t) => {
  t.match(detailOf(await answer({ point: 'equipment', outcome: 'right' }, manager)), /settled by the records/)
  t.equal((await answer({ point: 'equipment', outcome: 'let pass', note: 'The customer fits it at home' }, manager)).statusCode, 201)
  t.match(await pointOf('equipment'), { isSettled: true, words: 'let pass' })
  const work = await create('/api/operations', { buildId: build.id, lineId: speakers.id, kind: 'fit', departmentId: department.id, run: '1 h' })
  t.match(await pointOf('operations'), { isSettled: false, words: 'E-02 10 fit: not started' })
  await technician.api.patch(`/api/operations/${work.id}`, { state: 'done' }, { 'if-match': `"${work.version}"` })
  const point = await create('/api/open-points', { ...inZone, text: 'Grille is missing', stopsWork: true })
  t.match(await pointOf('open-points'), { isSettled: false, words: /Grille is missing/ })
  await technician.api.patch(`/api/open-points/${point.id}`, { closedOn: '2031-03-03' }, { 'if-match': '"1"' })
})

t.test('it is signed when all is settled, a later answer takes the signature back, and then the vehicle may leave', async (t) => {
  const sign = (): Promise<Answer> => delivery.api.post(`/api/builds/${build.id}/check-signatures`, { signedName: 'Neve Corvane', signature: 'M10 20L30 40' })
  t.match((await sign()).json(), { status: 409, detail: /Still open:.*Polarity/ })
  t.equal((await answer({ point: 'polarity.2', outcome: 'right' })).statusCode, 201)
  t.equal((await check()).unsettled, (await check()).points.filter(({ isSettled }) => !isSettled).length)
  for (const { key } of (await check()).points.filter(({ isSettled }) => !isSettled)) {
    t.equal((await answer({ point: key, outcome: 'does not apply', note: 'no such thing here' })).statusCode, 201, key)
  }
  t.match(detailOf(await setStage('delivered')), /nobody has signed it yet/)
  t.match((await delivery.post(`/builds/${build.id}/check-signatures`, { signedName: 'Neve', signature: 'M1 1"/><script>', _version: '1' })).statusCode, 422)
  t.equal((await delivery.post(`/builds/${build.id}/check-signatures`, { signedName: 'Neve', signature: '', _version: '1' })).statusCode, 409, 'what is signed is what was read')
  t.equal((await sign()).statusCode, 201)
  t.equal((await sign()).statusCode, 409)
  now = new Date('2031-03-03T10:00:00Z')
  t.equal((await answer({ point: 'noise', outcome: 'right' })).statusCode, 201)
  t.equal((await check()).signedAt, null, 'what was signed is no longer what stands')
  t.match(detailOf(await setStage('delivered')), /nobody has signed/)
  await sign()
  t.equal((await setStage('delivered')).statusCode, 200)
  t.match(await delivery.page(page), 'Neve Corvane')
  t.match((await answer({ point: 'noise', outcome: 'not right', note: 'whines' })).json(), { status: 409, detail: /belongs to a service visit/ })
  t.notMatch(await delivery.page(page), 'Save the ticks')
})

t.test('distances imply arrivals at the temperature asked for, and a strange temperature says so', async (t) => {
  const show = await create('/api/builds', { title: 'Show', kind: 'show build', vehicleId: build.vehicleId })
  const place = await create('/api/zones', { buildId: show.id, name: 'Doors', place: 'rear wall' })
  for (const name of ['Left', 'Right']) await create('/api/equipment-lines', { buildId: show.id, zoneId: place.id, name, itemId: (await item('speaker', name)).id, quantity: 1 })
  const measure = (point: string, value: string) => technician.api.create(`/api/builds/${show.id}/check-results`, { point, outcome: 'right', value })
  await measure('distance.1', '1.5 m')
  await measure('distance.2', '900 mm')
  const html = await technician.page(`/builds/${show.id}/final-check`)
  t.match(html, '1.75 ms')
  t.match(await technician.page(`/builds/${show.id}/final-check?how=distance.2&celsius=20`), /343\.2 m\/s/)
  const strange = await technician.page(`/builds/${show.id}/final-check?celsius=warm`)
  t.match(strange, 'as 20 or 17.5')
  t.equal((await technician.get(`/builds/${show.id}/final-check?how=distance.9`)).statusCode, 404)
  t.equal((await technician.get(`/builds/${show.id}/final-check?how=distance.2&celsius=900`)).statusCode, 422)
})

t.test('the same answer sent again is one answer, and an old build is let pass point by point', async (t) => {
  const old = await create('/api/builds', { title: 'Old', kind: 'counter job', vehicleId: build.vehicleId })
  const send = (): Promise<Answer> => technician.api.post(`/api/builds/${old.id}/check-results`, { point: 'warning-lights', outcome: 'right' }, { 'idempotency-key': 'same' })
  t.same((await send()).json(), (await send()).json())
  t.equal(await shop.database.reads.checkResult.count({ where: { finalCheck: { buildId: old.id } } }), 1)
  await deliver(shop, old.id, { deliveredOn: '2030-01-05' })
  t.match((await manager.api.get(`/api/builds/${old.id}`)).json(), { stage: 'delivered' })
})

