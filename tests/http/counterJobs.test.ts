import t from 'tap'
import { randomUUID } from 'node:crypto'
import { openShop, type Answer, type Form } from '../support/shop.ts'

const shop = await openShop(t, { clock: () => new Date('2031-03-03T09:00:00Z') })
const manager = shop.as('manager')
const { create } = manager.api
const { reads } = shop.database

const department = await create('/api/departments', { name: 'Fitting', costRate: '40.00', sellRate: '96.00' })
const skill = await create('/api/skills', { name: 'fitting', departmentId: department.id })
const other = await create('/api/departments', { name: 'Wiring', costRate: '45.00', sellRate: '112.00' })
const bay = await create('/api/bays', { name: 'Bay 2' })
const wire = await create('/api/materials', { name: 'Speaker wire', form: 'length', packName: 'reel', packSize: '50 m', packCost: '68.00', packPrice: '102.00' })
const kit = await create('/api/kits', { name: 'Speaker kit' })
await create('/api/kit-parts', { kitId: kit.id, materialId: wire.id, quantity: '1.5 m' })
const speaker = await create('/api/catalog', { kind: 'speaker', maker: 'Ostwen', model: 'Lode 165', cost: '61.00', price: '92.00' })
const camera = await create('/api/catalog', { kind: 'other', maker: 'Lissandre', model: 'Rear camera', cost: '82.00', price: '122.00' })
const inDoor = await create('/api/standard-fittings', {
  name: 'Speaker in a front door', place: 'front doors', departmentId: department.id, skillId: skill.id, setUp: '0.5 h', run: '45 min', itemId: speaker.id, kitId: kit.id, cautions: 'airbag',
})
const outside = await create('/api/standard-fittings', { name: 'Rear camera', place: 'outside', departmentId: other.id, setUp: '45 min', run: '1.5 h', itemId: camera.id })

const NEW: Form = { customerName: 'Tamsin Lowe', phone: '555-0190', make: 'Corvane', model: 'Tern', body: 'hatchback', energy: 'hybrid' }
const LINE: Form = { fittingId1: inDoor.id, quantity1: '2', suppliedBy1: 'shop' }
const enter = (form: Form): Promise<Answer> => manager.post('/counter-jobs', { isMeant: 'true', ...form })
const idIn = (answer: Answer): string => /\/builds\/([0-9a-f-]{36})/.exec(String(answer.headers.location))?.[1] ?? ''
const counts = async (): Promise<number[]> => Promise.all([reads.customer.count(), reads.vehicle.count(), reads.build.count(), reads.zone.count(), reads.equipmentLine.count(), reads.operation.count(), reads.materialNeed.count()])

t.test('one form enters customer, vehicle, build, zone, line, its kit and its hours', async (t) => {
  const before = await counts()
  const answer = await enter({ ...NEW, ...LINE, bayId: bay.id, promisedOn: '2031-03-04', note: 'Key is at the desk.' })
  t.equal(answer.statusCode, 303, answer.body)
  t.same((await counts()).map((count, index) => count - before[index]!), [1, 1, 1, 1, 1, 1, 1])
  const build = await reads.build.findUniqueOrThrow({
    where: { id: idIn(answer) }, include: { vehicle: { include: { customer: true } }, zones: true, lines: true, operations: true, needs: true },
  })
  t.match(build, { title: 'Speaker in a front door × 2', kind: 'counter job', stage: 'order', bayId: bay.id, promisedOn: '2031-03-04', note: 'Key is at the desk.' })
  t.match(build.vehicle, { make: 'Corvane', model: 'Tern', body: 'hatchback', energy: 'hybrid', customer: { name: 'Tamsin Lowe', phone: '555-0190' } })
  t.match(build.zones, [{ name: 'Front doors', place: 'front doors' }])
  t.match(build.lines, [{ name: 'Ostwen Lode 165', quantity: 2, cost: 6100, price: 9200, cautions: 'airbag', kitId: kit.id }])
  t.match(build.operations, [{ number: 10, kind: 'fit', work: 'Speaker in a front door', skillId: skill.id, setUp: 1800, run: 2700, lineId: build.lines[0]!.id }])
  t.match(build.needs, [{ quantity: 1_500_000, materialId: wire.id }])
  // By hand: 0.5 h + 2 × 0.75 h = 2 h; 2 × 1.5 m of wire.
  t.match((await manager.api.get(`/api/builds/${build.id}/estimate`)).body, /7200/)
  t.match((await manager.api.get(`/api/builds/${build.id}/bill-of-materials`)).json(), { materials: [{ gross: 3_000_000, from: [{ label: 'E-01 Ostwen Lode 165 by kit Speaker kit' }] }] })
})

