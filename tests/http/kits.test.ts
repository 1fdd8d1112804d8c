import t from 'tap'
import fc from 'fast-check'
import { aBuild } from '../support/aBuild.ts'
import { deliver } from '../support/aFinalCheck.ts'
import { openShop, type Json } from '../support/shop.ts'

const shop = await openShop(t)
const manager = shop.as('manager')
const bench = shop.as('technician')
const { create } = manager.api
const { reads } = shop.database
const { build, zone } = await aBuild(shop)
const ofBuild = { buildId: build.id }

const each = async (name: string): Promise<string> =>
  (await create('/api/materials', { name, form: 'each', packName: 'each', packSize: '1', packCost: '1.00', packPrice: '2.00' })).id
const newLine = (json: Json, of: Json = { ...ofBuild, zoneId: zone.id }) => create('/api/equipment-lines', { ...of, name: 'Bracket', ...json })
const patch = async (url: string, json: Json): Promise<number> => {
  const { version } = (await manager.api.get(url)).json<{ version: number }>()
  return (await manager.api.patch(url, json, { 'if-match': `"${version}"` })).statusCode
}
const needsOf = (lineId: string) => reads.materialNeed.findMany({ where: { lineId, removedAt: null }, orderBy: { id: 'asc' } })
const grossOf = async (buildId = build.id): Promise<Record<string, number>> => {
  const { materials } = (await manager.api.get(`/api/builds/${buildId}/bill-of-materials`)).json<{ materials: { name: string, gross: number }[] }>()
  return Object.fromEntries(materials.map(({ name, gross }) => [name, gross]))
}

t.test('the published bracket, its springs and clamps as a kit and its base as a made part: 50 take what the book says', async (t) => {
  // Heizer and Render, Operations Management, problem 14.3: bracket = 1 base, 2 springs, 4 clamps; base = 1 clamp, 2 housings.
  // Its answers for 50 brackets: 250 clamps (200 directly, 50 in the bases), 100 springs, 100 housings.
  const { build: own, zone: place } = await aBuild(shop, 'Brackets')
  const kit = await create('/api/kits', { name: 'Bracket' })
  const [clamp, spring, housing] = [await each('clamp'), await each('spring'), await each('housing')]
  await create('/api/kit-parts', { kitId: kit.id, materialId: spring, quantity: 2 })
  await create('/api/kit-parts', { kitId: kit.id, materialId: clamp, quantity: 4 })
  await newLine({ kitId: kit.id, quantity: 50 }, { buildId: own.id, zoneId: place.id })
  const base = await create('/api/parts', { buildId: own.id, zoneId: place.id, name: 'Base', quantity: 50 })
  await create('/api/material-needs', { buildId: own.id, partId: base.id, materialId: clamp, quantity: 1 })
  await create('/api/material-needs', { buildId: own.id, partId: base.id, materialId: housing, quantity: 2 })
  t.same(await grossOf(own.id), { clamp: 250, spring: 100, housing: 100 })
})

t.test('a kit of q on n units is q · n on the bill, and twice the units are twice as much', async (t) => {
  await fc.assert(fc.asyncProperty(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 400 }), async (q, n) => {
    const { build: own, zone: place } = await aBuild(shop, 'Property')
    const material = await each('terminal')
    const kit = await create('/api/kits', { name: 'Terminals' })
    await create('/api/kit-parts', { kitId: kit.id, materialId: material, quantity: q })
    const line = await newLine({ kitId: kit.id, quantity: n }, { buildId: own.id, zoneId: place.id })
    const other = await newLine({ kitId: kit.id, quantity: 1 }, { buildId: own.id, zoneId: place.id })
    t.equal((await grossOf(own.id)).terminal, q * n + q)
    await patch(`/api/equipment-lines/${line.id}`, { quantity: 2 * n })
    t.equal((await grossOf(own.id)).terminal, 2 * q * n + q)
    const [need] = await needsOf(line.id)
    await patch(`/api/material-needs/${need!.id}`, { quantity: q + 3 })
    t.equal((await grossOf(own.id)).terminal, 2 * (q + 3) * n + q, 'adjusting one line leaves the other')
    t.match(await needsOf(other.id), [{ quantity: q, isAdjusted: false }])
  }), { seed: 1125, numRuns: 4 })
})

t.test('the catalog item and the line name a kit; another kit takes the place of what nobody adjusted', async (t) => {
  const [screw, wire] = [await each('screw'), await each('wire')]
  const kitA = await create('/api/kits', { name: 'Kit A' })
  const kitB = await create('/api/kits', { name: 'Kit B' })
  for (const materialId of [screw, wire]) await create('/api/kit-parts', { kitId: kitA.id, materialId, quantity: 4 })
  await create('/api/kit-parts', { kitId: kitB.id, materialId: wire, quantity: 9 })
  const item = await create('/api/catalog', { kind: 'speaker', maker: 'Averne', model: 'M 8', cost: '4.00', price: '7.00', kitId: kitA.id })
  const line = await newLine({ itemId: item.id, quantity: 1, name: '' })
  t.equal(line.kitId, kitA.id, 'the item’s kit')
  const [first, second] = await needsOf(line.id)
  t.match([first, second], [{ materialId: screw, quantity: 4 }, { materialId: wire, quantity: 4 }])
  await patch(`/api/material-needs/${first!.id}`, { quantity: 6 })
  t.equal(await patch(`/api/equipment-lines/${line.id}`, { kitId: kitB.id }), 200)
  t.match((await needsOf(line.id)).map(({ materialId, quantity, isAdjusted }) => [materialId, quantity, isAdjusted]), [[screw, 6, true], [wire, 9, false]])
  await patch(`/api/equipment-lines/${line.id}`, { kitId: null })
  t.match((await needsOf(line.id)).map(({ quantity }) => quantity), [6])
  await patch(`/api/equipment-lines/${line.id}`, { kitId: kitA.id })
  t.match((await needsOf(line.id)).map(({ quantity }) => quantity), [6, 4], 'what was adjusted is not brought twice')
})

