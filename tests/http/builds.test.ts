import t from 'tap'
import { loadBuilds } from '../../server/builds/store.ts'
import { aBuild } from '../support/aBuild.ts'
import type { Json, TestShop } from '../support/shop.ts'
import { deliver } from '../support/aFinalCheck.ts'
import { openShop } from '../support/shop.ts'

const words = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')

const clock = () => new Date('2031-03-04T10:00:00Z')
const NO_BUILD = '019b0000-0000-7000-8000-000000000000'

// Numbers of things are kept from breaking over lines by elements of their own.
const withoutKeeping = (html: string): string => html.replace(/<i>([^<]*)<\/i>/g, '$1')

/** Two baffles and two speakers: 4.0 h estimated, 1.5 h logged on the cut that was estimated at 1.0 h. */
async function enterSmallBuild(shop: TestShop) {
  const world = await aBuild(shop)
  const { create, patch } = shop.as('manager').api
  const buildId = world.build.id
  const of = { buildId, zoneId: world.zone.id }
  const departmentId = world.department.id
  const baffle = await create('/api/parts', { ...of, name: 'Baffle', quantity: 2 })
  const speaker = await create('/api/equipment-lines', { ...of, name: 'Midrange 100', quantity: 2, cost: '120.00', price: '190.00' })
  const cut = await create('/api/operations', { buildId, partId: baffle.id, kind: 'cut', departmentId, setUp: '0.5 h', run: '15 min', state: 'running' })
  await create('/api/operations', { buildId, partId: baffle.id, kind: 'sand', departmentId, run: '1 h' })
  await create('/api/operations', { buildId, lineId: speaker.id, kind: 'fit', departmentId, run: '30 min' })
  const consented = await patch(`/api/builds/${buildId}`, { consent: '780.00', consentBy: 'Imre' }, { 'if-match': `"${world.build.version}"` })
  t.equal(consented.statusCode, 200)
  await shop.as('technician').api.create('/api/time-entries', { operationId: cut.id, date: '2031-03-03', kind: 'work', time: '1.5 h' })
  return { ...world, baffle, speaker, cut }
}

t.test('estimate and costing of a small build are those done by hand', async t => {
  const shop = await openShop(t, { clock })
  const { build } = await enterSmallBuild(shop)
  const figures = async (name: string, role: 'manager' | 'technician'): Promise<Json> => {
    const answer = await shop.as(role).api.get(`/api/builds/${build.id}/${name}`)
    t.equal(answer.statusCode, 200)
    return answer.json()
  }
  // Cut 0.5 + 2 × 0.25 = 1.0 h, sand 2 × 1 = 2.0 h, fit 2 × 0.5 = 1.0 h: 4.0 h at 38 and 95.
  t.match(await figures('estimate', 'manager'), {
    total: { labor: 14_400, cost: 15_200, price: 38_000 },
    parts: [{ label: 'P-101 Baffle', quantity: 2, own: { labor: 10_800 } }],
    zones: [{ label: 'Front doors', labor: 14_400 }], departments: [{ label: 'Wood room', labor: 14_400 }],
  })
  t.match(await figures('estimate', 'manager'), { total: { withoutRework: 14_400, rework: 0 }, giveOrTake: null, operations: [{ learningModel: null, range: 0 }] })
  // Logged 1.5 h of 1.0 h, nothing left of it; sand 2.0 h and fit 1.0 h to go: 4.5 h, 171.00 of cost, 427.50 to charge.
  t.match(await figures('costing', 'manager'), {
    labor: { estimated: 14_400, logged: 5_400, remaining: 10_800, forecast: 16_200, money: { forecastCost: 17_100, forecastPrice: 42_750 } },
    operations: [{ runningOver: 'over' }, { runningOver: null }, { runningOver: null }], earnedValue: { rule: 'nothing until done', atCompletion: null },
    build: { price: 38_000 + 38_000, cost: 17_100 + 24_000, margin: 34_900 },
    consent: { state: 'forecast over', left: 78_000 - 42_750 - 38_000 },
  })
  for (const name of ['estimate', 'costing']) {
    const answer = await figures(name, 'technician')
    t.notMatch(JSON.stringify(answer), /"(money|cost|price|build|margin|earned\w*|left)":/, `${name} holds no money for a technician`)
  }
  t.match(await figures('costing', 'technician'), { labor: { forecast: 16_200 }, consent: { state: 'forecast over' } })
})

