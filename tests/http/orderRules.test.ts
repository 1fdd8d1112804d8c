import t from 'tap'
import { randomUUID } from 'node:crypto'
import { aDoor, buildDoor } from '../support/aDoor.ts'
import { openShop, type Answer, type Json, type Visitor } from '../support/shop.ts'

interface OrderAnswer {
  readonly asFound: { readonly steps: { id: string, depth: string, waitsForIds: string[] }[], readonly refused: string | null }
  readonly asBuilt: OrderAnswer['asFound']
}

const wordsOf = (html: string): string => html.replaceAll(/<[^>]+>/g, '').replaceAll(/\s+/g, ' ')
const orderOf = async (visitor: Visitor, buildId: string): Promise<OrderAnswer> => (await visitor.api.get(`/api/builds/${buildId}/removal-order`)).json() as OrderAnswer
/** What the button of the page with this label sends. */
function pressNamed(html: string, label: string): Record<string, string> {
  const button = new RegExp(`<button class="press" name="([a-z]+)" value="([^"]+)" aria-label="${label}"`).exec(html)
  if (!button) throw new Error(`no press is called ${label}`)
  return { [button[1]!]: button[2]! }
}

t.test('a technician adds a rule by two choices and a press, everybody sees it, and one press takes it away and brings it back', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  const technician = shop.as('technician')
  const page = `/builds/${door.build.id}/removal`
  await shop.as('manager').api.create('/api/factory-parts', { buildId: door.build.id, zoneId: door.zone.id, name: 'Speaker grille' })
  const typed = { beforeId: 'F-014 Speaker grille', afterId: 'F-012 Door panel', kind: 'out', graph: 'as found', way: '', zone: '1', _key: randomUUID() }
  const twice = [await technician.post(`/builds/${door.build.id}/order-rules`, typed), await technician.post(`/builds/${door.build.id}/order-rules`, typed)]
  t.same(twice.map(({ statusCode }) => statusCode), [303, 303])
  t.equal((await shop.database.reads.orderEdge.count({ where: { graph: 'as found' } })), 3, 'pressed twice, there once')
  const saved = await technician.page(twice[0]!.headers.location as string)
  t.match(wordsOf(saved), /Saved: F-014 Speaker grille comes out before F-012 Door panel, as found/)
  t.match(saved, /aria-current="page">1 Front doors/, 'in the zone where it was added')
  t.match(wordsOf(await shop.as('delivery').page(page)), /F-014 Speaker grille comes out before F-012 Door panel/)
  t.notMatch(await shop.as('delivery').page(page), /Add a rule|>Remove</, 'who may not change is offered nothing to press')
  t.equal((await shop.as('delivery').post(`/builds/${door.build.id}/order-rules`, typed)).statusCode, 403)

  const presses = `/builds/${door.build.id}/order-rules/presses`
  const remove = pressNamed(saved, 'Remove: F-014 before F-012')
  const removed = await technician.post(presses, { ...remove, zone: '1' })
  const without = await technician.page(removed.headers.location as string)
  t.match(wordsOf(without), /Saved: taken away: F-014 Speaker grille/)
  t.same((await orderOf(technician, door.build.id)).asFound.steps.find(({ id }) => id === door.panel.id)?.waitsForIds, [door.switch.id])
  const undo = /action="([^"]+undo)"/.exec(without)![1]!
  t.match(without, /name="did" value="recovered"/)
  const back = await technician.post(undo, { zone: '1', did: 'recovered' })
  t.match(wordsOf(await technician.page(back.headers.location as string)), /Saved: brought back: F-014 Speaker grille/)
  t.equal((await orderOf(technician, door.build.id)).asFound.steps.find(({ id }) => id === door.panel.id)?.waitsForIds.length, 2)

  const elsewhere = await aDoor(shop)
  t.equal((await technician.post(`/builds/${elsewhere.build.id}/order-rules/presses`, remove)).statusCode, 404, 'a rule of another build is not here')
  t.equal((await technician.post(presses, {})).statusCode, 404, 'nor one that nobody named')
})

