import t from 'tap'
import { randomUUID } from 'node:crypto'
import { aBuild } from '../support/aBuild.ts'
import { aDelivered } from '../support/aDelivered.ts'
import { history } from '../support/aBench.ts'
import { openShop, type Answer, type Json } from '../support/shop.ts'

interface Costing { readonly labor: Json, readonly operations: { id: string }[] }
const words = (page: string): string => page.replaceAll(/<[^>]+>/g, ' ').replaceAll(/\s+/g, ' ')

t.test('a service visit is to a delivered vehicle, and not before it was delivered', async (t) => {
  const shop = await openShop(t)
  const { api } = shop.as('technician')
  const open = await aBuild(shop, 'Not yet delivered')
  const early = await api.post('/api/service-visits', { buildId: open.build.id, cameOn: '2026-05-04', complaint: 'Rattle' })
  t.equal(early.statusCode, 422)
  t.match(early.json<Json>(), { fields: [{ field: 'cameOn', message: /B-0001 has no date of delivery yet/ }] })
  const { visit, build } = await aDelivered(shop)
  const refused = async (more: Json): Promise<string> => (await api.post('/api/service-visits', { buildId: build.id, cameOn: '2026-05-04', complaint: 'Rattle', ...more })).body
  t.match(await refused({ cameOn: '2026-03-30' }), /delivered on Tue 31 Mar 2026/)
  t.match(await refused({ leftOn: '2026-05-03' }), /cannot leave before/)
  t.match(await refused({ cause: 'the weather' }), /Cause is one of/)
  t.equal((await visit()).number, 1)
  t.equal((await visit({ cameOn: '2026-03-31' })).number, 2, 'the day of delivery will do')
})

t.test('hours of a visit are logged like any others and stand in no figure of the build', async (t) => {
  const shop = await openShop(t, { clock: () => new Date('2026-05-05T15:00:00Z') })
  const { build, department, panel, visit, built } = await aDelivered(shop)
  const manager = shop.as('manager')
  const technician = shop.as('technician')
  const costing = async (): Promise<Costing> => (await manager.api.get(`/api/builds/${build.id}/costing`)).json()
  await technician.api.post('/api/time-entries', { operationId: built.id, date: '2026-03-30', time: '1 h', kind: 'work' })
  const before = await costing()
  const estimate = (await manager.api.get(`/api/builds/${build.id}/estimate`)).body
  const { id } = await visit({ paidBy: 'shop warranty', cause: 'workmanship' })
  const plan = { buildId: build.id, factoryPartId: panel.id, kind: 'check', work: 'find the rattle', departmentId: department.id, run: '1 h' }
  const stray = await manager.api.post('/api/operations', plan)
  t.equal(stray.statusCode, 422, 'without a visit its hours would be the build’s')
  t.match(stray.body, /belongs to a service visit/)
  const work = await manager.api.create('/api/operations', { ...plan, visitId: id })
  t.equal((await technician.api.post('/api/operations', { ...plan, visitId: id })).statusCode, 422, 'a manager plans')

  t.match(words(await technician.page('/now')), /F-011 Door panel Op 10, check, find the rattle 1\.0 h · B-0001 Four speakers and an amplifier, service visit W-001/, 'it is offered to the bench though the build is delivered')
  t.equal((await technician.post('/timers', { operationId: work.id, kind: 'work' })).statusCode, 303)
  t.match(words(await technician.page('/now')), /service visit W-001/)
  t.equal((await technician.api.post('/api/timer-stops', {})).statusCode, 200)
  for (const [kind, time, why] of [['work', '0:50', ''], ['rework', '0:40', 'clip broke'], ['waiting', '0:30', 'glue']] as const) {
    const logged = await technician.api.post('/api/time-entries', { operationId: work.id, date: '2026-05-05', time, kind, why })
    t.equal(logged.statusCode, 201, logged.body)
  }
  t.same(await costing(), before, 'the costing ended with delivery')
  t.equal((await manager.api.get(`/api/builds/${build.id}/estimate`)).body, estimate)

  // By hand: 50 + 40 min are hours, 30 min more cost: 2 h at 38.00 an hour.
  const page = words(await manager.page(`/service-visits/${id}`))
  t.match(page, /Hours after delivery 1\.5 h/)
  t.match(page, /What they cost the shop 76\.00 USD/)
  t.match(page, /Not billed: the shop stands for it\./)
  t.notMatch(words(await technician.page(`/service-visits/${id}`)), /USD|What they cost/, 'a technician sees no cost')
  t.match(words(await manager.page(`/builds/${build.id}`)), /After delivery 1\.5 h/)
  t.match(words(await manager.page(`/builds/${build.id}/estimate`)), /After delivery, not in the build 1\.5 h .*Cost after delivery 76\.00 USD/s)
  t.notMatch(words(await technician.page(`/builds/${build.id}/estimate`)), /Cost after delivery/)

  const held = await manager.api.post(`/api/service-visits/${id}/removal`)
  t.match(held.json<Json>(), { status: 422, detail: /Recorded on this visit: 1 operation/ })
  const version = (await manager.api.get(`/api/service-visits/${id}`)).headers.etag as string
  t.equal((await manager.api.patch(`/api/service-visits/${id}`, { paidBy: 'customer', leftOn: '2026-05-06' }, { 'if-match': version })).statusCode, 200)
  t.match(words(await manager.page(`/service-visits/${id}`)), /The customer pays: bill these hours\./)
  t.notMatch(words(await technician.page('/now')), /W-001/, 'gone, it is no longer offered')
})

