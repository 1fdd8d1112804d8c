import t from 'tap'
import { randomUUID } from 'node:crypto'
import { aDoor, buildDoor } from '../support/aDoor.ts'
import { openShop, type Answer, type Json } from '../support/shop.ts'

let minutes = 0
const shop = await openShop(t, { clock: () => new Date(Date.UTC(2031, 2, 3, 9, minutes)) })
const door = await aDoor(shop)
await buildDoor(shop, door)
const manager = shop.as('manager')
const technician = shop.as('technician')
const delivery = shop.as('delivery')
const { create } = manager.api
const zone = { buildId: door.build.id, zoneId: door.zone.id }
const rack = await create('/api/bins', { buildId: door.build.id, place: 'rack D' })
const lies = (name: string, more: Json) => create('/api/factory-parts', { ...zone, name, state: 'out and stored', ...more })
// F-013 Door speaker lies in A-001 from the door; these beside it.
const grille = await lies('Grille', { binId: door.bin.id })
const tweeter = await lies('Tweeter', { binId: door.bin.id })
const lamp = await lies('Lamp', { binId: rack.id })
const trim = await lies('Trim', { place: 'on the wall' })
const carpet = await lies('Carpet', { binId: rack.id })

type Found = Readonly<Record<string, string>>
const found = async (number = 1): Promise<Found> => {
  const { parts } = (await technician.api.get(`/api/stock-takes/${number}`)).json<{ parts: { name: string; finding: string }[] }>()
  return Object.fromEntries(parts.map(({ name, finding }) => [name, finding]))
}
const sees = (form: Record<string, string>, who = technician): Promise<Answer> => {
  minutes += 1
  return who.post('/stock-takes/1/sightings', form)
}
const at = { a: { bin: door.bin.id }, d: { bin: rack.id }, wall: { build: '1', place: 'on the wall' } }
const stateOf = async (id: string): Promise<unknown[]> => {
  const part = await shop.database.reads.factoryPart.findUniqueOrThrow({ where: { id } })
  return [part.state, part.binId, part.place]
}

t.test('a manager begins the yearly stock-take; there is one at a time', async (t) => {
  t.match(await manager.page('/stock-takes'), /None yet\. Once a year every bin is looked into/)
  const key = randomUUID()
  const [answer, again] = [await manager.post('/stock-takes', { note: 'Spring', _key: key }), await manager.post('/stock-takes', { note: 'Spring', _key: key })]
  t.equal(answer.headers.location, '/stock-takes/1')
  t.equal(again.headers.location, '/stock-takes/1')
  t.match((await manager.post('/stock-takes', {})).body, /Stock-take 1 is still open/)
  t.equal((await technician.post('/stock-takes', {})).statusCode, 403)
  t.same(await found(), { 'Door speaker': 'not looked at', 'Grille': 'not looked at', 'Tweeter': 'not looked at', 'Lamp': 'not looked at', 'Trim': 'not looked at', 'Carpet': 'not looked at' })
  t.match(await technician.page('/stock-takes/1'), /A-001 rack C, shelf 2.*not begun, 3 to look for/s)
})

t.test('a bin is opened by its number as on the label, or by scanning it', async (t) => {
  for (const find of ['B-0001 A-1', 'b-1 a-001', 'https://shop.example/scan/B-0001/A-001']) {
    t.equal((await technician.get(`/stock-takes/1?find=${encodeURIComponent(find)}`)).headers.location, `/stock-takes/1/bins/${door.bin.id}`, find)
  }
  t.match((await technician.get('/stock-takes/1?find=A-99')).body, /There is no bin <strong>A-99<\/strong>/)
  t.match(await technician.page('/scan/B-0001/A-001'), new RegExp(`/stock-takes/1/bins/${door.bin.id}`))
})