t.test('a changed kit is followed by open builds, told in their history, and not by adjusted, left-out or delivered lines', async (t) => {
  const material = await each('ring')
  const kit = await create('/api/kits', { name: 'Ring kit' })
  const part = await create('/api/kit-parts', { kitId: kit.id, materialId: material, quantity: 1 })
  const done = await aBuild(shop, 'Delivered one')
  const [plain, adjusted, out] = [await newLine({ kitId: kit.id, quantity: 1 }), await newLine({ kitId: kit.id, quantity: 1 }), await newLine({ kitId: kit.id, quantity: 1 })]
  const delivered = await newLine({ kitId: kit.id, quantity: 1, name: 'Old one' }, { buildId: done.build.id, zoneId: done.zone.id })
  await deliver(shop, done.build.id)
  const needOf = async (line: { id: string }) => (await needsOf(line.id))[0]
  await patch(`/api/material-needs/${(await needOf(adjusted))!.id}`, { quantity: 0 })
  const outId = (await needOf(out))!.id
  t.equal((await bench.post(`/material-needs/${outId}/kit-states`, { state: 'left out' })).headers.location, `/equipment-lines/${out.id}?saved=changed`)

  t.equal(await patch(`/api/kit-parts/${part.id}`, { quantity: 3 }), 200)
  t.match([await needOf(plain), await needOf(adjusted), await needOf(out), await needOf(delivered)].map((need) => need?.quantity), [3, 0, undefined, 1])
  const history = (await manager.api.get(`/api/material-needs/${(await needOf(plain))!.id}/history`)).json<{ items: Json[] }>()
  t.match(history.items[0], { personName: 'Test manager', changes: [{ field: 'quantity', before: 1, after: 3 }] })
  const added = await create('/api/kit-parts', { kitId: kit.id, materialId: await each('bolt'), quantity: 2 })
  t.same((await Promise.all([plain, adjusted, out, delivered].map(({ id }) => needsOf(id)))).map((needs) => needs.length), [2, 2, 1, 1], 'a new part comes into open lines')

  const page = await manager.page(`/kits/${kit.id}`)
  t.match(page, /ring: left out/)
  t.match(page, /ring: as it was built, 1 for 3/)
  const linePage = await bench.page(`/equipment-lines/${out.id}`)
  t.match(linePage, /left out; the kit has 3/)
  t.equal((await bench.api.post(`/api/material-needs/${outId}/kit-states`, { state: 'as the kit' })).statusCode, 200)
  t.match(await needOf(out), { quantity: 3, isAdjusted: false, removedAt: null }, 'back to the kit')
  t.equal((await bench.api.post(`/api/material-needs/${outId}/kit-states`, { state: 'gone' })).statusCode, 422)

  await manager.api.post(`/api/kit-parts/${added.id}/removal`)
  t.same((await Promise.all([plain, delivered].map(({ id }) => needsOf(id)))).map((needs) => needs.length), [1, 1])
  await manager.api.post(`/api/kit-parts/${added.id}/recovery`)
  t.equal((await needsOf(plain.id)).length, 2)
})

t.test('what a kit costs is its parts’ shares of packs, for managers alone', async (t) => {
  const wire = await create('/api/materials', { name: 'Wire', form: 'length', packName: 'reel', packSize: '50 m', packCost: '68.00', packPrice: '102.00' })
  const kit = await create('/api/kits', { name: 'Wire kit' })
  await create('/api/kit-parts', { kitId: kit.id, materialId: wire.id, quantity: '1.5 m' })
  // By hand: 68.00 × 1.5 ÷ 50 = 2.04; 102.00 × 1.5 ÷ 50 = 3.06.
  const page = await manager.page(`/kits/${kit.id}`)
  t.match(page, />1\.5 m</, 'long pieces read as they are bought')
  t.match(page, '2.04')
  t.match(page, '3.06')
  t.match(await manager.page(`/kits/${kit.id}?how=c0`), /one pack × in one kit/)
  t.notMatch(await bench.page(`/kits/${kit.id}`), /2\.04|3\.06/)
  t.equal((await bench.get(`/kits/${kit.id}?how=c0`)).statusCode, 404)
})

t.test('a kit part without its unit, or of nothing, is refused; a kit that is brought stays', async (t) => {
  const wire = await create('/api/materials', { name: 'Cable', form: 'length', packName: 'reel', packSize: '50 m', packCost: '68.00', packPrice: '102.00' })
  const kit = await create('/api/kits', { name: 'Cable kit' })
  const send = async (json: Json): Promise<string> => (await manager.api.post('/api/kit-parts', { kitId: kit.id, materialId: wire.id, ...json })).body
  t.match(await send({ quantity: '3' }), /needs its unit/)
  t.match(await send({ quantity: '0 m' }), /more than nothing/)
  t.match(await send({ quantity: '-1 m' }), /negative/)
  t.match(await send({ quantity: '2 kg' }), /How much/)
  await create('/api/catalog', { kind: 'wiring', maker: 'Averne', model: 'W', cost: '1.00', price: '2.00', kitId: kit.id })
  t.match((await manager.api.post(`/api/kits/${kit.id}/removal`)).body, /1 catalog item or standard fitting brings this kit/)
})