t.test('the ledger shows hours, price and the alarm to a manager, and no money to a technician', async t => {
  const shop = await openShop(t, { clock })
  const { build, baffle, speaker } = await enterSmallBuild(shop)
  const page = await shop.as('manager').page(`/builds/${build.id}`)
  for (const figure of ['4.0 h', '1.5 h', '3.0 h', '4.5 h', '760.00 USD', '780.00 USD']) t.ok(page.includes(figure), figure)
  t.match(page, /forecast is over what the customer has agreed to/)
  t.match(page, new RegExp(`/parts/${baffle.id}"`))
  t.match(page, /2 × Baffle/)
  t.match(page, new RegExp(`/equipment-lines/${speaker.id}"`))
  t.match(withoutKeeping(page), /P-101 Baffle: 10 cut: over by 0\.5 h: comes to 1\.5 h, estimated 1\.0 h\./)
  t.match(page, /Imre, 555-0142/, 'whom to call')
  for (const path of ['equipment-lines', 'parts', 'factory-parts', 'alterations', 'open-points']) {
    t.match(page, new RegExp(`/${path}/new\\?zoneId=`), `adds to ${path}`)
  }
  for (const role of ['technician', 'delivery'] as const) {
    for (const address of ['', '/estimate', '/materials', '/record']) {
      const html = await shop.as(role).page(`/builds/${build.id}${address}`)
      t.notMatch(html, /[\s>&;]USD|[^\d](760|780|152|380|171|427|349|240)\.\d\d/, `${role} sees no money at ${address}`)
    }
  }
  t.notMatch(await shop.as('technician').page(`/builds/${build.id}`), /555-0142/, 'nor how to reach the customer')
  const estimate = await shop.as('manager').page(`/builds/${build.id}/estimate`)
  for (const figure of ['4.5 h', '171.00', '152.00', '349.00']) t.ok(estimate.includes(figure), figure)
})

t.test('what the records leave open stands in its zone, and a torque nobody knows does not', async t => {
  const shop = await openShop(t, { clock })
  const { build, zone } = await aBuild(shop)
  const { create } = shop.as('manager').api
  const of = { buildId: build.id, zoneId: zone.id, cost: '20', price: '40' }
  const cases = [
    ['/api/alterations', { buildId: build.id, zoneId: zone.id, kind: 'drilled', what: 'four holes', isReversible: false }, 'Alteration X-001, four holes: nobody’s consent is recorded.'],
    ['/api/factory-parts', { buildId: build.id, zoneId: zone.id, name: 'Panel', state: 'out and stored' }, 'F-011 Panel is out, and where it lies is not recorded.'],
    ['/api/equipment-lines', { ...of, name: 'Amplifier', receivedOn: '2031-03-01' }, 'E-01 Amplifier is received without a serial number.'],
    ['/api/equipment-lines', { ...of, name: 'Tweeter', expectedOn: '2031-03-03' }, 'E-02 Tweeter was expected Mon 3 Mar 2031 and is not here.'],
  ] as const
  for (const [path, record, sentence] of cases) {
    t.notOk((await shop.as('technician').page(`/builds/${build.id}`)).includes(sentence), `before: ${sentence}`)
    await create(path, record)
    const html = withoutKeeping(await shop.as('technician').page(`/builds/${build.id}`))
    t.ok(html.includes(sentence), sentence)
  }
  await create('/api/equipment-lines', { ...of, name: 'Grille', expectedOn: '2031-03-04' })
  await create('/api/open-points', { zoneId: zone.id, buildId: build.id, text: 'Far side not looked at', stopsWork: true })
  const panel = await create('/api/factory-parts', { buildId: build.id, zoneId: zone.id, name: 'Seat' })
  await create('/api/fasteners', { buildId: build.id, factoryPartId: panel.id, kind: 'bolt', size: 'M10', count: 4, isSafety: true })
  const html = await shop.as('manager').page(`/builds/${build.id}`)
  t.match(html, /6 open in 1 zone/, 'today is not late, and neither is an unknown torque')
  t.match(html, />1\.1<.*Far side not looked at.*stops work/s)
  t.match(html, />1\.d</)
  t.match(await shop.as('manager').page('/builds'), /6<\/span><span class="unseen"> open/, 'the list counts the same')
})

