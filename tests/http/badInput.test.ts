import t from 'tap'
import { randomUUID } from 'node:crypto'
import { walk } from '../support/links.ts'
import { listKinds, type RecordKind } from '../../server/shared/records/kind.ts'
import { aWorld, examplesIn } from '../support/recordExamples.ts'
import { openShop, type Answer, type Json } from '../support/shop.ts'

const shop = await openShop(t)
const world = await aWorld(shop)
const examples = examplesIn(world)
const owner = shop.as('owner')
const ofBuild = { buildId: world.build }
const inZone = { ...ofBuild, zoneId: world.zone }

interface Refusal { fields: { field: string; message: string }[] }
const refusal = (answer: Answer): Refusal['fields'][number] => answer.json<Refusal>().fields[0]!

t.test('a wrong VIN is refused with what is wrong, and a right one is taken', async (t) => {
  const vehicle = examples.vehicle!.json
  const post = (vin: string): Promise<Answer> => owner.api.post('/api/vehicles', { ...vehicle, vin })
  // 49 CFR 565.15: the check digit of 1M8GDM9A_KP042788 is X, published as an example of the calculation.
  t.equal((await post('1M8GDM9AXKP042788')).statusCode, 201)
  for (const vin of ['1M8GDM9A1KP042788', '1M8GDM9AXKP04278', '1M8GDM9AXKPO42788', '1M8GDM9AXKP0427889', '<script>']) {
    const answer = await post(vin)
    t.equal(answer.statusCode, 422, vin)
    t.equal(refusal(answer).field, 'vin')
  }
})

t.test('a ring of parts, of operations or of the order of removal is refused, and named', async (t) => {
  const { api } = owner
  await api.create('/api/part-uses', { ...ofBuild, parentId: world.part, partId: world.piece, quantity: 1 })
  await api.create('/api/part-uses', { ...ofBuild, parentId: world.piece, partId: world.trim, quantity: 1 })
  const parts = await api.post('/api/part-uses', { ...ofBuild, parentId: world.trim, partId: world.part, quantity: 1 })
  t.equal(parts.statusCode, 422)
  t.match(refusal(parts).message, /A part cannot go into itself: P-10[123]( → P-10[123]){3}/)
  t.equal((await api.post('/api/part-uses', { ...ofBuild, parentId: world.part, partId: world.part, quantity: 1 })).statusCode, 422)

  await api.create('/api/predecessors', { ...ofBuild, earlierId: world.operation, laterId: world.later })
  const operations = await api.post('/api/predecessors', { ...ofBuild, earlierId: world.later, laterId: world.operation })
  t.equal(operations.statusCode, 422)
  t.match(refusal(operations).message, /wait for the other.*pattern.*laminate|wait for the other.*laminate.*pattern/)

  for (const graph of ['as found', 'as built', 'going back']) {
    // What came out first goes back last.
    const [beforeId, afterId] = graph === 'going back' ? [world.panel, world.grille] : [world.grille, world.panel]
    await api.create('/api/order-edges', { ...ofBuild, graph, beforeId, afterId })
    const order = await api.post('/api/order-edges', { ...ofBuild, graph, beforeId: afterId, afterId: beforeId })
    t.equal(order.statusCode, 422, graph)
    t.match(refusal(order).message, /Door panel left/)
    t.match(refusal(order).message, /Speaker grille left/)
    t.equal((await api.post('/api/order-edges', { ...ofBuild, graph, beforeId: world.panel, afterId: world.panel })).statusCode, 422)
  }
})

