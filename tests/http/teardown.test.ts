import t from 'tap'
import { randomUUID } from 'node:crypto'
import { aBuild } from '../support/aBuild.ts'
import { phonePicture, postForm } from '../support/pictures.ts'
import { openShop, type Answer, type Json } from '../support/shop.ts'

let minutes = 0
const shop = await openShop(t, { clock: () => new Date(Date.UTC(2031, 2, 3, 9, minutes)) })
const { build, zone } = await aBuild(shop)
const technician = shop.as('technician')
const { api } = technician
const page = `/builds/${build.id}/teardown`
const add = (name: string, more: Json = {}) => api.create('/api/factory-parts', { buildId: build.id, zoneId: zone.id, name, takeOut: '5 min', ...more })
const stand = async () => (await api.get(`/api${page}`)).json<{ nextIds: string[]; settled: number; total: number; missing: { name: string; missing: string }[] }>()
const partOf = async (id: string): Promise<Json> => (await api.get(`/api/factory-parts/${id}`)).json<Json>()
const say = (form: Record<string, string>, files: { name: string; data: Buffer }[] = []): Promise<Answer> => {
  minutes += 1
  return postForm(shop, technician, page, form, files)
}
const headOf = (html: string): string => /<h1>(.*?)<\/h1>/s.exec(html)![1]!.replaceAll(/<[^>]+>/g, '')

const empty = await technician.page(page)
const sill = await add('Sill trim, left')
const pillar = await add('Pillar trim, left', { cautions: 'airbag', connectors: 'tweeter plug' })
const wall = await add('Upper wall trim')
for (const [before, after] of [[sill, pillar], [pillar, wall]] as const) await api.create('/api/order-edges', { buildId: build.id, graph: 'as found', beforeId: before.id, afterId: after.id })

t.test('the page shows the next part in the order, what is in front of what, and every caution before the first touch', async (t) => {
  t.match(empty, /No factory parts are listed yet/)
  const html = await technician.page(page)
  t.equal(headOf(html), 'F-011 Sill trim, left')
  t.match(html, /Next to come out, 0 of 3 done/)
  t.match(html, /F-012.*then free/s)
  t.match(html, /<div data-trigger="airbag">/, 'the airbag of a part that comes later is shown before anything is touched')
  t.match(html, /behind F-011/)
  t.match(html, /capture="environment"/)
  t.equal(headOf(await technician.page(`${page}?part=${pillar.id}`)), 'F-012 Pillar trim, left', 'any other part can be chosen')
  t.equal((await technician.get(`${page}?part=${randomUUID()}`)).statusCode, 404)
})

t.test('a photo and a new bin number, in one sending without a script, are a complete record; the bin is there for the next', async (t) => {
  const answer = await say({ factoryPartId: sill.id, into: 'new', newBin: '7', newPlace: '' }, [{ name: 'sill.jpg', data: await phonePicture(40) }])
  t.equal(answer.headers.location, `${page}?said=recorded`)
  t.match(await partOf(sill.id), { state: 'out and stored' })
  t.match(await shop.database.reads.bin.findFirstOrThrow(), { number: 7, place: 'place not noted' })
  t.match(await shop.database.reads.photo.findFirstOrThrow(), { subjectId: sill.id, moment: 'during' })
  const html = await technician.page(page)
  t.equal(headOf(html), 'F-012 Pillar trim, left')
  t.match(html, /value="7"><span>Into A-007<\/span><small>last used, with F-011/)
  t.match(html, /F-011 Sill trim, left came out, into A-007/)
  t.match((await stand()).missing, [{ name: 'F-011 Sill trim, left', missing: 'fasteners' }, { name: 'Bin A-007', missing: 'where it stands' }])
})

t.test('the same press sent twice is one record, and a part that is out is not taken out again', async (t) => {
  const key = randomUUID()
  const json = { factoryPartId: pillar.id, kind: 'came out', bin: 7 }
  minutes += 1
  const first = await api.post(`/api${page}`, json, { 'idempotency-key': key })
  t.equal(first.statusCode, 201)
  t.equal((await api.post(`/api${page}`, json, { 'idempotency-key': key })).body, first.body)
  t.equal(await shop.database.reads.removal.count({ where: { factoryPartId: pillar.id } }), 1)
  const again = await api.post(`/api${page}`, json, { 'idempotency-key': randomUUID() })
  t.match(again.json(), { status: 422, detail: /out and stored already/ })
  const pressed = await say({ factoryPartId: pillar.id, into: '7' })
  t.equal(pressed.statusCode, 409)
  t.match(pressed.body, /out and stored already.*Back to the teardown/s)
  t.match((await stand()).missing[1], { name: 'F-012 Pillar trim, left', missing: 'photo, fasteners' })
})