t.test('what goes back says how, what is to be undone, and the hours', async t => {
  const shop = await openShop(t, { clock })
  const { build, zone } = await aBuild(shop)
  const { create } = shop.as('manager').api
  const of = { buildId: build.id, zoneId: zone.id }
  await create('/api/factory-parts', { ...of, name: 'Panel', state: 'out and stored', place: 'rack C', takeOut: '20 min', putBack: '30 min' })
  await create('/api/factory-parts', { ...of, name: 'Handle', state: 'missing', putBack: '6 min', replaceCost: '18.50' })
  await create('/api/alterations', { ...of, kind: 'drilled', what: 'four holes', consentBy: 'Imre', reversal: 'plug and seal', reverse: '24 min' })
  const html = await shop.as('manager').page(`/builds/${build.id}`)
  t.match(html, /Panel as it is/)
  t.match(html, /Handle.*a new one has to be bought/s)
  t.match(html, /four holes.*consent of Imre; plug and seal/s)
  // 30 min and 6 min back, 24 min to undo: 1.0 h.
  t.match(html, />work<.*>1\.0 h</s)
  t.match(html, /Restorable with 2 repairs, 1 line to buy\./)
})

t.test('a shop with nothing in it is led from customer to vehicle to build to plan', async t => {
  const shop = await openShop(t, { clock })
  const steps = async (): Promise<string[]> => [...(await shop.as('manager').page('/builds')).replaceAll(/<li class="done">.*?<\/li>/gs, '').matchAll(/The first (\w+)(?: or counter job)?</g)].map(([, name]) => name!)
  t.strictSame(await steps(), ['customer', 'vehicle', 'build', 'plan'])
  const customer = await shop.as('manager').api.create('/api/customers', { name: 'Harrow Lane Bakery' })
  t.strictSame(await steps(), ['vehicle', 'build', 'plan'])
  await shop.as('manager').api.create('/api/vehicles', { customerId: customer.id, make: 'Corvane', model: 'Tern', body: 'wagon' })
  t.strictSame(await steps(), ['build', 'plan'])
  t.notMatch(await shop.as('technician').page('/builds'), /\/new"/, 'a technician is not sent to forms that are not theirs')
})

t.test('a build entered by forms alone reaches its ledger', async t => {
  const shop = await openShop(t, { clock })
  const manager = shop.as('manager')
  const post = async (url: string, form: Record<string, string>): Promise<string> => {
    const answer = await manager.post(url, form)
    t.equal(answer.statusCode, 303, `${url}: ${answer.statusCode === 303 ? '' : answer.body.slice(0, 400)}`)
    return /\/([0-9a-f-]{36})/.exec(String(answer.headers.location))?.[1] ?? ''
  }
  const customerId = await post('/customers', { name: 'Dessa <b>Varnholt</b>' })
  const vehicleId = await post('/vehicles', { customerId, make: 'Corvane', model: 'Pell', body: 'pickup', energy: 'electric' })
  const buildId = await post('/builds', { title: 'Field cab', kind: 'show build', stage: 'scope', holding: 'owned', priority: 'usual', vehicleId, deadline: '2031-05-01' })
  const zoneId = await post('/zones', { buildId, name: 'Rear wall', place: 'rear wall' })
  const wallId = await post('/parts', { buildId, zoneId, name: 'Rear wall frame', quantity: '1' })
  const departmentId = await post('/departments', { name: 'Wood room', costRate: '40', sellRate: '100' })
  await post('/operations', { buildId, partId: wallId, kind: 'weld', departmentId, crew: '2', setUp: '1 h', run: '2 h', state: 'not started' })
  const answer = await manager.get(`/builds/${buildId}?saved=created`)
  t.equal(answer.statusCode, 200)
  t.match(answer.body, /B-0001 Field cab, created/)
  t.match(answer.body, /zones\/new\?build=/)
  t.notMatch(answer.body, /<b>Varn/)
  t.match(answer.body, /Dessa &lt;b>Varnholt/, 'markup in a name stays text')
  t.match(answer.body, /High voltage/, 'the caution of an electric vehicle')
  // (1 + 2) × 2 people = 6.0 h, at 100: 600.00.
  t.match(answer.body, /6\.0 h/)
  t.match(answer.body, /600\.00 USD/)
})

t.test('builds are cut by kind and stage, and found by number, title, customer and vehicle', async t => {
  const shop = await openShop(t, { clock })
  const { vehicle } = await aBuild(shop, 'Quiet doors')
  const { create } = shop.as('manager').api
  await create('/api/builds', { title: 'Dash lamp', kind: 'counter job', vehicleId: vehicle.id, promisedOn: '2031-03-03' })
  await deliver(shop, (await create('/api/builds', { title: 'Old wall', kind: 'everyday build', vehicleId: vehicle.id, promisedOn: '2031-03-03' })).id)
  const titles = async (query: string): Promise<string[]> => {
    const html = await shop.as('delivery').page(`/builds${query}`)
    return ['Quiet doors', 'Dash lamp', 'Old wall'].filter((title) => html.includes(title))
  }
  t.strictSame(await titles(''), ['Quiet doors', 'Dash lamp'])
  t.strictSame(await titles('?show=counter'), ['Dash lamp'])
  t.strictSame(await titles('?show=builds'), ['Quiet doors'])
  t.strictSame(await titles('?show=delivered'), ['Old wall'])
  t.strictSame(await titles('?find=quiet'), ['Quiet doors'])
  t.strictSame(await titles('?find=B-0002'), ['Dash lamp'])
  t.strictSame(await titles('?find=Harrow'), ['Quiet doors', 'Dash lamp'])
  t.strictSame(await titles('?find=nobody'), [])
  t.match(await shop.as('manager').page('/builds'), /late/)
  t.notMatch(await shop.as('manager').page('/builds?show=delivered'), /> late/, 'what is delivered is not late any more')
})

t.test('a list of many builds asks the database as often as one build does', async t => {
  const shop = await openShop(t, { clock })
  const { vehicle } = await aBuild(shop)
  const ids: string[] = []
  for (const title of ['One', 'Two', 'Three']) ids.push((await shop.as('manager').api.create('/api/builds', { title, kind: 'everyday build', vehicleId: vehicle.id })).id)
  const questionsFor = async (wanted: readonly string[]): Promise<number> => {
    let questions = 0
    const counted = (model: object): object => new Proxy(model, { get: (target, method) => { questions += 1; return Reflect.get(target, method) } })
    const reads = new Proxy(shop.database.reads, { get: (target, name) => {
      const model: unknown = Reflect.get(target, name)
      return typeof model === 'object' && model !== null ? counted(model) : model
    } })
    t.equal((await loadBuilds(reads, wanted)).length, wanted.length)
    return questions
  }
  t.equal(await questionsFor(ids), await questionsFor(ids.slice(0, 1)))
})

t.test('a build that was taken away shows its record and can be taken back', async t => {
  const shop = await openShop(t, { clock })
  const { build } = await aBuild(shop)
  t.equal((await shop.as('manager').post(`/builds/${build.id}/removal`)).statusCode, 303)
  t.match(await shop.as('manager').page(`/builds/${build.id}`), /Take back/)
  t.equal((await shop.as('manager').post(`/builds/${build.id}/recovery`)).statusCode, 303)
  t.match(await shop.as('manager').page(`/builds/${build.id}`), /Zone ledger/)
})

t.test('a build that is not there answers 404 on every page and address of its figures', async t => {
  const shop = await openShop(t, { clock })
  for (const id of [NO_BUILD, 'nonsense']) {
    for (const address of ['', '/estimate', '/materials', '/record']) {
      t.equal((await shop.as('manager').get(`/builds/${id}${address}`)).statusCode, 404, `page ${address}`)
    }
    for (const address of ['estimate', 'costing', 'bill-of-materials']) {
      t.equal((await shop.as('manager').api.get(`/api/builds/${id}/${address}`)).statusCode, 404, address)
    }
  }
})

t.test('an assembly whose pieces are begun is begun in the ledger, and one that runs over by little shows the difference', async (t) => {
  const shop = await openShop(t)
  const { build, zone, department } = await aBuild(shop)
  const { api, page } = shop.as('manager')
  const [console_, shell] = [await api.create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Console', quantity: 1 }), await api.create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Shell', quantity: 0 })]
  await api.create('/api/part-uses', { buildId: build.id, parentId: console_.id, partId: shell.id, quantity: 1 })
  const plan = { buildId: build.id, departmentId: department.id, kind: 'cut', run: '1 h' }
  await api.create('/api/operations', { ...plan, partId: console_.id })
  await api.create('/api/operations', { ...plan, partId: shell.id, state: 'done' })
  t.match(words(await page(`/builds/${build.id}`)), /Console 1 of 2 operations done · 2\.0 h|Console\s+1 of 2 operations done/)
  const fill = await api.create('/api/operations', { ...plan, partId: shell.id, kind: 'fill', state: 'running' })
  await shop.as('technician').api.post('/api/time-entries', { operationId: fill.id, date: '2026-01-05', time: '1:02', kind: 'work' })
  t.match(words(await page(`/builds/${build.id}/estimate`)), /over by 0\.03 h: comes to 1\.03 h, estimated 1\.00 h/)
})
