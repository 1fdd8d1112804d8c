import t from 'tap'
import { aBuild } from '../support/aBuild.ts'
import { openShop, type Json } from '../support/shop.ts'

const shop = await openShop(t)
const manager = shop.as('manager')
const bench = shop.as('technician')
const { create } = manager.api
const { build, zone } = await aBuild(shop)
const inZone = { buildId: build.id, zoneId: zone.id }

const speaker = await create('/api/catalog', { kind: 'speaker', maker: 'Averne', model: 'W 165', cost: '40.00', price: '80.00', mountingDepth: '2 5/8 in', projection: '9 mm' })
const door = await bench.api.create('/api/mounting-places', { ...inZone, name: 'Lower front door', checks: ['mounting depth', 'window drop', 'grille clearance'], depth: '62 mm', windowDrop: '57 mm', grille: '40 mm', largestSpacer: '18 mm' })
const line = await create('/api/equipment-lines', { ...inZone, itemId: speaker.id, quantity: 2, placeId: door.id })

const patch = async (url: string, json: Json): Promise<void> => {
  const { version } = (await manager.api.get(url)).json<{ version: number }>()
  t.equal((await manager.api.patch(url, json, { 'if-match': `"${version}"` })).statusCode, 200)
}
const fit = async (): Promise<Json> => (await bench.api.get(`/api/builds/${build.id}/fit`)).json<{ items: Json[] }>().items[0]!
const url = `/api/equipment-lines/${line.id}`

t.test('a line says with which spacer it fits, in inches as in millimeters, and how that comes about', async (t) => {
  // By hand: 2 5/8 in = 66.675 mm; 66.675 + 3 − 57 = 12.675 mm.
  t.match(await fit(), { number: 'E-01', state: 'fits with a spacer', leastSpacer: 12_675, checks: [{ kind: 'mounting depth', left: -7_675 }, { kind: 'window drop', left: -12_675 }, { kind: 'grille clearance', left: 28_000 }] })
  const page = await bench.page(`/builds/${build.id}/fit`)
  t.match(page, /At least 12\.6[78] mm/)
  t.match(page, /far side/)
  t.match(page, /airbag/i)
  t.match(await bench.page(`/builds/${build.id}/fit?how=e1-window-drop`), /room \+ spacer − equipment − what has to stay free/)
  t.match(await bench.page(`/equipment-lines/${line.id}`), /Fits with a spacer/)
  t.match(await bench.page(`/equipment-lines/${line.id}?how=e1-window-drop`), /57 mm/)
  await patch(url, { spacer: '18 mm' })
  t.match(await fit(), { state: 'fits', spacer: 18_000 })
})

t.test('only what does not fit, or is here unmeasured, is an open point of the ledger', async (t) => {
  const ledger = async (): Promise<string> => (await manager.page(`/builds/${build.id}`)).replaceAll(/<\/?i>/g, '')
  t.notMatch(await ledger(), /E-01 Averne W 165 in L-001/)
  await patch(url, { spacer: '5 mm' })
  t.match(await ledger(), /E-01 Averne W 165 in L-001 Lower front door: does not fit with the spacer that is used: short in mounting depth and window drop/)
  await patch(url, { spacer: null })
  await patch(`/api/mounting-places/${door.id}`, { grille: null })
  t.match(await fit(), { state: 'open' })
  t.notMatch(await ledger(), /in L-001/, 'open and not here yet')
  await patch(url, { receivedOn: '2031-03-01', serialNumbers: '1' })
  t.match(await ledger(), /in L-001 Lower front door: open: not recorded is room to the grille in front/)
  await patch(url, { isFitted: true })
  t.notMatch(await ledger(), /in L-001/)
})

t.test('a place that cannot be taken is refused by field; one that a line is checked against stays', async (t) => {
  const send = async (json: Json): Promise<string> => (await bench.api.post('/api/mounting-places', { ...inZone, name: 'Console', ...json })).body
  t.match(await send({ checks: [] }), /What limits it is needed/)
  t.match(await send({ checks: ['luck'] }), /does not know “luck”/)
  t.match(await send({ depth: '-3 mm' }), /negative/)
  t.match(await send({ depth: '4 m' }), /at most/)
  t.match(await send({ clearance: '3 kg' }), /Has to stay free/)
  t.match((await bench.api.post(`/api/mounting-places/${door.id}/removal`)).body, /1 equipment line is checked against it/)
  const other = await aBuild(shop, 'Another')
  t.match((await manager.api.post('/api/equipment-lines', { buildId: other.build.id, zoneId: other.zone.id, name: 'X', quantity: 1, placeId: door.id })).body, /belongs to another build/)
  t.match(await bench.page(`/builds/${other.build.id}/fit`), /The first mounting place/)
})