t.test('its page leads to the timer, and there it can be started', async (t) => {
  const answer = await enter({ ...NEW, ...LINE })
  const page = await manager.page(String(answer.headers.location))
  const [, href] = /<a href="(\/now\?find=B-\d+)"[^>]*>Start the timer/.exec(page) ?? []
  t.ok(href, 'the way to the timer')
  t.match(await shop.as('technician').page(href!), /Speaker in a front door/)
})

t.test('the same form sent five times enters one job', async (t) => {
  const before = await counts()
  const form = { ...NEW, ...LINE, _key: randomUUID() }
  const answers = await Promise.all(Array.from({ length: 5 }, () => enter(form)))
  t.equal(new Set(answers.map(({ headers }) => headers.location)).size, 1)
  t.equal((await counts())[2]! - before[2]!, 1)
})

t.test('three lines in two places make two zones; what the customer brings costs nothing', async (t) => {
  const answer = await enter({
    ...NEW, fittingId1: inDoor.id, quantity1: '2', suppliedBy1: 'customer', equipment1: 'A pair out of the old car', fittingId2: outside.id, quantity2: '1', suppliedBy2: 'shop',
    fittingId3: outside.id, quantity3: '1', suppliedBy3: 'shop', equipment3: `K-001 anything`,
  })
  const build = await reads.build.findUniqueOrThrow({ where: { id: idIn(answer) }, include: { zones: true, lines: { orderBy: { number: 'asc' } } } })
  t.same(build.zones.map(({ place }) => place).sort(), ['front doors', 'outside'])
  t.match(build.lines.map(({ name, price, itemId }) => [name, price, itemId]), [
    ['A pair out of the old car', 0, null], ['Lissandre Rear camera', 12_200, camera.id], ['Ostwen Lode 165', 9_200, speaker.id],
  ])
})

t.test('what is in no catalog takes its price in the form; without one it is an open point for the manager until somebody sets price and cost', async (t) => {
  const known = await reads.vehicle.findFirstOrThrow({})
  const points = async (id: string, page = manager): Promise<string> => (await page.page(`/builds/${id}`)).replaceAll(/<\/?i>/g, '')
  const priced = await enter({ ...LINE, vehicleId: known.id, equipment1: 'Air horn, two trumpets', price1: '48.50' })
  t.match(await reads.equipmentLine.findFirstOrThrow({ where: { buildId: idIn(priced) } }), { name: 'Air horn, two trumpets', price: 4850, cost: 0, suppliedBy: 'shop' })
  t.match(await points(idIn(priced)), /E-01 Air horn, two trumpets has no cost yet, so it counts as nothing\./)
  const unpriced = await enter({ ...LINE, vehicleId: known.id, equipment1: 'Air horn, two trumpets' })
  t.match(await points(idIn(unpriced)), /E-01 Air horn, two trumpets has no price or cost yet/)
  t.notMatch(await points(idIn(unpriced), shop.as('technician')), /has no price/)
  const line = await reads.equipmentLine.findFirstOrThrow({ where: { buildId: idIn(unpriced) } })
  t.equal((await manager.api.patch(`/api/equipment-lines/${line.id}`, { cost: '31.00', price: '48.50' }, { 'if-match': '"1"' })).statusCode, 200)
  t.notMatch(await points(idIn(unpriced)), /has no (?:price|cost)/)
  const overridden = await enter({ ...LINE, vehicleId: known.id, equipment1: `K-001`, price1: '80' })
  t.match(await reads.equipmentLine.findFirstOrThrow({ where: { buildId: idIn(overridden) } }), { name: 'Ostwen Lode 165', price: 8000, cost: 6100 })
  const brought = await enter({ ...LINE, vehicleId: known.id, suppliedBy1: 'customer', equipment1: 'Their own horn', price1: '5' })
  t.match(brought.body, /What the customer brings has no price/)
  const theirs = await enter({ ...LINE, vehicleId: known.id, suppliedBy1: 'customer', equipment1: 'Their own horn' })
  t.notMatch(await points(idIn(theirs)), /has no price/)
})