t.test('a rule that would run in a ring is refused in words beside its field, and nothing typed is lost', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  const technician = shop.as('technician')
  const send = (form: Record<string, string>): Promise<Answer> => technician.post(`/builds/${door.build.id}/order-rules`, { kind: 'out', graph: 'as found', way: '', ...form })
  const ring = await send({ beforeId: 'F-013 Door speaker', afterId: 'F-011 Window switch', kind: 'loosened', zone: '1' })
  t.equal(ring.statusCode, 422)
  t.match(wordsOf(ring.body), /Each would have to come out before the other: F-011 Window switch → F-012 Door panel → F-013 Door speaker → F-011 Window switch\./)
  t.match(ring.body, /id="field-afterId"[^>]*aria-invalid="true"[^>]*aria-describedby="field-afterId-wrong"/)
  t.match(ring.body, /<option selected(="")?>F-013 Door speaker<\/option>/)
  t.match(ring.body, /<option selected(="")?>F-011 Window switch<\/option>/)
  t.match(ring.body, /value="loosened" selected/)
  const nothing = await send({ beforeId: '', afterId: 'F-099 Nothing', way: 'through the bed' })
  t.equal(nothing.statusCode, 422)
  t.match(nothing.body, /value="through the bed"/)
  t.match(wordsOf((await send({ beforeId: 'F-012', afterId: 'F-012' })).body), /does not stand in front of itself/)

  // What was taken away and brought back may have become a ring in between.
  const first = await shop.database.reads.orderEdge.findFirstOrThrow({ where: { beforeId: door.switch.id, afterId: door.panel.id } })
  t.equal((await technician.post(`/builds/${door.build.id}/order-rules/${first.id}/undo`, { did: 'removed' })).statusCode, 303)
  t.equal((await send({ beforeId: 'F-012', afterId: 'F-011' })).statusCode, 303)
  const back = await technician.post(`/builds/${door.build.id}/order-rules/${first.id}/undo`, { did: 'recovered' })
  t.equal(back.statusCode, 409)
  t.match(back.body, /Each would have to come out before the other/)
  t.ok((await shop.database.reads.orderEdge.findFirstOrThrow({ where: { id: first.id } })).removedAt, 'it stays away')
})

t.test('one press makes a rule ask for loosening only, and a way is named where there are several', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  const technician = shop.as('technician')
  const page = await technician.page(`/builds/${door.build.id}/removal?of=F-012`)
  const answer = await technician.post(`/builds/${door.build.id}/order-rules/presses`, pressNamed(page, 'only loosened: F-011 before F-012'))
  t.match(wordsOf(await technician.page(answer.headers.location as string)), /Saved: now: F-011 Window switch is loosened before F-012 Door panel/)
  t.equal((await orderOf(technician, door.build.id)).asFound.steps.find(({ id }) => id === door.switch.id)?.depth, 'out', 'it comes out itself in a whole teardown')
  const one = (await technician.api.get(`/api/builds/${door.build.id}/removal-order?part=${door.panel.id}`)).json() as OrderAnswer
  t.equal(one.asFound.steps.find(({ id }) => id === door.switch.id)?.depth, 'loosened')
  const named = await technician.post(`/builds/${door.build.id}/order-rules`, { beforeId: 'F-011', afterId: 'F-013', kind: 'out', graph: 'as found', way: 'from below' })
  t.match(wordsOf(await technician.page(named.headers.location as string)), /comes out before F-013 Door speaker, by the way: from below/)
})

