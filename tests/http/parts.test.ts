import t from 'tap'
import { aBuild } from '../support/aBuild.ts'
import { openShop } from '../support/shop.ts'

const clock = () => new Date('2031-03-04T10:00:00Z')

t.test('the page of a part says what is to be done, with what, how far it is and how it comes off', async t => {
  const shop = await openShop(t, { clock })
  const { build, zone, department } = await aBuild(shop)
  const { create } = shop.as('manager').api
  const of = { buildId: build.id, zoneId: zone.id }
  const cabinet = await create('/api/parts', { ...of, name: 'Front cabinet', quantity: 2 })
  const baffle = await create('/api/parts', { ...of, name: 'Baffle', quantity: 0, family: 'baffle', removable: 'four bolts from inside', mass: '1.25 kg' })
  const brace = await create('/api/parts', { ...of, name: 'Brace', quantity: 0 })
  await create('/api/part-uses', { buildId: build.id, parentId: cabinet.id, partId: baffle.id, quantity: 3 })
  await create('/api/part-uses', { buildId: build.id, parentId: cabinet.id, partId: brace.id, quantity: 1 })
  const sand = await create('/api/operations', { buildId: build.id, partId: baffle.id, kind: 'sand', work: 'to 240 grit', departmentId: department.id, setUp: '0.5 h', run: '15 min', wait: '2 h' })
  const ply = await create('/api/materials', { name: 'Birch plywood 18', form: 'area', packName: 'sheet', packSize: '2.5 m²', packCost: '84', packPrice: '118', cautions: 'chemicals' })
  await create('/api/material-needs', { buildId: build.id, materialId: ply.id, partId: baffle.id, quantity: '0.5 m²', expectedOn: '2031-03-12' })
  const technician = shop.as('technician')
  const entry = await technician.api.create('/api/time-entries', { operationId: sand.id, date: '2031-03-03', kind: 'rework', time: '1 h', why: 'ran the filler' })
  const corrected = await technician.api.post(`/api/time-entries/${entry.id}/corrections`, { operationId: sand.id, date: '2031-03-03', kind: 'rework', time: '0.75 h', why: 'ran the filler' })
  t.equal(corrected.statusCode, 201)

  const html = await technician.page(`/parts/${baffle.id}`)
  t.match(html, /<h1>Baffle<\/h1>/)
  t.match(html, /6 pieces, one batch/, 'two cabinets of three')
  t.match(html, /in P-101 Front cabinet/)
  // 0.5 h + 6 × 0.25 h = 2.0 h; of it 0.75 h are logged, 1.25 h remain.
  for (const figure of ['2.0 h', '0.75', '1.25']) t.ok(html.includes(figure), figure)
  t.match(html, /0\.8 h rework/)
  t.match(html, /first written 1\.00 h, corrected by Test technician/)
  t.match(html, /then waits 2\.0 h/)
  t.match(html, /four bolts from inside/)
  t.match(html, /3 m²/, 'six times half a square meter')
  t.match(html, /expected Wed 12 Mar 2031/)
  t.match(html, /Airbags and belt pretensioners/, 'what always goes with a door')
  t.match(html, /Dust/, 'what goes with sanding')
  t.match(html, /Front cabinet.*Baffle.*Brace/s, 'the assembly, the part and the piece beside it')
  t.match(html, new RegExp(`/operations/${sand.id}/form`), 'a state is changed where the operation stands')
  t.notMatch(html, /operations\/new/, 'only a manager plans operations')
  t.notMatch(html, /[\s>&;]USD|84\.00|118\.00/)
  t.match(await shop.as('manager').page(`/parts/${baffle.id}`), new RegExp(`/operations/new\\?build=${build.id}`))
  t.notMatch(await shop.as('delivery').page(`/parts/${baffle.id}`), /\/form"|\/new\?/, 'who delivers changes nothing here')
})

t.test('a piece of an assembly is entered in one form, with how many go into one', async t => {
  const shop = await openShop(t, { clock })
  const { build, zone } = await aBuild(shop)
  const technician = shop.as('technician')
  const cabinet = await technician.api.create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Front cabinet', quantity: 2 })
  t.match(await technician.page(`/parts/${cabinet.id}/pieces/new`), /How many in one P-101 Front cabinet/)

  const wrong = await technician.post(`/parts/${cabinet.id}/pieces`, { each: '0', name: 'Baffle', zoneId: zone.id, quantity: '0' })
  t.equal(wrong.statusCode, 422)
  t.match(wrong.body, /value="Baffle"/, 'what was typed is still there')
  t.match(wrong.body, /How many in one assembly is a whole number from 1 to 1,000/)
  t.equal((await technician.post(`/parts/${cabinet.id}/pieces`, { each: 'x', name: '', zoneId: zone.id, quantity: '0' })).statusCode, 422)

  const form = { each: '3', name: 'Baffle', zoneId: zone.id, quantity: '0', _key: 'one-and-the-same-key' }
  const [first, again] = [await technician.post(`/parts/${cabinet.id}/pieces`, form), await technician.post(`/parts/${cabinet.id}/pieces`, form)]
  t.equal(first.statusCode, 303)
  t.equal(again.headers.location, first.headers.location, 'posted twice, entered once')
  const bill = (await technician.api.get(`/api/builds/${build.id}/bill-of-materials`)).json()
  t.strictSame(bill.parts.map(({ name, quantity }: { name: string, quantity: number }) => [name, quantity]), [['Front cabinet', 2], ['Baffle', 6]])
  t.match(await technician.page(String(first.headers.location)), /Put it into an assembly/)
})

t.test('a part with hours logged on it stays; one without can be taken away and back', async t => {
  const shop = await openShop(t, { clock })
  const { build, zone, department } = await aBuild(shop)
  const { create } = shop.as('manager').api
  const pod = await create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Pod', quantity: 1 })
  const spare = await create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Spare', quantity: 1 })
  const sand = await create('/api/operations', { buildId: build.id, partId: pod.id, kind: 'sand', departmentId: department.id, run: '1 h' })
  await shop.as('technician').api.create('/api/time-entries', { operationId: sand.id, date: '2031-03-03', kind: 'work', time: '1 h' })
  const held = await shop.as('manager').api.post(`/api/parts/${pod.id}/removal`)
  t.equal(held.statusCode, 422)
  t.match(held.json().detail, /1 entry of hours stands on its operations/)
  t.equal((await shop.as('technician').post(`/parts/${spare.id}/removal`)).statusCode, 303)
  t.match(await shop.as('technician').page(`/parts/${spare.id}`), /Take back/)
  t.notMatch(await shop.as('manager').page(`/builds/${build.id}`), /Spare/)
})

t.test('a part that is not there answers 404', async t => {
  const shop = await openShop(t, { clock })
  for (const address of ['', '/record', '/pieces/new']) {
    t.equal((await shop.as('manager').get(`/parts/019b0000-0000-7000-8000-000000000000${address}`)).statusCode, 404, address)
    t.equal((await shop.as('manager').get(`/parts/nonsense${address}`)).statusCode, 404, address)
  }
  t.equal((await shop.as('technician').post('/parts/019b0000-0000-7000-8000-000000000000/pieces', { each: '1', name: 'x' })).statusCode, 404)
})