t.test('zero, negative, absurd and wrongly measured entries are refused by field, with the reason and a remedy', async (t) => {
  const cases: [string, Json, string, RegExp][] = [
    ['equipment-lines', { ...inZone, name: 'Amplifier', quantity: '0' }, 'quantity', /from 1 to 1,000/],
    ['equipment-lines', { ...inZone, name: 'Amplifier', quantity: '1.5' }, 'quantity', /whole number/],
    ['equipment-lines', { ...inZone, name: 'Amplifier', quantity: '99999999999999' }, 'quantity', /whole number/],
    ['part-uses', { ...ofBuild, parentId: world.bin, partId: world.piece, quantity: 1 }, 'parentId', /there is no such made part/],
    ['operations', { ...examples.operation!.json, run: '-2 h' }, 'run', /Run/],
    ['operations', { ...examples.operation!.json, run: '99999 h' }, 'run', /at most 2,?000/],
    ['operations', { ...examples.operation!.json, run: '2 kg' }, 'run', /Run/],
    ['operations', { ...examples.operation!.json, crew: '0' }, 'crew', /from 1 to 8/],
    ['operations', { ...examples.operation!.json, run: '2 h', runBest: '1 h', runWorst: '' }, 'runWorst', /at worst is needed/],
    ['operations', { ...examples.operation!.json, run: '2 h', runBest: '', runWorst: '4 h' }, 'runBest', /at best is needed/],
    ['operations', { ...examples.operation!.json, run: '2 h', runBest: '2.5 h', runWorst: '4 h' }, 'runBest', /no longer than Run/],
    ['operations', { ...examples.operation!.json, run: '2 h', runBest: '1 h', runWorst: '1.5 h' }, 'runWorst', /no shorter than Run/],
    ['operations', { ...examples.operation!.json, learningModel: 'unit', learningRate: '' }, 'learningRate', /as 85 %/],
    ['operations', { ...examples.operation!.json, learningModel: '', learningRate: '85 %' }, 'learningModel', /unit or cumulative average/],
    ['operations', { ...examples.operation!.json, learningModel: 'unit', learningRate: '50 %' }, 'learningRate', /at least 51 %/],
    ['operations', { ...examples.operation!.json, learningModel: 'unit', learningRate: '101 %' }, 'learningRate', /at most 100 %/],
    ['operations', { ...examples.operation!.json, learningModel: 'both', learningRate: '85 %' }, 'learningModel', /is one of/],
    ['operations', { ...examples.operation!.json, reworkAllowance: '-5 %' }, 'reworkAllowance', /Allowance for rework/],
    ['departments', { name: 'Paint', costRate: '1', sellRate: '2', reworkAllowance: '120 %' }, 'reworkAllowance', /at most 100 %/],
    ['operations', { ...examples.operation!.json, lineId: world.line }, 'partId', /Choose one/],
    ['fasteners', { ...examples.fastener!.json, torque: '9 mm' }, 'torque', /N·m/],
    ['fasteners', { ...examples.fastener!.json, torqueSource: '' }, 'torqueSource', /Without a source leave the torque empty/],
    ['fasteners', { ...examples.fastener!.json, torque: '9000 N·m' }, 'torque', /at most/],
    ['material-needs', { ...examples['material need']!.json, quantity: '0 m²' }, 'quantity', /more than nothing/],
    ['material-needs', { ...examples['material need']!.json, quantity: '3' }, 'quantity', /needs its unit/],
    ['departments', { name: 'Paint', costRate: '1e9', sellRate: '2' }, 'costRate', /Cost of an hour/],
    ['departments', { name: 'Paint', costRate: -1, sellRate: 2 }, 'costRate', /from 0 to/],
    ['departments', { name: 'Paint', costRate: 1.5, sellRate: 2 }, 'costRate', /whole number/],
    ['builds', { title: 'x', kind: 'show build', vehicleId: randomUUID() }, 'vehicleId', /Choose one from the list/],
    ['builds', { title: 'x', kind: 'rocket', vehicleId: world.vehicle }, 'kind', /one of: counter job/],
    ['zones', { name: 'Roof', place: 'headliner' }, 'buildId', /Which build/],
    ['zones', { buildId: randomUUID(), name: 'Roof', place: 'headliner' }, 'buildId', /build/],
  ]
  for (const [path, json, field, says] of cases) {
    const answer = await owner.api.post(`/api/${path}`, json)
    t.equal(answer.statusCode, 422, `${path}: ${field} ${String(json[field])}: ${answer.statusCode}`)
    if (answer.statusCode !== 422) continue
    t.equal(refusal(answer).field, field)
    t.match(refusal(answer).message, says)
  }
})