t.test('rules about a thing that is taken away rest with their reason, break no order, and take effect again when it returns', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  await buildDoor(shop, door)
  const manager = shop.as('manager')
  const page = `/builds/${door.build.id}/removal`
  const before = (await orderOf(manager, door.build.id)).asBuilt.steps.map(({ id }) => id)
  t.same(before, [door.switch.id, door.panel.id, door.midbass.id, door.baffle.id])
  const press = async (path: string): Promise<void> => t.equal((await manager.post(path)).statusCode, 303, path) as unknown as void
  for (const [path, thing, number, left] of [
    ['equipment-lines', door.midbass, 'E-01', [door.switch.id, door.panel.id, door.baffle.id]],
    ['parts', door.baffle, 'P-101', [door.switch.id, door.panel.id, door.midbass.id]],
    ['factory-parts', door.panel, 'F-012', [door.switch.id, door.midbass.id, door.baffle.id]],
  ] as [string, Json & { id: string }, string, string[]][]) {
    await press(`/${path}/${thing.id}/removal`)
    const order = await orderOf(manager, door.build.id)
    t.same(order.asBuilt.steps.map(({ id }) => id), left, `${number} taken away: the rest keeps an order`)
    t.ok(order.asBuilt.steps.every(({ waitsForIds }) => !waitsForIds.includes(thing.id)))
    t.equal(order.asFound.refused, null)
    const words = wordsOf(await manager.page(page))
    t.match(words, new RegExp(`Rules that rest.*${number} .*is taken away from the build\\. The rule takes effect again when it is brought back`))
    t.equal((await manager.get(`/builds/${door.build.id}/return-to-stock`)).statusCode, 200)
    await press(`/${path}/${thing.id}/recovery`)
    t.same((await orderOf(manager, door.build.id)).asBuilt.steps.map(({ id }) => id), before, `${number} is back, and so are its rules`)
    t.notMatch(await manager.page(page), /Rules that rest/)
  }
})

t.test('a factory part that was disposed of stands in front of nothing any more, and its rules as built rest', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  await buildDoor(shop, door)
  const manager = shop.as('manager')
  // As a move of the part leaves it.
  const put = (state: string): Promise<unknown> => shop.database.write((write) => write.factoryPart.update({ where: { id: door.panel.id }, data: { state } }))
  await put('disposed with consent')
  const order = await orderOf(manager, door.build.id)
  t.same(order.asBuilt.steps.map(({ id }) => id), [door.switch.id, door.midbass.id, door.baffle.id])
  t.match(wordsOf(await manager.page(`/builds/${door.build.id}/removal`)), /Rules that rest.*F-012 Door panel comes out before E-01 Midbass 165 mm.*disposed of with consent and stands in front of nothing/)
  await put('fitted')
  t.same((await orderOf(manager, door.build.id)).asBuilt.steps.map(({ id }) => id), [door.switch.id, door.panel.id, door.midbass.id, door.baffle.id])
})

t.test('the page draws what it lists: a box for each thing with rules, what must come out thick, and lists the rest', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  await buildDoor(shop, door)
  const page = await shop.as('technician').page(`/builds/${door.build.id}/removal?of=E-01`)
  const drawing = page.split('aria-label="As built, drawn: first out on top"')[1]!.split('</svg>')[0]!
  t.same([...drawing.matchAll(/href="\?of=([^"]+)"/g)].map(([, number]) => number).toSorted(), ['E-01', 'F-011', 'F-012', 'P-101'])
  const [off = '', on = ''] = drawing.split('<g class="on">')
  t.match(off, /P-101/, 'the baffle behind it stays')
  for (const number of ['E-01', 'F-011', 'F-012']) t.ok(on.includes(number), `${number} must come out`)
  t.match(drawing, /class="ring"/)
  t.match(drawing, /class="made"/)
})