t.test('a unit is swapped: the line carries the new number, both stay visible, and it can be taken back', async (t) => {
  const shop = await openShop(t)
  const { build, speakers, amplifier, visit } = await aDelivered(shop)
  const { id: visitId } = await visit()
  const technician = shop.as('technician')
  const swap = { buildId: build.id, visitId, lineId: speakers.id, oldSerial: 'M-31', newSerial: 'M-90', swappedOn: '2026-05-05', note: 'sent to the maker' }
  const post = (more: Json = {}): Promise<Answer> => technician.api.post('/api/serial-swaps', { ...swap, ...more })
  const serials = async (id = speakers.id): Promise<string> => (await shop.database.reads.equipmentLine.findUniqueOrThrow({ where: { id } })).serialNumbers
  t.match((await post({ oldSerial: 'M-33' })).json<Json>(), { status: 422, detail: /M-33 does not stand on E-02 Averne M 165 now\. There stand: M-31, M-32\./ })
  t.match((await post({ newSerial: 'M-32' })).body, /stands on E-02 Averne M 165 already/)
  t.match((await post({ newSerial: 'M-90, M-91' })).body, /One number for one/)
  t.match((await post({ swappedOn: '2026-05-03' })).body, /nothing was swapped before that/)
  t.match((await post({ warrantyUntil: '2026-05-01' })).body, /ends before it was fitted/)
  const bare = await shop.as('manager').api.create('/api/equipment-lines', { buildId: build.id, zoneId: String((await shop.database.reads.zone.findFirstOrThrow({})).id), name: 'Interface', quantity: 1 })
  t.match((await post({ lineId: bare.id })).body, /No serial number is recorded for E-03 Interface/)
  t.equal(await serials(), 'M-31\nM-32', 'refusals change nothing')

  const both = await Promise.all([post(), post({ newSerial: 'M-91' })])
  t.same(both.map(({ statusCode }) => statusCode).toSorted(), [201, 422], 'two at once: one holds')
  const done = both.find(({ statusCode }) => statusCode === 201)!.json<{ id: string, newSerial: string }>()
  t.equal(await serials(), `${done.newSerial}\nM-32`)
  t.match(both.find(({ statusCode }) => statusCode === 422)!.body, /does not stand on E-02/)
  const changes = (await history(shop, speakers.id)).map(({ action, personName }) => `${action} ${personName}`)
  t.same(changes, ['created Test manager', 'changed Test technician'])

  const page = words(await technician.page(`/service-visits/${visitId}`))
  t.match(page, new RegExp(`E-02 Averne M 165 M-31 ${done.newSerial} Tue 5 May 2026 .*sent to the maker`))
  for (const find of ['M-31', done.newSerial]) {
    t.match(words(await technician.page(`/search?find=${find}`)), new RegExp(`M-31 → ${done.newSerial}`), 'either number leads there')
  }

  const second = (await post({ oldSerial: done.newSerial, newSerial: 'M-95', swappedOn: '2026-05-06' })).json<{ id: string }>()
  const act = (id: string, what: string): Promise<Answer> => technician.api.post(`/api/serial-swaps/${id}/${what}`)
  t.match((await act(done.id, 'removal')).json<Json>(), { status: 422, detail: /no longer stands on E-02.*Take the later swap back first/ })
  t.equal(await serials(), 'M-95\nM-32')
  t.equal((await act(second.id, 'removal')).statusCode, 200)
  t.equal((await act(done.id, 'removal')).statusCode, 200)
  t.equal(await serials(), 'M-31\nM-32', 'taken back in turn, the first number stands again')
  t.equal((await act(second.id, 'recovery')).statusCode, 422)
  t.equal((await act(done.id, 'recovery')).statusCode, 200)
  t.equal(await serials(), `${done.newSerial}\nM-32`)
  t.equal(await serials(amplifier.id), 'A4-0127')
})