t.test('the last record is undone and the part is next again', async (t) => {
  const html = await technician.page(page)
  const id = /name="removalId" value="([^"]+)"/.exec(html)![1]!
  minutes += 1
  const undone = await technician.post(`${page}/withdrawals`, { removalId: id })
  t.equal(undone.headers.location, `${page}?part=${pillar.id}&said=undone`)
  t.match(await partOf(pillar.id), { state: 'fitted', binId: null })
  t.equal(headOf(await technician.page(page)), 'F-012 Pillar trim, left')
  const other = await aBuild(shop, 'Another')
  t.equal((await technician.post(`/builds/${other.build.id}/teardown/withdrawals`, { removalId: id })).statusCode, 404, 'not through another build')
})

t.test('a refused picture does not cost the record, and says so; a missing bin is asked for', async (t) => {
  const none = await say({ factoryPartId: pillar.id })
  t.equal(none.statusCode, 409)
  t.match(none.body, /Choose the bin it goes into/)
  const wrong = await say({ factoryPartId: pillar.id, into: 'new', newBin: 'seven' })
  t.match(wrong.body, /A bin has a number/)
  const broken = await say({ factoryPartId: pillar.id, into: '7' }, [{ name: 'half.jpg', data: (await phonePicture(90)).subarray(0, 300) }])
  t.equal(broken.statusCode, 422)
  t.match(broken.body, /Recorded, but not every picture was kept.*half\.jpg is damaged.*Go on with the teardown/s)
  t.match(await partOf(pillar.id), { state: 'out and stored' })
})

t.test('entries that come after the pictures are read; without the guard of the form nothing is', async (t) => {
  const grille = await add('Grille')
  const before = await shop.database.reads.removal.count()
  t.equal((await say({ _csrf: 'made up', factoryPartId: grille.id, into: '7' }, [{ name: 'a.jpg', data: await phonePicture(10) }])).statusCode, 403)
  t.equal(await shop.database.reads.removal.count(), before)
  const boundary = 'xx'
  const guard = /name="_csrf" value="([^"]+)"/.exec(await technician.page(page))![1]!
  const field = (name: string, value: string): string => `--${boundary}\r\nContent-Disposition: form-data; name="${name}"\r\n\r\n${value}\r\n`
  const payload = Buffer.concat([
    Buffer.from(field('_csrf', guard) + field('factoryPartId', grille.id)),
    Buffer.from(`--${boundary}\r\nContent-Disposition: form-data; name="files"; filename="a.jpg"\r\nContent-Type: image/jpeg\r\n\r\n`), await phonePicture(11),
    Buffer.from(`\r\n${field('newBin', '9')}${field('into', 'new')}--${boundary}--\r\n`),
  ])
  minutes += 1
  const answer = await shop.app.inject({ method: 'POST', url: page, payload, headers: { 'content-type': `multipart/form-data; boundary=${boundary}`, cookie: technician.cookie } })
  t.equal(answer.statusCode, 303, answer.body)
  t.equal((await shop.database.reads.bin.findFirstOrThrow({ where: { number: 9 } })).place, 'place not noted')
})

t.test('loosened and stays settle a part, broken says how, altered leads to its alteration', async (t) => {
  const [clip, cover, carrier] = [await add('Clip strip'), await add('Cover'), await add('Carrier')]
  t.equal((await say({ factoryPartId: clip.id, kind: 'loosened' })).statusCode, 303)
  t.equal((await say({ factoryPartId: cover.id, kind: 'stays' })).statusCode, 303)
  t.match(await partOf(cover.id), { state: 'fitted', stays: true })
  t.same((await stand()).nextIds, [wall.id, carrier.id])
  t.equal((await say({ factoryPartId: carrier.id, kind: 'broke', marredHow: 'two tabs torn off', marredBin: '9' })).statusCode, 303)
  t.match(await partOf(carrier.id), { state: 'damaged', condition: 'two tabs torn off' })
  const altered = await say({ factoryPartId: wall.id, kind: 'altered', marredHow: '', marredBin: '' })
  t.match(altered.headers.location, new RegExp(`^/alterations/new\\?build=${build.id}&factoryPartId=${wall.id}`))
  t.match((await stand()).missing[0], { name: 'F-013 Upper wall trim', missing: 'how it was altered' })
  t.same((await stand()).nextIds, [wall.id], 'what is altered in the vehicle comes out or stays: that is asked still')
  t.match(await technician.page(page), /altered, free now/)
})