t.test('what is needed is said before the first mistake', async (t) => {
  const page = await manager.page('/counter-jobs/new')
  for (const name of ['customerName', 'make', 'model', 'body']) t.match(page, new RegExp(`for="field-${name}"[^/]*</span><span class="need"> required if new<`), name)
  t.match(page, /for="field-fittingId1"[^/]*<\/span><span class="need"> required</)
})

t.test('a name that is on record, very many pieces and a day that is past are asked about once', async (t) => {
  const before = await counts()
  const odd: Form = { ...NEW, ...LINE, customerName: ' tamsin  LOWE', quantity1: '60', promisedOn: '2031-03-02', isMeant: '' }
  const asked = await enter(odd)
  t.equal(asked.statusCode, 422)
  t.match(asked.body, /On record already: C-001 Tamsin Lowe/)
  t.match(asked.body, /60 pieces in one counter job\?/)
  t.match(asked.body, /Sun 2 Mar 2031 is past/)
  t.match(asked.body, /name="isMeant" type="checkbox"/)
  t.same(await counts(), before)
  const json = { customerName: 'Tamsin Lowe', make: 'Corvane', model: 'Plover', body: 'van', lines: [{ fittingId: inDoor.id, quantity: 60 }] }
  const refused = await manager.api.post('/api/counter-jobs', json)
  t.match(refused.json(), { fields: [{ field: 'customerName' }, { field: 'lines.0.quantity' }] })
  t.equal((await manager.api.post('/api/counter-jobs', { ...json, isMeant: true })).statusCode, 201)
  t.equal((await enter({ ...odd, isMeant: 'true' })).statusCode, 303, 'meant so')
  t.notMatch(await manager.page('/counter-jobs/new'), /name="isMeant"/)
  const namesake = await reads.customer.findFirstOrThrow({ orderBy: { number: 'desc' } })
  t.match(await manager.page(`/customers/${namesake.id}`), /C-001, .*has the same name/)
})

t.test('a vehicle on record brings its owner, a customer on record gets a new vehicle', async (t) => {
  const known = await reads.vehicle.findFirstOrThrow({})
  const before = await counts()
  const byVehicle = await enter({ ...LINE, vehicleId: known.id })
  t.equal(byVehicle.statusCode, 303, byVehicle.body)
  const byCustomer = await enter({ ...LINE, customerId: known.customerId, make: 'Solvane', model: 'Tesk', body: 'sedan' })
  t.equal(byCustomer.statusCode, 303, byCustomer.body)
  const after = await counts()
  t.same([after[0]! - before[0]!, after[1]! - before[1]!, after[2]! - before[2]!], [0, 1, 2])
  t.match(await manager.page(`/customers/${known.customerId}`), `/counter-jobs/new?customer=${known.customerId}`)
  t.match(await manager.page(`/counter-jobs/new?vehicle=${known.id}`), new RegExp(`value="${known.id}" selected`))
})

t.test('what cannot be taken is named by field with a remedy, nothing typed is lost and nothing is written', async (t) => {
  const known = await reads.vehicle.findFirstOrThrow({})
  const stranger = await create('/api/customers', { name: 'Somebody else' })
  const cases: [Form, string, RegExp][] = [
    [LINE, 'customerName', /Name is needed.*choose a customer/],
    [{ ...LINE, ...NEW, make: '' }, 'make', /Make is needed/],
    [{ ...LINE, ...NEW, body: '' }, 'body', /Body is needed/],
    [{ ...LINE, ...NEW, body: 'boat' }, 'body', /Body is one of/],
    [NEW, 'fittingId1', /Choose at least one fitting/],
    [{ ...NEW, fittingId1: 'speaker' }, 'fittingId1', /chosen from the list/],
    [{ ...NEW, fittingId1: randomUUID() }, 'fittingId1', /no such fitting/],
    [{ ...NEW, ...LINE, equipment2: 'Dash camera' }, 'fittingId2', /Line 2 says what is fitted/],
    [{ ...NEW, ...LINE, quantity1: '0' }, 'quantity1', /from 1 to 100/],
    [{ ...NEW, ...LINE, quantity1: '-2' }, 'quantity1', /from 1 to 100/],
    [{ ...NEW, ...LINE, quantity1: 'two' }, 'quantity1', /from 1 to 100/],
    [{ ...NEW, ...LINE, equipment1: 'K-999' }, 'equipment1', /catalog has no K-999/],
    [{ ...NEW, ...LINE, equipment1: 'x'.repeat(201) }, 'equipment1', /200 characters at most/],
    [{ ...NEW, ...LINE, suppliedBy1: 'nobody' }, 'suppliedBy1', /one of: shop, customer/],
    [{ ...NEW, ...LINE, promisedOn: '2031-02-30' }, 'promisedOn', /calendar date/],
    [{ ...NEW, ...LINE, bayId: randomUUID() }, 'bayId', /no such bay/],
    [{ ...NEW, ...LINE, vehicleId: known.id }, 'vehicleId', /chosen and another one typed/],
    [{ ...LINE, vehicleId: randomUUID() }, 'vehicleId', /no such vehicle/],
    [{ ...LINE, vehicleId: known.id, customerId: stranger.id }, 'customerId', /another customer/],
    [{ ...LINE, customerId: stranger.id, make: 'Corvane', model: 'Tern', body: 'van', phone: '555' }, 'customerName', /another one typed/],
  ]
  const before = await counts()
  for (const [form, field, says] of cases) {
    const answer = await enter({ ...form, note: 'Mind the <b>dog</b>' })
    t.equal(answer.statusCode, 422, `${field}: ${String(says)}`)
    t.match(answer.body, `href="#field-${field}"`, field)
    t.match(answer.body, says)
    t.match(answer.body, 'Mind the &lt;b>dog', 'what was typed stands in the form')
  }
  t.same(await counts(), before)
})

