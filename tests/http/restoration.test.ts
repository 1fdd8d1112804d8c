import t from 'tap'
import { randomUUID } from 'node:crypto'
import { aDoor, buildDoor } from '../support/aDoor.ts'
import { openShop, type Json } from '../support/shop.ts'

interface Order { readonly steps: { id: string, number: string, waitsForIds: string[] }[], readonly takeOut: number, readonly refused: string | null }
interface OrderAnswer { readonly asFound: Order, readonly asBuilt: Order, readonly readyIds: string[], readonly differences: string[] }
interface RestorationAnswer {
  readonly basis: string, readonly verdict: string, readonly hours: Json, readonly cost: Json | null, readonly takeOut: { id: string }[]
  readonly putBack: { id: string, how: string }[], readonly staysOutIds: string[], readonly partsToBuy: Json[], readonly leadDays: number
  readonly steps: { text: string }[], readonly cautions: { title: string, text: string }[], readonly openPoints: string[], readonly refused: string | null
}

const ids = (things: readonly { id: string }[]) => things.map(({ id }) => id)

t.test('a technician takes a door apart: what is free, one press into a bin, what it frees', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  const technician = shop.as('technician')
  const removal = `/builds/${door.build.id}/removal`
  const fresh = await technician.page(removal)
  t.match(fresh, /Into bin A-001/)
  t.match(fresh, /behind <i>F-012<\/i>/, 'the speaker waits for the panel')
  t.match(fresh, /Airbags and belt pretensioners/, 'a front door brings its caution along')
  const order = async () => (await technician.api.get(`/api/builds/${door.build.id}/removal-order`)).json() as OrderAnswer
  t.same((await order()).readyIds, [door.switch.id])

  const key = randomUUID()
  const press = { factoryPartId: door.switch.id, binId: door.bin.id, _key: key }
  const answers = await Promise.all([technician.post(`/builds/${door.build.id}/removals`, press), technician.post(`/builds/${door.build.id}/removals`, press)])
  t.same(answers.map(({ statusCode }) => statusCode), [303, 303])
  t.equal((await shop.database.reads.removal.count()), 1, 'pressed twice, out once')
  t.match(await technician.page(answers[0]!.headers.location as string), /Saved: <strong>F-011 Window switch came out, bin A-001, rack C, shelf 2/)
  t.same((await order()).readyIds, [door.panel.id], 'the panel is free now')
  const again = await technician.post(`/builds/${door.build.id}/removals`, { ...press, _key: randomUUID() })
  t.equal(again.statusCode, 409)
  t.match(again.body, /out and stored already/)

  const one = (await technician.api.get(`/api/builds/${door.build.id}/removal-order?part=${door.speaker.id}`)).json() as OrderAnswer
  t.same(ids(one.asFound.steps), [door.switch.id, door.panel.id, door.speaker.id])
  t.equal(one.asFound.takeOut, (5 + 15 + 6) * 60)
  t.equal((await technician.get(`${removal}?part=${randomUUID()}`)).statusCode, 404)
  t.equal((await shop.as('delivery').post(`/builds/${door.build.id}/removals`, press)).statusCode, 403)
  t.notMatch(await shop.as('delivery').page(removal), /Into bin/, 'who may not record is offered nothing to press')
})

t.test('as built the order says what now stands in front, and what is lost or not consented to stands out', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  await buildDoor(shop, door)
  const manager = shop.as('manager')
  await manager.api.create('/api/alterations', { buildId: door.build.id, zoneId: door.zone.id, kind: 'drilled', what: 'four holes 6 mm', isReversible: true, reversal: 'plug and seal', reverse: '0.5 h' })
  const spare = await manager.api.create('/api/factory-parts', { buildId: door.build.id, zoneId: door.zone.id, name: 'Grille', state: 'out and stored' })
  t.ok(spare.id)
  const page = (await manager.page(`/builds/${door.build.id}/removal`)).replaceAll(/<[^>]+>/g, '')
  t.match(page, /E-01 Midbass 165 mm stands where F-013 Door speaker goes\./)
  t.match(page, /F-012 Door panel now stands in front of E-01 Midbass 165 mm\./)
  t.match(page, /X-001 four holes 6 mm, Front doors: nobody is recorded as having consented\./)
  t.match(page, /F-014 Grille is out, and no bin or place is recorded for it\./)
  const order = (await manager.api.get(`/api/builds/${door.build.id}/removal-order`)).json() as OrderAnswer
  t.same(ids(order.asBuilt.steps), [door.switch.id, door.panel.id, door.midbass.id, door.baffle.id])
})

