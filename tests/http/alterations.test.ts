import t from 'tap'
import { aDoor, type ADoor } from '../support/aDoor.ts'
import { phonePicture, sendPhotos } from '../support/pictures.ts'
import { openShop, type Json, type TestShop } from '../support/shop.ts'

const wordsOf = (html: string): string => html.replaceAll(/<[^>]+>/g, ' ').replaceAll(/\s+/g, ' ')

/** Holes without consent or photo, and a cut panel with both; the holes need a body shop. */
async function alter(shop: TestShop, door: ADoor): Promise<{ holes: Json & { id: string, version: number }, cut: Json & { id: string } }> {
  const { create } = shop.as('manager').api
  const ofDoor = { buildId: door.build.id, zoneId: door.zone.id }
  const holes = await create('/api/alterations', {
    ...ofDoor, kind: 'drilled', what: 'four holes 6 mm', isReversible: true, reversal: 'Rivet nuts out\nWeld shut', reverse: '1 h', partToBuy: 'body plug', partCost: '7.40', leadDays: 2,
    outsideWork: 'blend the paint', outsideCost: '120.00', outsideDays: 5,
  })
  const cut = await create('/api/alterations', {
    ...ofDoor, factoryPartId: door.panel.id, kind: 'cut', what: 'opening 40 mm', whereAt: 'behind the pocket', why: 'for the plug', consentBy: 'Imre Dall', consentOn: '2031-03-01', isReversible: true, reversal: 'glue the piece in',
  })
  await sendPhotos(shop, shop.as('technician'), { subjectKind: 'alteration', subjectId: cut.id }, [{ name: 'cut.jpg', data: await phonePicture() }])
  return { holes, cut }
}

t.test('an alteration without consent or photo stands out from the first day: in the ledger, on the list of builds, on its own page', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  const { holes } = await alter(shop, door)
  const technician = shop.as('technician')
  await shop.as('manager').api.create('/api/factory-parts', { buildId: door.build.id, zoneId: door.zone.id, name: 'Grille', state: 'out and stored' })
  const ledger = wordsOf(await technician.page(`/builds/${door.build.id}`))
  t.match(ledger, /1\.a\s+Alteration X-001 , four holes 6 mm: nobody’s consent is recorded\./)
  t.match(ledger, /1\.b\s+Alteration X-001 , four holes 6 mm: no photo shows it\./)
  t.match(ledger, /1\.c\s+F-014 Grille is out, and where it lies is not recorded\./)
  t.match(wordsOf(await technician.page('/builds')), /1 alteration without consent, 1 alteration without a photo, 1 part without a place/)
  const page = wordsOf(await technician.page(`/builds/${door.build.id}/alterations`))
  t.match(page, /X-001 four holes 6 mm Missing: nobody’s consent, photo, where exactly, why/)
  t.match(page, /X-002 opening 40 mm Kind cut Where 1 Front doors, behind the pocket Factory part F-012 Door panel Why for the plug Consent Imre Dall, 1 Mar 2031|X-002 opening 40 mm.*Consent Imre Dall/)
  t.notMatch(page, /X-002 opening 40 mm Missing/)
  t.match(page, /1 factory part is out without a place F-014 Grille/)
  t.match(page, /Something missing 1 of 2/)
  const answer = (await technician.api.get(`/api/builds/${door.build.id}/unsettled`)).json() as { alterations: { number: string, missing: string[], photoIds: string[] }[], partsWithoutPlace: Json[] }
  t.same(answer.alterations.map(({ number, missing, photoIds }) => [number, missing.length, photoIds.length]), [['X-001', 4, 0], ['X-002', 0, 1]])
  t.match(wordsOf(await technician.page(`/builds/${door.build.id}/restoration?scope=all`)), /X-001 four holes 6 mm, Front doors: no photo shows it/)

  const mended = await technician.api.patch(`/api/alterations/${holes.id}`, { consentBy: 'Imre Dall', consentOn: '2031-03-02', whereAt: 'sill', why: 'bracket' }, { 'if-match': String(holes.version) })
  t.equal(mended.statusCode, 200, mended.body)
  await sendPhotos(shop, technician, { subjectKind: 'alteration', subjectId: holes.id }, [{ name: 'holes.jpg', data: await phonePicture(90) }])
  t.notMatch(await technician.page(`/builds/${door.build.id}/alterations`), /Missing:/)
  t.notMatch(wordsOf(await technician.page('/builds')), /without consent|without a photo/)
  t.equal((await technician.get('/builds/01a067d1-d540-7000-8000-000000000438/alterations')).statusCode, 404)
})