t.test('named ways to the same thing are compared by hours on the page, and each figure opens', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  const technician = shop.as('technician')
  const send = (form: Record<string, string>): Promise<Answer> => technician.post(`/builds/${door.build.id}/order-rules`, { kind: 'out', graph: 'as found', ...form })
  const grille = await shop.as('manager').api.create('/api/factory-parts', { buildId: door.build.id, zoneId: door.zone.id, name: 'Grille', takeOut: '2 min', putBack: '4 min' })
  const lamp = await shop.as('manager').api.create('/api/factory-parts', { buildId: door.build.id, zoneId: door.zone.id, name: 'Lamp', takeOut: '3 min', putBack: '3 min' })
  t.equal((await send({ beforeId: 'F-012', afterId: 'F-015', way: 'behind the panel' })).statusCode, 303)
  t.equal((await send({ beforeId: 'F-014', afterId: 'F-015', way: 'through the grille' })).statusCode, 303)
  const page = await technician.page(`/builds/${door.build.id}/removal?of=F-015`)
  // By hand: switch 5 + 5, panel 15 + 20, lamp 3 + 3 = 51 min; grille 2 + 4 and lamp 6 = 12 min.
  t.match(wordsOf(page), /Ways in, compared ?F-015 Lamp.*behind the panel ?F-011, F-012, F-015 ?0\.85 ?.*through the grille ?F-014, F-015 ?0\.20 ?least/)
  const opened = wordsOf(await technician.page(`/builds/${door.build.id}/removal?of=F-015&how=w1.1`))
  t.match(opened, /F-015 Lamp, behind the panel: out and back.*F-012 Door panel.*0\.85/)
  const answer = (await technician.api.get(`/api/builds/${door.build.id}/removal-order`)).json() as { ways: Json[] }
  t.same(answer.ways, [
    { afterId: lamp.id, way: 'behind the panel', takesIds: [door.switch.id, door.panel.id, lamp.id], seconds: 51 * 60, isLeast: false },
    { afterId: lamp.id, way: 'through the grille', takesIds: [grille.id, lamp.id], seconds: 12 * 60, isLeast: true },
  ])
})

t.test('once a panel is back on over what was fitted, the page asks what stands in front of what, and one press adds it', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  const technician = shop.as('technician')
  const { create, patch } = technician.api
  const page = `/builds/${door.build.id}/removal`
  const ofDoor = { buildId: door.build.id, zoneId: door.zone.id }
  const [grille, trim] = [await create('/api/factory-parts', { ...ofDoor, name: 'Grille' }), await create('/api/factory-parts', { ...ofDoor, name: 'Sill trim' })]
  const [tweeter, crossover] = [await create('/api/equipment-lines', { ...ofDoor, name: 'Tweeter', quantity: 1 }), await create('/api/equipment-lines', { ...ofDoor, name: 'Crossover', quantity: 1 })]
  await create('/api/order-edges', { buildId: door.build.id, graph: 'as built', beforeId: tweeter.id, afterId: crossover.id })
  await create('/api/order-edges', { buildId: door.build.id, graph: 'as found', beforeId: trim.id, afterId: grille.id })
  const removal = (part: Json, kind: string): Promise<unknown> => create('/api/removals', { buildId: door.build.id, factoryPartId: part.id, kind })
  await removal(trim, 'came out')
  await removal(grille, 'came out')
  for (const line of [tweeter, crossover]) t.equal((await patch(`/api/equipment-lines/${line.id}`, { isFitted: true }, { 'if-match': String(line.version) })).statusCode, 200)
  t.notMatch(await technician.page(page), /is back on: what stands/, 'nothing to ask while it is out')
  await removal(trim, 'went back')
  await removal(grille, 'went back')
  const asking = await technician.page(page)
  t.match(wordsOf(asking), /F-014 Grille is back on: what stands in front of what now\?/)
  t.match(asking, /<select id="field-item-F-014-E-02"[^>]*>.*?<option value="front" selected(="")?>F-014 comes out before it/s, 'fitted while it was out: behind it')
  t.match(asking, /name="still-F-014" value="F-015" checked/)
  t.notMatch(await shop.as('delivery').page(page), /is back on: what stands/)

  const answers = `/builds/${door.build.id}/order-answers`
  const ring = await technician.post(answers, { 'part': 'F-014', 'item-F-014-E-02': 'front', 'item-F-014-E-03': 'behind' })
  t.equal(ring.statusCode, 422)
  t.match(wordsOf(ring.body), /Each would have to come out before the other: (F-014 Grille → )?E-02 Tweeter → E-03 Crossover → F-014 Grille/)
  t.match(ring.body, /id="field-item-F-014-E-03"[^>]*aria-invalid="true"/)
  t.match(ring.body, /<option value="behind" selected(="")?>it comes out before F-014/, 'nothing chosen is lost')
  t.equal((await shop.database.reads.orderEdge.count({ where: { graph: 'as built', beforeId: grille.id } })), 0, 'of an answer that makes a ring nothing is added')

  const key = randomUUID()
  const typed = { 'part': 'F-014', 'item-F-014-E-02': 'front', 'zone': '1', '_key': key }
  const twice = [await technician.post(answers, typed), await technician.post(answers, typed)]
  t.same(twice.map(({ statusCode }) => statusCode), [303, 303])
  t.match(wordsOf(await technician.page(twice[0]!.headers.location as string)), /Saved: what stands in front of F-014 Grille/)
  t.same((await orderOf(technician, door.build.id)).asBuilt.steps.find(({ id }) => id === tweeter.id)?.waitsForIds, [grille.id])
  t.notMatch(await technician.page(`${page}?of=F-014`), /F-014 Grille is back on/, 'answered, it is not asked again')
  t.equal((await shop.database.reads.orderEdge.count({ where: { graph: 'as built', beforeId: grille.id } })), 1)
  t.match(wordsOf(await technician.page(`/factory-parts/${grille.id}`)), /asked what stands in front, as built/, 'and the part’s history says so')
  t.equal((await technician.post(answers, { part: 'F-099' })).statusCode, 404)
  const late = await technician.post(answers, { 'part': 'F-014', 'item-F-014-E-03': 'behind' })
  t.equal(late.statusCode, 409, 'a ring in an answer to what is settled meanwhile is refused as well')
})

