import t from 'tap'
import { aBuild } from '../support/aBuild.ts'
import { openShop } from '../support/shop.ts'

const shop = await openShop(t)
const { build, zone, vehicle } = await aBuild(shop)
const { create, patch } = shop.as('manager').api
const page = (path: string): Promise<string> => shop.as('manager').page(path)
const panel = await create('/api/factory-parts', { buildId: build.id, zoneId: zone.id, name: 'Door panel', takeOut: '10 min' })
const baffle = await create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Baffle', quantity: 2 })
const text = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')

t.test('a short time reads back in minutes', async (t) => {
  await patch(`/api/vehicles/${vehicle.id}`, { airbagWait: '10 min' }, { 'if-match': String(vehicle.version) })
  t.match(text(await page(`/vehicles/${vehicle.id}`)), /Wait after the battery is off 10 min/)
  t.match(text(await page(`/factory-parts/${panel.id}`)), /Time to take it out 10 min/)
})

t.test('a torque reads back as it was typed, the other unit beside it', async (t) => {
  const hold = (torque: string) => create('/api/fasteners', { buildId: build.id, factoryPartId: panel.id, kind: 'bolt', count: 4, torque, torqueSource: 'manual, page 3' })
  // 80 lbf·in = 9.0388 N·m and 9 N·m = 6.638 lbf·ft by the exact pound-force: NIST SP 811, appendix B.
  t.match(text(await page(`/fasteners/${(await hold('80 lbf·in')).id}`)), /80 lbf·in \(9 N·m\)/)
  t.match(text(await page(`/fasteners/${(await hold('9 N·m')).id}`)), /9 N·m \(6\.6 lbf·ft\)/)
  t.match(text(await page(`/factory-parts/${panel.id}`)), /80 lbf·in \(9 N·m\)/)
})

t.test('a rate of tax is typed and read in percent, and stored in thousandths of one', async (t) => {
  const code = await create('/api/tax-codes', { code: 'GOODS', name: 'Goods sold', rate: '7.25 %' })
  t.equal(code.rate, 7_250)
  t.match(text(await page('/tax-codes')), /7\.25 %/)
  t.match(await page(`/tax-codes/${code.id}/form`), /value="7\.25 %"/)
})

t.test('working days are named', async (t) => {
  const form = await page('/shop/shop/form').catch(() => shop.as('owner').page('/shop/shop/form'))
  t.match(text(form), /Monday Tuesday Wednesday Thursday Friday Saturday Sunday/)
  t.match(text(await page('/shop/shop')), /Working days Monday, Tuesday, Wednesday, Thursday, Friday/)
})

t.test('a need is called by its material and what it is for; relations are headed in words', async (t) => {
  const ply = await create('/api/materials', { name: 'Birch plywood 18', form: 'area', packName: 'sheet', packSize: '2.98 m²', packCost: '84.00', packPrice: '118.00' })
  const need = await create('/api/material-needs', { buildId: build.id, materialId: ply.id, partId: baffle.id, quantity: '0.3 m²' })
  t.match(await page(`/material-needs/${need.id}`), /<h1[^>]*>[^<]*M-001 Birch plywood 18 for P-101 Baffle/)
  t.match(text(await page(`/material-needs?build=${build.id}`)), /M-001 Birch plywood 18 for P-101 Baffle/)
  const part = text(await page(`/factory-parts/${panel.id}`))
  t.match(part, /What comes out before it/)
  t.notMatch(part, /: before this can come out this|: first this/)
})

t.test('the form of a person says where there are no skills to choose from', async (t) => {
  t.match(text(await page('/people/new')), /Skills None to choose from yet\./)
})