t.test('a job that has grown says so, and goes on as a build with all that is in it', async (t) => {
  const answer = await enter({ ...NEW, ...LINE })
  const id = idIn(answer)
  const zone = await reads.zone.findFirstOrThrow({ where: { buildId: id } })
  t.notMatch(await manager.page(`/builds/${id}`), /this is a build/)
  await create('/api/parts', { buildId: id, zoneId: zone.id, name: 'Speaker ring', quantity: 2 })
  t.match(await manager.page(`/builds/${id}`), /this is a build.*Change its kind/s)
  t.equal((await manager.api.patch(`/api/builds/${id}`, { kind: 'everyday build' }, { 'if-match': '"1"' })).statusCode, 200)
  const page = await manager.page(`/builds/${id}`)
  t.notMatch(page, /this is a build/)
  t.match(page, /Ostwen Lode 165/)
  t.match(page, /Uses in assemblies/)
})

t.test('over the API: lines in a list, the same refusals, and never more than three', async (t) => {
  const person = { customerName: 'Osric Vane', make: 'Corvane', model: 'Plover', body: 'van' }
  const line = { fittingId: inDoor.id, quantity: 2 }
  const send = (json: unknown): Promise<Answer> => manager.api.post('/api/counter-jobs', json)
  const made = await send({ ...person, lines: [line] })
  t.equal(made.statusCode, 201, made.body)
  t.match((await manager.api.get(String(made.headers.location))).json(), { kind: 'counter job', title: 'Speaker in a front door × 2' })
  for (const [json, field, says] of [
    [{ ...person }, 'lines', /list of one to three/], [{ ...person, lines: [] }, 'lines', /at least one/],
    [{ ...person, lines: [line, line, line, line] }, 'lines', /at most 3 lines.*larger is a build/],
    [{ ...person, lines: [line, { fittingId: inDoor.id, quantity: 0 }] }, 'lines.1.quantity', /from 1 to 100/],
    [{ ...person, lines: [{ quantity: 1, equipment: 'a horn' }] }, 'lines.0.fittingId', /choose the fitting/],
    [{ ...person, make: 7, lines: [line] }, 'make', /is a text/], [{ ...person, lines: 'two speakers' }, 'lines', /list/],
  ] as const) {
    const answer = await send(json)
    t.equal(answer.statusCode, 422, `${field}: ${answer.body}`)
    t.match(answer.json<{ fields: { field: string; message: string }[] }>().fields[0], { field, message: says })
  }
  t.equal((await shop.as('technician').api.post('/api/counter-jobs', { ...person, lines: [line] })).statusCode, 403)
})

t.test('a standard fitting without time, or with a skill of another department, is refused', async (t) => {
  const fitting = { name: 'Nothing', place: 'dash', departmentId: other.id }
  const says = async (json: object): Promise<string> => (await manager.api.post('/api/standard-fittings', { ...fitting, ...json })).body
  t.match(await says({}), /takes time/)
  t.match(await says({ run: '1 h', skillId: skill.id }), /belongs to another department/)
})