t.test('an empty zone offers the order of removal of an earlier build of the same vehicle and place, and takes it over with parts, rules, fasteners and times', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  const manager = shop.as('manager')
  const technician = shop.as('technician')
  const vehicle = (await manager.api.get(`/api/vehicles/${door.vehicle.id}`)).json() as Json
  const twin = await manager.api.create('/api/vehicles', { customerId: vehicle.customerId, make: vehicle.make, model: vehicle.model, year: '2031', body: vehicle.body, energy: vehicle.energy })
  const next = await manager.api.create('/api/builds', { title: 'The same again', kind: 'everyday build', vehicleId: twin.id })
  const zone = await manager.api.create('/api/zones', { buildId: next.id, name: 'Doors', place: door.zone.place })
  const other = await manager.api.create('/api/zones', { buildId: next.id, name: 'Roof', place: 'headliner' })
  const offered = await technician.page(`/builds/${next.id}/removal?zone=1`)
  t.match(wordsOf(offered), /Copy from an earlier build.*B-0001 Two-way front and a false floor: Front doors, 3 factory parts/)
  t.notMatch(await technician.page(`/builds/${next.id}/removal?zone=2`), /B-0001 Two-way/, 'none for another place')
  t.ok(other.id)
  const href = /href="([^"]+templates\/preview[^"]+)"/.exec(offered)![1]!.replaceAll('&amp;', '&')
  const preview = await technician.page(href)
  for (const words of ['Window switch', 'Door panel', 'Door speaker']) t.match(preview, words)
  const taken = await technician.post(`/builds/${next.id}/takeovers`, { source: door.build.id, what: 'removal order', zone: door.zone.id, into: zone.id, left: '', offered: 'F-011 F-012 F-013', take: ['F-011', 'F-012', 'F-013'] })
  t.equal(taken.statusCode, 303, taken.body)
  const order = await orderOf(technician, next.id)
  t.same(order.asFound.steps.map(({ waitsForIds }) => waitsForIds.length), [0, 1, 1], 'switch, panel, speaker')
  const parts = await shop.database.reads.factoryPart.findMany({ where: { buildId: next.id }, orderBy: { number: 'asc' }, include: { fasteners: true } })
  t.same(parts.map(({ name, takeOut, putBack, fasteners }) => [name, takeOut, putBack, fasteners.length]), [['Window switch', 300, 300, 0], ['Door panel', 900, 1200, 2], ['Door speaker', 360, 480, 1]])
  t.notMatch(await technician.page(`/builds/${next.id}/removal?zone=1`), /Copy from an earlier build/)
})