t.test('the door goes back to stock: what comes out, what goes back, hours, parts and price by hand', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  await buildDoor(shop, door)
  const manager = shop.as('manager')
  await shop.database.write((write) => write.shop.update({ where: { id: 'shop' }, data: { restoreDepartmentId: door.department.id } }))
  const answer = (await manager.api.get(`/api/builds/${door.build.id}/restoration`)).json() as RestorationAnswer
  t.equal(answer.basis, 'recorded')
  t.equal(answer.verdict, 'restorable as is')
  t.same(ids(answer.takeOut), [door.switch.id, door.panel.id, door.midbass.id, door.baffle.id])
  t.same(ids(answer.putBack), [door.speaker.id, door.panel.id, door.switch.id])
  t.same(answer.staysOutIds, [door.midbass.id, door.baffle.id])
  // By hand: out 5 + 15 + 8 + 12 = 40 min, back 8 + 20 + 5 = 33 min; 73 min at 95.00 an hour = 115.583 → 115.58.
  t.same(answer.hours, { out: 2400, repair: 0, back: 1980, total: 4380 })
  // Nine clips, one in five breaks (common practice, no source): two at 1.20.
  t.same(answer.cost, { labor: 11_558, parts: 240, outside: 0, total: 11_798, unpricedCount: 0 })
  t.match(answer.partsToBuy, [{ name: 'clip', count: 2, reason: 'breaks', forNumbers: ['F-012'], leadDays: 3 }])
  t.equal(answer.leadDays, 3)

  const part = (await manager.api.get(`/api/builds/${door.build.id}/restoration?parts=${door.panel.id}`)).json() as RestorationAnswer
  t.same(part.takeOut, [], 'a panel that is on already needs nothing')
  t.match(part.openPoints, ['F-012 Door panel is in the vehicle and unaltered: it needs nothing.'], 'and the answer says so')
  t.equal((await manager.api.get(`/api/builds/${door.build.id}/restoration?parts=${randomUUID()}`)).statusCode, 404)
})

t.test('money is for managers: others see hours and parts, and the data holds no price at all', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  await buildDoor(shop, door)
  const pages = (role: 'manager' | 'technician' | 'delivery') => Promise.all([
    shop.as(role).page(`/builds/${door.build.id}/restoration?scope=all`), shop.as(role).page(`/builds/${door.build.id}/return-to-stock`),
  ])
  const [unpriced] = await pages('manager')
  t.match(unpriced, /choose the department that returns to stock/, 'without a rate there is no price, and it says where to set one')
  t.notMatch(unpriced, /[\s>&;]USD/)
  await shop.database.write((write) => write.shop.update({ where: { id: 'shop' }, data: { restoreDepartmentId: door.department.id } }))
  for (const html of await pages('manager')) t.match(html, /117\.98 USD/)
  for (const role of ['technician', 'delivery'] as const) {
    for (const html of await pages(role)) {
      t.match(html, /1\.2 h/, `${role} sees the hours`)
      t.notMatch(html, /[\s>&;]USD|117\.98|115\.58|95\.00/, `${role} sees no money`)
    }
    const json = (await shop.as(role).api.get(`/api/builds/${door.build.id}/restoration`)).json() as RestorationAnswer
    t.equal(json.cost, null)
    t.ok(json.partsToBuy.every(({ price }) => price === null))
  }
})