t.test('fasteners, connectors and notes follow from the same page; a torque without a source stays typed beside its refusal', async (t) => {
  const form = { factoryPartId: pillar.id, kind: 'bolt', count: '2', size: 'M6 × 20', drive: 'hex', torque: '9 N·m', torqueSource: '' }
  const refused = await technician.post(`${page}/fasteners`, form)
  t.equal(refused.statusCode, 422)
  t.match(refused.body, /<details class="folded" open id="fasteners">/)
  t.match(refused.body, /id="field-torqueSource-wrong".*A torque states where it stands/s)
  t.match(refused.body, /value="9 N·m"/)
  t.equal((await technician.post(`${page}/fasteners`, { ...form, torqueSource: 'manual, page 31' })).headers.location, `${page}?part=${pillar.id}&said=fastener#more`)
  await technician.post(`${page}/fasteners`, { factoryPartId: pillar.id, kind: 'screw', count: '3', isSafety: 'true' })
  await technician.post(`${page}/fasteners`, { factoryPartId: pillar.id, kind: 'clip', count: '5' })
  const html = await technician.page(`${page}?part=${pillar.id}`)
  // 9 N·m is 6.6 lbf·ft and 79.7 lbf·in: 9 / 1.3558 (NIST SP 811, table B.8).
  t.match(html, /2 × M6 × 20 bolt, hex<\/a> <span class="quiet">9 N·m, 6\.6 lbf·ft \(79\.7 lbf·in\), manual, page 31/)
  t.match(html, /3 × screw<\/a> <span class="quiet">torque: maker&#39;s manual|3 × screw<\/a> <span class="quiet">torque: maker's manual/)
  t.match(html, /5 × clip<\/a> <span class="quiet">no torque/)
  t.match(html, /name="isSafety"[^>]*checked|checked[^>]*name="isSafety"/, 'beside an airbag the tick is set until somebody takes it off')
  const version = /name="_version" value="(\d+)"/.exec(html)![1]!
  t.equal((await technician.post(`${page}/notes`, { factoryPartId: pillar.id, _version: version, connectors: 'tweeter, lamp', condition: 'as new', note: '' })).statusCode, 303)
  t.match(await partOf(pillar.id), { connectors: 'tweeter, lamp', condition: 'as new' })
  const stale = await technician.post(`${page}/notes`, { factoryPartId: pillar.id, _version: version, connectors: 'lamp only', condition: '', note: 'mine' })
  t.equal(stale.statusCode, 422)
  t.match(stale.body, /Somebody changed this part in the meantime.*tweeter, lamp/s)
  t.match(stale.body, /lamp only/)
  t.match(stale.body, />\nmine</)
})

t.test('a part nobody listed and an order nobody recorded are added on the spot; a ring is refused in words beside the field, nothing typed lost', async (t) => {
  const bad = await technician.post(`${page}/parts`, { name: 'Hidden bracket', zoneId: '', behind: '13' })
  t.equal(bad.statusCode, 422)
  t.match(bad.body, /id="field-zoneId-wrong"/)
  t.match(bad.body, /value="Hidden bracket"/)
  const added = await technician.post(`${page}/parts`, { name: 'Hidden bracket', zoneId: zone.id, behind: '13' })
  const bracketId = /part=([0-9a-f-]{36})/.exec(String(added.headers.location))![1]!
  t.same((await stand()).nextIds, [bracketId, wall.id], 'it comes out before what it stands in front of')
  const ring = await technician.post(`${page}/edges`, { factoryPartId: wall.id, before: '13', edgeKind: 'out', after: '18' })
  t.equal(ring.statusCode, 422)
  t.match(ring.body, /id="field-after-wrong".*Each would have to come out before the other: F-013 Upper wall trim → F-018 Hidden bracket → F-013 Upper wall trim/s)
  t.match(ring.body, /<option value="18" selected/, 'what was chosen stands there still')
  const lamp = await add('Lamp')
  const edge = await technician.post(`${page}/edges`, { factoryPartId: wall.id, before: String(lamp.number), edgeKind: 'loosened', after: '13' })
  t.equal(edge.headers.location, `${page}?part=${wall.id}&said=edge#more`)
  t.match(await shop.database.reads.orderEdge.findFirstOrThrow({ where: { beforeId: lamp.id } }), { kind: 'loosened', graph: 'as found', afterId: wall.id })
  t.equal((await technician.post(`${page}/parts`, { name: 'No way', zoneId: zone.id, behind: '999' })).statusCode, 422)
  t.equal(await shop.database.reads.factoryPart.count({ where: { name: 'No way' } }), 0, 'all of it or nothing')
})

t.test('the largest teardown of the shop stays under 100 kB and who delivers is not offered it', async (t) => {
  const big = await aBuild(shop, 'A large one')
  const parts: string[] = []
  for (let index = 0; index < 150; index += 1) parts.push((await api.create('/api/factory-parts', { buildId: big.build.id, zoneId: big.zone.id, name: `Trim number ${index}, rear left side`, cautions: 'airbag,seat or belt', connectors: 'plug behind it' })).id)
  const html = await technician.page(`/builds/${big.build.id}/teardown`)
  t.ok(Buffer.byteLength(html) <= 100_000, `${Buffer.byteLength(html)} bytes`)
  t.equal((await shop.as('delivery').get(page)).statusCode, 403)
  t.notMatch(await shop.as('delivery').page(`/builds/${build.id}`), /\/teardown/)
  t.match(await technician.page(`/builds/${build.id}/removal`), `${page}`)
})