t.test('per bin: here, not here, and also here by number; of a place that is no bin likewise', async (t) => {
  t.equal((await sees({ ...at.a, p13: 'here', p14: 'not here' })).statusCode, 303)
  t.equal((await sees({ ...at.a, also: 'F-017' })).statusCode, 303)
  t.match(await found(), { 'Door speaker': 'here', 'Grille': 'not found', 'Trim': 'elsewhere', 'Tweeter': 'not looked at' })
  const page = await technician.page(`/stock-takes/1/bins/${door.bin.id}`)
  t.match(page, /Also here<\/h2><ul class="scanned"><li><span class="no">B-0001 F-017<\/span> <span>Trim<\/span><small>by the records: on the wall/)
  t.equal((await sees({ ...at.d, all: 'here' })).statusCode, 303)
  t.match(await found(), { Lamp: 'here', Carpet: 'here' })
  t.match(await technician.page('/stock-takes/1/places?build=1&place=on+the+wall'), /seen in bin A-001, rack C, shelf 2/)
})

t.test('what cannot be read or chosen is told beside the field, and nothing is written', async (t) => {
  const count = await shop.database.reads.stockTakeSighting.count()
  const refused = async (form: Record<string, string>, says: RegExp, status = 422): Promise<void> => {
    const answer = await sees(form)
    t.equal(answer.statusCode, status)
    t.match(answer.body, says)
  }
  await refused({ ...at.a }, /Nothing was chosen/)
  await refused({ ...at.a, also: 'the lamp' }, /Write the number on its label, as F-053.*value="the lamp"|value="the lamp".*Write the number on its label/s)
  await refused({ ...at.a, also: 'F-099' }, /B-0001 has no F-099/)
  await refused({ ...at.a, also: 'B-0044 F-011' }, /B-0044 has no F-011/)
  await refused({ bin: randomUUID(), p13: 'here' }, /There is no such bin/, 404)
  t.equal((await technician.api.post('/api/stock-takes/1/sightings', { build: 1, bin: 9, seen: [{ part: 13, isHere: true }] })).statusCode, 422)
  t.equal((await technician.api.post('/api/stock-takes/1/sightings', { build: 1, seen: [] })).statusCode, 422)
  t.equal((await technician.get('/stock-takes/7')).statusCode, 404)
  t.equal(await shop.database.reads.stockTakeSighting.count(), count)
})

t.test('two phones at once lose no sighting, whichever is first, and what one has seen the other’s “not here” does not undo', async (t) => {
  const before = await shop.database.reads.stockTakeSighting.count()
  const answers = await Promise.all([
    sees({ ...at.a, p14: 'not here', p15: 'here' }), sees({ ...at.d, also: 'F-014' }, delivery), sees({ ...at.a, p13: 'here' }, delivery), sees({ ...at.d, p16: 'here' }),
  ])
  t.same(answers.map(({ statusCode }) => statusCode), [303, 303, 303, 303])
  t.equal(await shop.database.reads.stockTakeSighting.count(), before + 5)
  t.match(await found(), { Grille: 'elsewhere', Tweeter: 'here' })
  await sees({ ...at.a, p14: 'not here' })
  t.match(await found(), { Grille: 'elsewhere' })
  const key = randomUUID()
  const twice = { ...at.a, p13: 'here', _key: key }
  await Promise.all([sees(twice), sees(twice)])
  t.equal(await shop.database.reads.stockTakeSighting.count(), before + 7, 'the same press twice counts once')
})

t.test('a wrong word is taken back at the same bin', async (t) => {
  await sees({ ...at.d, also: 'F-015' })
  t.match(await found(), { Tweeter: 'elsewhere' })
  await technician.api.post('/api/stock-takes/1/sightings', { build: 1, bin: 2, seen: [{ part: 15, isHere: false }] })
  t.match(await found(), { Tweeter: 'here' })
})

