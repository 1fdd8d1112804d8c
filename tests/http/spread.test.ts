import t from 'tap'
import { aBuild } from '../support/aBuild.ts'
import { openShop } from '../support/shop.ts'

const words = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')

t.test('an estimate with three values says even chance, 80 and 90 in 100, of hours with and without rework and of the price', async (t) => {
  const shop = await openShop(t)
  const { build, zone, department } = await aBuild(shop)
  const manager = shop.as('manager')
  const part = await manager.api.create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Corner box', quantity: 1 })
  const plan = { buildId: build.id, partId: part.id, departmentId: department.id, reworkAllowance: '0 %' }
  await manager.api.create('/api/operations', { ...plan, kind: 'cut', run: '1 h' })
  const sure = words(await manager.page(`/builds/${build.id}/spread`))
  t.match(sure, /Hours, with rework 1\.0 h 1\.0 h 1\.0 h/, 'whatever the estimate, all three are told')
  t.match(sure, /Nobody has said how unsure an operation is/, 'with what they are worth')
  await manager.api.create('/api/operations', { ...plan, kind: 'mold', runBest: '1 h', run: '2 h', runWorst: '9 h' })

  // jStat 1.9.6 on 1, 2, 9: P50 2.76896, P80 4.10276, P90 4.87123 h; with the sure hour 3.8, 5.1 and 5.9 h.
  const page = words(await manager.page(`/builds/${build.id}/spread`))
  t.match(page, /Hours, with rework 3\.8 h 5\.1 h 5\.9 h/)
  const found = (await manager.api.get(`/api/builds/${build.id}/spread`)).json() as { hours: Record<string, number>, price: Record<string, number>, operations: { share: number }[] }
  for (const [key, hours] of [['even', 3.76896], ['in80', 5.10276], ['in90', 5.87123]] as const) t.ok(Math.abs(found.hours[key]! / 3600 - hours) < 0.002, key)
  t.ok(Math.abs(found.price.in80! - 5.10276 * 9500) < 20, '95.00 an hour')
  t.same(found.operations.map(({ share }) => share), [1000])

  t.match(words(await manager.page(`/builds/${build.id}/spread?how=h80&together=30`)), /80 in 100 of 5,000 evenly drawn cases/)
  t.equal((await manager.get(`/builds/${build.id}/spread?how=h81`)).statusCode, 404)
  for (const typed of ['900', '-1', '2,5', 'all']) {
    const refused = await manager.get(`/builds/${build.id}/spread?together=${encodeURIComponent(typed)}`)
    t.equal(refused.statusCode, 422, typed)
    t.match(words(refused.body), `a whole number from 0 to 100, as 30; “${typed}” is not. The figures above stand at 30.`)
    t.match(refused.body, `value="${typed}"`, 'nothing typed is lost')
  }
  t.equal((await manager.api.get(`/api/builds/${build.id}/spread?together=900`)).statusCode, 422)
})

t.test('an estimate without any operation says so beside its three values, and a counter job has them as well', async (t) => {
  const shop = await openShop(t)
  const { build } = await aBuild(shop)
  const manager = shop.as('manager')
  const empty = words(await manager.page(`/builds/${build.id}/spread`))
  t.match(empty, /Hours, with rework 0\.0 h 0\.0 h 0\.0 h.*Price, with all that is bought 0\.00 USD 0\.00 USD 0\.00 USD/)
  t.match(empty, /No operation is planned yet/)
})

t.test('what goes wrong together makes the chances wider, and a technician sees no price', async (t) => {
  const shop = await openShop(t)
  const { build, zone, department } = await aBuild(shop)
  const { api } = shop.as('manager')
  const part = await api.create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Pillar pod', quantity: 1 })
  for (const kind of ['pattern', 'mold', 'sand', 'wrap']) {
    await api.create('/api/operations', { buildId: build.id, partId: part.id, departmentId: department.id, kind, runBest: '1 h', run: '2 h', runWorst: '9 h', reworkAllowance: '10 %' })
  }
  const in90 = async (together: number): Promise<number> => ((await api.get(`/api/builds/${build.id}/spread?together=${together}`)).json() as { hours: { in90: number } }).hours.in90
  const [apart, half, together] = [await in90(0), await in90(50), await in90(100)]
  t.ok(apart < half && half < together, `${apart}, ${half}, ${together} s`)
  // All together: four times the P90 of one, 4.87123 h, and a tenth for rework.
  t.ok(Math.abs(together / 3600 - 4 * 4.87123 * 1.1) < 0.02, `${together / 3600} h`)
  const technician = shop.as('technician')
  t.notMatch(await technician.page(`/builds/${build.id}/spread`), /Price/)
  t.equal((await technician.get(`/builds/${build.id}/spread?how=p80`)).statusCode, 404)
  t.equal((await technician.api.get(`/api/builds/${build.id}/spread`)).json().price, null)
})