t.test('ten thousand characters are refused in words wherever a text can be typed', async (t) => {
  for (const kind of listKinds().filter((one) => !one.isSingle)) {
    const before = examples[kind.name]!.json
    for (const name of textFields(kind)) {
      const answer = await owner.api.post(`/api/${kind.path}`, { ...before, [name]: 'x'.repeat(10_000) })
      t.equal(answer.statusCode, 422, `${kind.name}: ${name}`)
      t.match(refusal(answer).message, /holds (200|4,000) characters at most; this has 10,000. Shorten it.|is too long/)
    }
    const typed = { ...Object.fromEntries(Object.entries(before).map(([name, value]) => [name, String(value)])) }
    const [first] = Object.keys(kind.fields)
    const page = await owner.post(`/${kind.path}`, { ...typed, [first!]: 'y'.repeat(10_000) })
    t.equal(page.statusCode, 422)
  }
})

t.test('a reference into another build is refused', async (t) => {
  const { api } = owner
  const other = await api.create('/api/builds', { title: 'Another', kind: 'counter job', vehicleId: world.vehicle })
  const answer = await api.post('/api/parts', { buildId: other.id, zoneId: world.zone, name: 'Pod', quantity: 1 })
  t.equal(answer.statusCode, 422)
  t.match(refusal(answer), { field: 'zoneId', message: /belongs to another build/ })
  t.equal((await api.post('/api/material-needs', { ...examples['material need']!.json, buildId: other.id })).statusCode, 422)
})

t.test('requests that are no requests get an answer below 500, without a trace of the inside', async (t) => {
  const json = { 'content-type': 'application/json', 'authorization': `Bearer ${owner.token}` }
  const deep = `${'['.repeat(40_000)}${']'.repeat(40_000)}`
  const bodies = ['', '{', 'null', '[]', '"text"', '12', '{"name":null}', '{"name":{"a":1}}', '{"name":["a","b"]}', '{"__proto__":{"name":"x"}}',
    '{"constructor":{"prototype":{"x":1}}}', '{"name":"\\u0000"}', '{"name":"a\\ud800b"}', '{"name":1e999}', `{"name":${deep}}`, `{"place":${deep}}`, `{"form":${deep}}`, deep, '{"name":true}', `{"name":"${'x'.repeat(300_000)}"}`]
  for (const kind of ['customers', 'materials', 'people', 'shop/shop', `zones/${world.zone}`, `zones/${world.zone}/removal`]) {
    for (const payload of bodies) {
      const method = /shop|zones\/[0-9a-f-]*$/.test(kind) ? 'PATCH' : 'POST'
      const answer = await shop.app.inject({ method, url: `/api/${kind}`, payload, headers: { ...json, 'if-match': '"1"', 'idempotency-key': randomUUID() } })
      t.ok(answer.statusCode < 500, `${method} ${kind} ${payload.slice(0, 40)}: ${answer.statusCode}`)
      t.notMatch(answer.body, /node_modules|\.ts:\d|prisma|sqlite/i)
    }
  }
  const urls = ['/api/customers?limit=0', '/api/customers?limit=1e9', '/api/customers?cursor=x', `/api/customers?cursor=${randomUUID()}`, '/api/customers?removed=perhaps', '/zones?build=x',
    '/zones/new?build=x', `/zones/new?build=${randomUUID()}`, '/parts/new?build[]=1', '/%00', '/%E0%A4%A', '/builds?find=%00', '/builds?before=-1', '/api/builds?build=1', '/customers/new?name=a&name=b',
    '/now?day=x', '/hours?day=2031-02-30', '/sign-in?to=//elsewhere', `/builds/${world.build}/restoration?part=x`, `/builds/${world.build}/return-to-stock?as=x`]
  for (const url of urls) {
    const answer = url.startsWith('/api') ? await owner.api.get(url) : await owner.get(url)
    t.ok(answer.statusCode < 500, `${url}: ${answer.statusCode}`)
  }
  for (const type of ['text/plain', 'application/xml', 'multipart/form-data; boundary=x', 'application/x-www-form-urlencoded']) {
    const answer = await shop.app.inject({ method: 'POST', url: '/customers', payload: 'name=x&_key=1&_key=2', headers: { cookie: owner.cookie, 'content-type': type } })
    t.ok(answer.statusCode >= 400 && answer.statusCode < 500, `${type}: ${answer.statusCode}`)
  }
  const twice = await owner.post('/customers', { name: ['a', 'b'], phone: ['1', '2'], _key: ['x', 'y'] })
  t.equal(twice.statusCode, 422, 'a field sent twice is no text')
})