t.test('what lies elsewhere is recorded there by one press, what is not found is missing only when somebody says so', async (t) => {
  await sees({ ...at.d, p18: 'not here' })
  const page = await manager.page('/stock-takes/1/result')
  t.match(page, /Record 2 parts where they were seen/)
  t.match(page, /B-0001 Two-way front and a false floor F-018 Carpet is missing/)
  t.notMatch(await technician.page('/stock-takes/1/result'), /are missing/, 'a technician reads it only')
  t.same(await stateOf(carpet.id), ['out and stored', rack.id, ''], 'not seen is not yet missing')
  minutes += 1
  t.equal((await manager.post('/stock-takes/1/moves', { what: 'elsewhere' })).statusCode, 303)
  t.same(await stateOf(grille.id), ['out and stored', rack.id, ''])
  t.same(await stateOf(trim.id), ['out and stored', door.bin.id, ''])
  t.match((await manager.post('/stock-takes/1/moves', { what: 'missing' })).body, /Tick the parts that are missing/)
  t.equal((await manager.post('/stock-takes/1/moves', { what: 'missing', parts: [carpet.id, lamp.id] })).statusCode, 303)
  t.equal((await stateOf(carpet.id))[0], 'missing')
  t.equal((await stateOf(lamp.id))[0], 'out and stored', 'what was seen is not missing, whatever was ticked')
  const moves = (await technician.api.get(`/api/factory-parts/${carpet.id}/moves`)).json<{ items: Json[] }>().items
  t.match(moves[0], { kind: 'missing', stockTake: 1, from: 'bin A-002, rack D' })
  const before = await shop.database.reads.custodyMove.count()
  minutes += 1
  await manager.post('/stock-takes/1/moves', { what: 'elsewhere' })
  t.equal(await shop.database.reads.custodyMove.count(), before, 'pressed again, nothing moves twice')
})

t.test('closed, it keeps what was seen and what nobody looked at, whatever happens to the parts later', async (t) => {
  const belated = await lies('Belated bracket', { binId: rack.id })
  minutes += 1
  t.equal((await technician.post('/stock-takes/1/closings', {})).statusCode, 403)
  t.equal((await manager.post('/stock-takes/1/closings', {})).statusCode, 303)
  t.match((await manager.post('/stock-takes/1/closings', {})).body, /Stock-take 1 is closed/)
  t.match((await sees({ ...at.a, p13: 'not here' })).body, /Stock-take 1 is closed, and its history stays as it is/)
  const kept = await found()
  t.match(kept, { 'Door speaker': 'here', 'Grille': 'elsewhere', 'Carpet': 'not found', 'Belated bracket': 'not looked at' })
  await technician.post(`/builds/${door.build.id}/moves`, { kind: 'handed to the customer', parts: String(belated.number), signedName: 'Imre' })
  await lies('Newcomer', { binId: rack.id })
  t.same(await found(), kept)
  const list = await delivery.page('/stock-takes')
  t.match(list, /1 missing, 2 stored|2 stored, 1 missing/)
  t.match(list, /Spring/)
  t.equal((await manager.post('/stock-takes', {})).headers.location, '/stock-takes/2')
})

t.test('a part of another vehicle in the wrong bin is seen, and lies in words where no bin of its own is', async (t) => {
  const other = await aDoor(shop)
  await buildDoor(shop, other)
  const build = Number(other.build.number)
  minutes += 1
  t.equal((await technician.post('/stock-takes/2/sightings', { ...at.a, also: `B-${build} F-13` })).statusCode, 303)
  t.match(await technician.page(`/stock-takes/2/bins/${door.bin.id}`), new RegExp(`B-000${build} F-013`))
  minutes += 1
  await manager.post('/stock-takes/2/moves', { what: 'elsewhere' })
  t.same(await stateOf(other.speaker.id), ['out and stored', null, 'B-0001, A-001 rack C, shelf 2'])
})

t.test('the same by the API, from beginning to end', async (t) => {
  const { api } = manager
  minutes += 1
  t.equal((await api.post('/api/stock-takes/2/closings')).statusCode, 201)
  t.same((await api.post('/api/stock-takes', { note: 'Once more' })).json(), { number: 3 })
  t.same((await api.post('/api/stock-takes/3/sightings', { build: 1, bin: 2, seen: [{ part: 16, isHere: true }, { part: 15, isHere: true }] })).json(), { count: 2 })
  t.match(await found(3), { Lamp: 'here', Tweeter: 'elsewhere' })
  minutes += 1
  t.same((await api.post('/api/stock-takes/3/moves', { what: 'elsewhere' })).json(), { count: 1 })
  t.same(await stateOf(tweeter.id), ['out and stored', rack.id, ''])
  t.match((await api.post('/api/stock-takes/3/closings')).json(), { number: 3, closedOn: '2031-03-03' })
  t.equal((await api.get('/api/stock-takes')).json<{ items: Json[] }>().items.length, 3)
  t.equal((await technician.api.post('/api/stock-takes', {})).statusCode, 403)
})