t.test('a form of the line that was open during a swap shows both versions and loses neither', async (t) => {
  const shop = await openShop(t)
  const { build, amplifier, visit } = await aDelivered(shop)
  const { id: visitId } = await visit()
  const technician = shop.as('technician')
  const answer = await technician.post('/serial-swaps', { buildId: build.id, visitId, lineId: amplifier.id, oldSerial: 'A4-0127', newSerial: 'A4-0388', swappedOn: '2026-05-05', _key: randomUUID() })
  t.equal(answer.statusCode, 303)
  const late = await technician.api.patch(`/api/equipment-lines/${amplifier.id}`, { serialNumbers: 'A4-0127' }, { 'if-match': '"1"' })
  t.equal(late.statusCode, 412)
  const bad = await technician.post('/serial-swaps', { buildId: build.id, visitId, lineId: amplifier.id, oldSerial: 'A4-0127', newSerial: 'A4-0400', swappedOn: '2026-05-05' })
  t.equal(bad.statusCode, 422)
  t.match(bad.body, /There stand: A4-0388/)
  t.match(bad.body, /value="A4-0400"/, 'what was typed stays')
})

t.test('a claim outside the warranty is warned of, not refused; what it brought is for managers', async (t) => {
  const shop = await openShop(t)
  const { build, amplifier, speakers, visit } = await aDelivered(shop)
  const { id: visitId } = await visit()
  const delivery = shop.as('delivery')
  const manager = shop.as('manager')
  const claim = async (more: Json): Promise<string> => (await delivery.api.create('/api/maker-claims', { buildId: build.id, visitId, lineId: amplifier.id, claimedOn: '2026-09-30', reference: 'RMA 4471', ...more })).id
  // Delivered 31 Mar 2026, six months: the last day is 30 Sep 2026.
  const inside = await claim({})
  const outside = await claim({ claimedOn: '2026-10-01', reference: 'RMA 4472' })
  const unknown = await claim({ lineId: speakers.id, claimedOn: '2030-01-01', reference: 'RMA 4473' })
  t.notMatch(await manager.page(`/maker-claims/${inside}`), /Outside the warranty/)
  t.match(words(await manager.page(`/maker-claims/${outside}`)), /Outside the warranty: that of E-01 ended Wed 30 Sep 2026 \(delivered 2026-03-31 \+ 6 months\)/)
  t.notMatch(await manager.page(`/maker-claims/${unknown}`), /Outside the warranty/, 'where no warranty is recorded nothing is warned of')
  t.match(words(await manager.page(`/service-visits/${visitId}`)), /RMA 4472/)
  t.equal((await manager.page(`/service-visits/${visitId}`)).match(/Outside the warranty/g)?.length, 1)

  t.equal((await manager.api.patch(`/api/maker-claims/${inside}`, { state: 'settled', amount: '310.00', answeredOn: '2026-10-09' }, { 'if-match': '"1"' })).statusCode, 200)
  t.match((await manager.api.patch(`/api/maker-claims/${inside}`, { answeredOn: '2026-09-01' }, { 'if-match': '"2"' })).body, /cannot be older/)
  t.match((await manager.api.patch(`/api/maker-claims/${outside}`, { answeredOn: '2026-10-09' }, { 'if-match': '"1"' })).body, /accepted, refused or settled/)
  t.match(words(await manager.page(`/service-visits/${visitId}`)), /310\.00 USD/)
  for (const role of ['technician', 'delivery'] as const) {
    t.notMatch(await shop.as(role).page(`/service-visits/${visitId}`), /310\.00/)
    t.notMatch((await shop.as(role).api.get(`/api/maker-claims/${inside}`)).body, /31000/)
  }
  t.equal((await shop.as('technician').api.post('/api/maker-claims', { buildId: build.id, visitId, lineId: amplifier.id, claimedOn: '2026-09-30' })).statusCode, 403)

  const later = await visit({ cameOn: '2027-02-01', complaint: 'Dead again' })
  await shop.as('technician').api.create('/api/serial-swaps', { buildId: build.id, visitId, lineId: amplifier.id, oldSerial: 'A4-0127', newSerial: 'A4-0388', swappedOn: '2026-05-05', warrantyUntil: '2027-05-05' })
  const replaced = await claim({ visitId: later.id, claimedOn: '2027-02-02', reference: 'RMA 4480' })
  t.notMatch(await manager.page(`/maker-claims/${replaced}`), /Outside the warranty/, 'the replacement’s own date holds')
})