// Last, for from here on every record holds markup.
t.test('markup in any text is shown as text on every page, and comes back as it was typed', async (t) => {
  const mark = '"><script>alert(1)</script></textarea><img src=x onerror=alert(2)>\'&amp;'
  const { api } = owner
  for (const kind of listKinds().filter((one) => !one.isSingle)) {
    const { items } = (await api.get(`/api/${kind.path}?limit=3`)).json<{ items: { id: string; version: number }[] }>()
    for (const { id, version } of items) {
      const texts = Object.fromEntries(textFields(kind).filter((name) => !kind.fields[name]!.isFixed).map((name) => [name, mark]))
      const answer = await api.patch(`/api/${kind.path}/${id}`, texts, { 'if-match': `"${version}"` })
      t.equal(answer.statusCode, 200, `${kind.name}: ${answer.body.slice(0, 200)}`)
      t.match(answer.json(), texts)
    }
  }
  const { version } = (await api.get('/api/shop/shop')).json<{ version: number }>()
  const shopPatch = await api.patch('/api/shop/shop', { name: mark, address: mark, phone: mark }, { 'if-match': `"${version}"` })
  t.equal(shopPatch.statusCode, 200)
  const starts = ['/', `/builds/${world.build}`, `/builds/${world.build}/return-to-stock`, ...listKinds().flatMap((kind) => [`/${kind.path}?build=${world.build}`, ...(kind.isSingle ? [] : [`/${kind.path}/new?build=${world.build}`])])]
  const pages = await walk(owner, starts.filter((url) => !url.startsWith('/shop')))
  t.ok(pages.length > 100, `${pages.length} pages were looked at`)
  let shown = 0
  for (const { url, status, body, type, from } of pages) {
    t.ok(status === 200 || status === 303, `${url} from ${from}: ${status} ${status > 399 ? /data-problem>(.*?)<\/section>/s.exec(body)?.[1] : ''}`)
    if (type.startsWith('text/html') && isLive(body)) t.fail(`${url} carries markup that was typed`)
    if (body.includes('&lt;script')) shown += 1
  }
  t.ok(shown > 60, `${shown} pages show it as text`)
  const reshown = await owner.post('/customers', { name: '', note: mark })
  t.equal(reshown.statusCode, 422)
  t.notOk(isLive(reshown.body))
  const stale = await owner.post(`/zones/${world.zone}`, { name: `${mark}2`, place: 'dash', note: mark, _version: '1' })
  t.equal(stale.statusCode, 412)
  t.notOk(isLive(stale.body))
})

// Inside the quotes of an attribute an angle bracket is a sign like any other; the quote is what must not get out.
const isLive = (html: string): boolean => /<script>alert|<img src=x/.test(html.replaceAll(/="[^"]*"/g, ''))

const CHECKED_TEXTS = ['signInName', 'vin', 'currency', 'timeZone']

function textFields(kind: RecordKind): string[] {
  return Object.entries(kind.fields).filter(([name, { entry, changedBy }]) => ['text', 'long'].includes(entry.as) && changedBy?.length !== 0 && !CHECKED_TEXTS.includes(name)).map(([name]) => name)
}