t.test('the way back counts outside work in price and wait, its steps are numbered on the sheet, and a technician sees no price of it', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  await shop.database.write((write) => write.shop.update({ where: { id: 'shop' }, data: { restoreDepartmentId: door.department.id } }))
  await alter(shop, door)
  const api = `/api/builds/${door.build.id}/restoration?as=recorded`
  const answer = (await shop.as('manager').api.get(api)).json() as { cost: Json, leadDays: number, steps: { text: string }[], reasons: string[] }
  // By hand: 1 h to reverse + 15 min out + 20 min back of the panel and 5 + 5 min of the switch = 1:45 h at 95.00 = 166.25; plug 7.40 and two clips at 1.20 = 9.80; paint 120.00.
  t.same(answer.cost, { labor: 16_625, parts: 980, outside: 12_000, total: 29_605, unpricedCount: 0 })
  t.equal(answer.leadDays, 7, 'two days for the plug, then five at the painter')
  t.match(answer.steps.map(({ text }) => text).join('\n'), /Undo alteration X-001 \(four holes 6 mm\), 1 of 2: Rivet nuts out\.\nUndo X-001, 2 of 2: Weld shut\.\nHave done outside, for alteration X-001: blend the paint; away for 5 working days\./)
  for (const role of ['technician', 'delivery'] as const) {
    const pages = await Promise.all([`/builds/${door.build.id}/alterations`, `/builds/${door.build.id}/restoration?scope=all`, `/builds/${door.build.id}/return-to-stock`].map((path) => shop.as(role).page(path)))
    for (const html of pages) t.notMatch(html, /120\.00|7\.40|296\.05/, `${role} sees no money`)
    t.match(wordsOf(pages[0]!), /Another firm blend the paint, 5 working days/)
    const stored = (await shop.as(role).api.get('/api/alterations')).json() as { items: Json[] }
    t.ok(stored.items.every((row) => !('outsideCost' in row) && !('partCost' in row)))
  }
  t.match(wordsOf(await shop.as('manager').page(`/builds/${door.build.id}/alterations`)), /blend the paint, 120\.00 USD, 5 working days/)
})

t.test('what a reversal takes may be several parts: all are bought, the slowest decides, and the alteration lists them', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  await shop.database.write((write) => write.shop.update({ where: { id: 'shop' }, data: { restoreDepartmentId: door.department.id } }))
  const { holes } = await alter(shop, door)
  const manager = shop.as('manager')
  await manager.api.create('/api/replacement-parts', { buildId: door.build.id, alterationId: holes.id, name: 'rivet nut', count: 4, cost: '0.90', leadDays: 9 })
  const answer = (await manager.api.get(`/api/builds/${door.build.id}/restoration?as=recorded`)).json() as { cost: Json, leadDays: number }
  t.match(answer.cost, { parts: 980 + 360 }, 'four at 0.90 beside the plug and the clips')
  t.equal(answer.leadDays, 14, 'nine days for the rivet nuts, then five at the painter')
  t.match(wordsOf(await manager.page(`/builds/${door.build.id}/alterations`)), /Parts to buy body plug, 7\.40 USD, 2 working days 4 × rivet nut, 0\.90 USD each, 9 working days/)
  t.match(wordsOf(await shop.as('technician').page(`/builds/${door.build.id}/alterations`)), /body plug, 2 working days 4 × rivet nut, 9 working days/)
  t.match(wordsOf(await manager.page(`/alterations/${holes.id}`)), /4 × rivet nut/)
  t.match(wordsOf(await manager.page(`/builds/${door.build.id}/return-to-stock`)), /rivet nut/)
})

t.test('a date of consent without a name, and outside cost without what is done, are refused beside their fields', async t => {
  const shop = await openShop(t)
  const door = await aDoor(shop)
  const send = (form: Record<string, string>) => shop.as('manager').post('/alterations', { buildId: door.build.id, zoneId: door.zone.id, kind: 'cut', what: 'slot', isReversible: 'true', reversal: 'patch', leadDays: '0', outsideDays: '0', ...form })
  const dated = await send({ consentOn: '2031-03-01' })
  t.equal(dated.statusCode, 422)
  t.match(dated.body, /Whose consent was that\?/)
  t.match(dated.body, /value="2031-03-01"/)
  const priced = await send({ outsideCost: '20.00' })
  t.equal(priced.statusCode, 422)
  t.match(priced.body, /Say what the other firm has to do/)
  t.equal((await send({ outsideWork: 'weld', outsideCost: '20.00', outsideDays: '1' })).statusCode, 303)
})