t.test('as-built record, sheet and ledger follow what a visit changed', async (t) => {
  let now = new Date('2026-03-31T15:00:00Z')
  const shop = await openShop(t, { clock: () => now })
  const { build, zone, amplifier, panel, visit } = await aDelivered(shop)
  const technician = shop.as('technician')
  const read = async (path: string): Promise<string> => words(await technician.page(`/builds/${build.id}${path}`))
  t.match(await read('/as-built'), /As delivered on Tue 31 Mar 2026; nothing was changed since\./)
  t.match(await read('/return-to-stock'), /Document status no change since delivery/, 'what was entered on the day of delivery is as delivered')
  t.match(await read(''), /Since delivery no change since delivery/)

  now = new Date('2026-05-05T15:00:00Z')
  const { id: visitId } = await visit({ cause: 'equipment' })
  await technician.api.create('/api/serial-swaps', { buildId: build.id, visitId, lineId: amplifier.id, oldSerial: 'A4-0127', newSerial: 'A4-0388', swappedOn: '2026-05-05', warrantyUntil: '2027-05-05', note: 'sent to the maker' })
  const bin = await technician.api.create('/api/bins', { buildId: build.id, place: 'Rack D' })
  await technician.api.create('/api/removals', { buildId: build.id, factoryPartId: panel.id, kind: 'came out', binId: bin.id })
  now = new Date('2026-05-06T15:00:00Z')
  // Nobody stays signed in for a month.
  await shop.database.write((write) => write.session.updateMany({ data: { seenAt: now, expiresAt: new Date('2026-05-07T15:00:00Z') } }))
  await technician.api.create('/api/alterations', { buildId: build.id, zoneId: zone.id, kind: 'drilled', what: 'one hole 4 mm', consentBy: 'Imre', reversal: 'plug' })
  await technician.api.create('/api/fasteners', { buildId: build.id, factoryPartId: panel.id, kind: 'clip', count: 7 })

  const record = await read('/as-built')
  t.match(record, /As delivered on Tue 31 Mar 2026; last changed on Wed 6 May 2026\./)
  t.match(record, /E-01 Averne A 4 1 Front doors A4-0388 before: A4-0127 until Tue 5 May 2026, then A4-0388 \(W-001\); old unit: sent to the maker/)
  t.match(record, /Wed 30 Sep 2026 \(delivered 2026-03-31 \+ 6 months\) A4-0388: Wed 5 May 2027 \(the replacement’s own date\)/)
  t.match(record, /E-02 2 × Averne M 165 1 Front doors M-31, M-32 not recorded in the catalog/)
  t.match(record, /P-101 2 × Speaker ring/)
  t.match(record, /X-001 drilled: one hole 4 mm 1 Front doors Imre plug/)
  t.match(record, /F-011 Door panel out and stored bin A-001, Rack D/)
  t.match(record, /W-001 Channel 3 is dead Mon 4 May 2026 still here equipment shop warranty/)
  t.match(record, /7 × clip, F-011 Door panel created/)

  const sheet = await read('/return-to-stock')
  // The line's number, the bin, the panel, the alteration and the clips.
  t.match(sheet, /Document status as of 2026-05-06, 5 changes since delivery/)
  t.match(sheet, /A-001, Rack D/)
  t.match(sheet, /one hole 4 mm/)
  t.match(sheet, /7 × clip/)
  t.match(await read(''), /Since delivery as of 2026-05-06, 5 changes since delivery .*E-01 Averne A 4 changed: serial numbers Test technician/)
  t.equal((await technician.get(`/builds/${randomUUID()}/as-built`)).statusCode, 404)
})