t.test('the sheet leads a stranger through it: cautions first, bins, fasteners, torque both ways, tests, signatures', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  await buildDoor(shop, door)
  const manager = shop.as('manager')
  const { id, version } = door.vehicle
  const wait = await manager.api.patch(`/api/vehicles/${id}`, { energy: 'hybrid', airbagWait: '3 min', airbagWaitSource: 'maker’s manual, page 12' }, { 'if-match': String(version) })
  t.equal(wait.statusCode, 200, wait.body)
  const sheet = await shop.as('delivery').page(`/builds/${door.build.id}/return-to-stock`)
  for (const expected of [
    'R-0001-1', 'not frozen', 'Rivet Lane', 'Corvane Tern 2031', 'High voltage', '3 min (recorded for this vehicle)', 'bin A-001, rack C, shelf 2',
    '9 N·m, 6.6 lbf·ft (79.7 lbf·in)', 'maker’s manual, page 31', 'Connect: switch plug.', 'hexalobular for M5 × 20, M6 × 20', 'trim tool for clips', 'torque wrench, 9 N·m', 'Function tests', 'Received by the owner',
  ]) t.ok(sheet.includes(expected), expected)
  const steps = sheet.slice(sheet.indexOf('Steps, in this order'))
  const at = (text: string) => steps.indexOf(text)
  t.ok(sheet.indexOf('Cautions, before anything else') < sheet.indexOf('Steps, in this order'))
  t.ok(at('Door panel') > 0 && at('Take out') < at('Refit'), 'out before back')
  const screws = steps.slice(steps.lastIndexOf('hexalobular') - 60, steps.lastIndexOf('hexalobular') + 400)
  t.match(screws, /maker&#39;s manual|maker's manual/, 'a torque nobody noted is looked up, never guessed')
})

t.test('before the work begins the way back can be quoted as planned, and the page says so', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  const manager = shop.as('manager')
  const answer = (await manager.api.get(`/api/builds/${door.build.id}/restoration`)).json() as RestorationAnswer
  t.equal(answer.basis, 'planned')
  t.same(ids(answer.putBack), [door.speaker.id, door.panel.id, door.switch.id])
  const recorded = (await manager.api.get(`/api/builds/${door.build.id}/restoration?as=recorded`)).json() as RestorationAnswer
  t.same([recorded.takeOut, recorded.putBack], [[], []])
  t.match(await manager.page(`/builds/${door.build.id}/restoration?scope=all`), /As planned: everything entered counts as fitted/)
  t.match(await manager.page(`/builds/${door.build.id}/return-to-stock`), /Drawn up before the work/)
})

t.test('a rule that closes a ring over both graphs is refused and named; where one is recorded all the same, so is the sheet', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  await buildDoor(shop, door)
  const manager = shop.as('manager')
  const [grille, lamp] = await Promise.all(['Grille', 'Lamp'].map((name) => manager.api.create('/api/factory-parts', { buildId: door.build.id, zoneId: door.zone.id, name })))
  const edge = (graph: string, before: Json, after: Json) => manager.api.create('/api/order-edges', { buildId: door.build.id, graph, beforeId: before.id, afterId: after.id })
  await edge('as found', grille!, lamp!)
  await edge('as built', door.panel, grille!)
  const ring = { buildId: door.build.id, graph: 'as built', beforeId: lamp!.id, afterId: door.switch.id }
  const entered = await manager.api.post('/api/order-edges', ring)
  t.equal(entered.statusCode, 422)
  t.match(entered.json(), { fields: [{ field: 'afterId', message: /With the rules as found and as built together each would have to come out before the other: .*F-012 Door panel → F-014 Grille → F-015 Lamp → F-011 Window switch/ }] })
  t.equal((await manager.api.post('/api/order-edges', { ...ring, way: 'through the roof' })).statusCode, 201, 'a way that cannot be gone is passed over')
  // As a shop may have it from before.
  await shop.database.write((write) => write.orderEdge.create({ data: { kind: 'out', ...ring } as Parameters<typeof write.orderEdge.create>[0]['data'] }))
  const answer = (await manager.api.get(`/api/builds/${door.build.id}/restoration`)).json() as RestorationAnswer
  const refused = answer.refused ?? ''
  t.match(refused, /No order is possible: .*F-012 Door panel.* → /)
  const sheet = await manager.get(`/builds/${door.build.id}/return-to-stock`)
  t.equal(sheet.statusCode, 409)
  t.match(await manager.page(`/builds/${door.build.id}/restoration?scope=all`), /No order is possible/)
  t.match(await manager.page(`/builds/${door.build.id}/removal`), /no order possible/)
})