t.test('what if: another rate, something left out, a part twice, a margin wanted, beside the build as it is; nothing is written', async (t) => {
  const shop = await openShop(t)
  const { build, zone, department } = await aBuild(shop)
  const manager = shop.as('manager')
  const box = await manager.api.create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Corner box', quantity: 1 })
  const ring = await manager.api.create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Trim ring', quantity: 0 })
  await manager.api.create('/api/part-uses', { buildId: build.id, parentId: box.id, partId: ring.id, quantity: 2 })
  const plan = { buildId: build.id, departmentId: department.id, reworkAllowance: '0 %' }
  await manager.api.create('/api/operations', { ...plan, partId: box.id, kind: 'mold', run: '3 h' })
  const cut = await manager.api.create('/api/operations', { ...plan, partId: ring.id, kind: 'cut', run: '1 h' })
  t.equal((await manager.api.patch(`/api/operations/${cut.id}`, { state: 'done' }, { 'if-match': String(cut.version) })).statusCode, 200)
  const { costRate, sellRate } = await shop.database.reads.department.findFirstOrThrow({ where: { id: department.id } })
  const before = JSON.stringify([await shop.database.reads.auditEntry.count(), await shop.database.reads.fabricatedPart.findMany(), await shop.database.reads.department.findMany(), await shop.database.reads.partUse.findMany()])
  type Side = Record<'hours' | 'price' | 'cost' | 'margin' | 'marginShare' | 'markup', number>
  const ask = async (query: string) => (await manager.api.get(`/api/builds/${build.id}/what-if?${query}`)).json() as { asItIs: Side, whatIf: Side, target: { price: number, markup: number } | null }
  const [boxNumber, ringNumber] = [`P-${String(box.number)}`, `P-${String(ring.number)}`]

  t.match((await ask('')).whatIf, { hours: 5 * 3600, price: 5 * sellRate, cost: 5 * costRate, margin: 5 * (sellRate - costRate) })
  t.match((await ask(`department=${department.id}&price=120.00`)).whatIf, { hours: 5 * 3600, price: 60_000, cost: 5 * costRate })
  t.match((await ask(`double=${ringNumber}`)).whatIf, { hours: 7 * 3600, price: 7 * sellRate }, 'twice in every assembly it goes into')
  t.match((await ask(`double=${boxNumber}`)).whatIf, { hours: 10 * 3600 }, 'and all that goes into it')
  t.match((await ask(`without=${ringNumber}`)).whatIf, { hours: 3 * 3600, price: 3 * sellRate })
  // The ring is cut already and has no hours left, yet twice as many would take twice the time.
  t.match(await ask(`double=${ringNumber}`), { whatIf: { hours: 7 * 3600, cost: 7 * costRate }, asItIs: { cost: 5 * costRate } })
  const left = await ask(`without=${boxNumber}&without=${ringNumber}`)
  t.match(left, { whatIf: { hours: 0, price: 0, marginShare: null, markup: null }, asItIs: { hours: 5 * 3600 } })

  // A markup of 100 % is a margin of 50 %, and of 50 % one of 33.3 %: arithmetic.
  t.match((await ask('margin=50')).target, { price: 2 * 5 * costRate, markup: 1000 })
  t.match((await ask('margin=33.3%20%25')).target, { markup: 499 })
  const page = words(await manager.page(`/builds/${build.id}/what-if?double=${ringNumber}&margin=50`))
  t.match(page, /Hours, with rework 5\.0 h 7\.0 h 2\.0 h/)
  t.match(page, /a markup of 100 % on the cost/)
  t.match(words(await manager.page(`/builds/${build.id}/what-if?how=hw&double=${ringNumber}`)), /Wood room estimate 7\.0 h/)
  const refused = await manager.get(`/builds/${build.id}/what-if?margin=100&price=12%2C5&double=${ringNumber}`)
  t.equal(refused.statusCode, 422)
  t.match(words(refused.body), /A margin is a share of the price, so it is less than 100 %/)
  t.match(refused.body, /value="12,5"/, 'nothing typed is lost')
  t.equal((await manager.api.get(`/api/builds/${build.id}/what-if?without=P-9999`)).statusCode, 422)
  t.equal((await shop.as('technician').get(`/builds/${build.id}/what-if`)).statusCode, 403)
  t.equal(JSON.stringify([await shop.database.reads.auditEntry.count(), await shop.database.reads.fabricatedPart.findMany(), await shop.database.reads.department.findMany(), await shop.database.reads.partUse.findMany()]), before)
})

t.test('the shop’s own setting of how far things go wrong together is what the page begins with', async (t) => {
  const shop = await openShop(t)
  const { build } = await aBuild(shop)
  await shop.database.write((write) => write.shop.updateMany({ data: { goWrongTogether: 120 } }))
  t.equal((await shop.as('manager').api.get(`/api/builds/${build.id}/spread`)).json().together, 120)
})
