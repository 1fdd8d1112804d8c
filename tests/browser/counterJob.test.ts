import t, { type Test } from 'tap'
import type { Page } from 'playwright-core'
import { hashPassword } from '../../server/people/passwords.ts'
import { accessibilityFaults } from '../support/axe.ts'
import { browserMissing, DESK, launch, openWindow, PHONE, signInAs } from '../support/browser.ts'
import { openShop, type TestShop } from '../support/shop.ts'

const PASSWORD = 'grain along the sheet'
const missing = browserMissing()

// Keystroke-level model of Card, Moran and Newell (Communications of the ACM, July 1980), from memory: an average
// typist takes 0.28 s a key, a thought before each entry 1.35 s, pointing 1.1 s, and between keys and mouse 0.4 s.
const KEY_S = 0.28
const THOUGHT_S = 1.35
const POINT_S = 1.1 + 0.4

async function openCounter(test: Test): Promise<{ shop: TestShop, address: string }> {
  const shop = await openShop(test)
  const passwordHash = await hashPassword(PASSWORD)
  await shop.database.write((write) => write.person.updateMany({ data: { passwordHash } }))
  const { create } = shop.as('manager').api
  const department = await create('/api/departments', { name: 'Fitting', costRate: '40', sellRate: '96' })
  const item = await create('/api/catalog', { kind: 'speaker', maker: 'Ostwen', model: 'Lode 165', cost: '61', price: '92' })
  await create('/api/standard-fittings', { name: 'Rear camera', place: 'outside', departmentId: department.id, setUp: '45 min', run: '1.5 h' })
  await create('/api/standard-fittings', { name: 'Speaker in a front door', place: 'front doors', departmentId: department.id, setUp: '30 min', run: '45 min', itemId: item.id })
  return { shop, address: await shop.app.listen({ host: '127.0.0.1', port: 0 }) }
}

/** Types as a person at the keys does, and counts the keys. */
function hands(page: Page) {
  let keys = 0
  const press = async (key: string): Promise<void> => {
    keys += 1
    await page.keyboard.press(key)
  }
  return {
    count: () => keys,
    tab: async (times = 1) => { for (let time = 0; time < times; time += 1) await press('Tab') },
    type: async (text: string) => { for (const letter of text) await press(letter) },
    press,
  }
}

t.test('a new customer’s counter job is entered at the keys in less than a minute, and its timer started', { skip: missing ?? false, timeout: 120_000 }, async (test) => {
  const { shop, address } = await openCounter(test)
  const browser = await launch()
  test.teardown(() => browser.close())
  const page = await (await openWindow(browser, DESK, true)).newPage()
  await signInAs(page, address, 'test.manager', PASSWORD)
  await page.goto(`${address}/builds`)
  await page.getByRole('link', { name: 'Counter job' }).click()
  test.same(await accessibilityFaults(page), [], 'the form is accessible')

  const { tab, type, press, count } = hands(page)
  await page.locator('[name=customerName]').focus()
  await type('Lowe')
  await tab()
  await type('555 0190')
  await tab()
  await type('Corvane')
  await tab()
  await type('Tern')
  await tab()
  await type('ha')
  await tab(2)
  await type('sp')
  await tab()
  await type('2')
  await press('Enter')
  await page.waitForURL(/saved=created/)
  const entries = 7
  const seconds = count() * KEY_S + entries * THOUGHT_S + POINT_S
  test.comment(`${count()} keys and ${entries} entries: ${seconds.toFixed(0)} s by the keystroke-level model`)
  test.ok(seconds < 60, 'less than a minute')
  const build = await shop.database.reads.build.findFirstOrThrow({ include: { lines: true, vehicle: { include: { customer: true } } } })
  test.match(build, { title: 'Speaker in a front door × 2', vehicle: { body: 'hatchback', customer: { name: 'Lowe' } }, lines: [{ quantity: 2, name: 'Ostwen Lode 165' }] })
  test.same(await accessibilityFaults(page), [], 'its page is accessible')

  await page.getByRole('link', { name: 'Start the timer' }).click()
  await page.getByRole('button', { name: /start/i }).first().click()
  await page.getByRole('button', { name: /stop/i }).waitFor()
  test.equal(await shop.database.reads.timer.count(), 1)
})

t.test('on a phone, without script, a mistake is shown in the form and nothing typed is lost', { skip: missing ?? false, timeout: 120_000 }, async (test) => {
  const { shop, address } = await openCounter(test)
  const browser = await launch()
  test.teardown(() => browser.close())
  const { width, height } = PHONE
  const window = await browser.newContext({ viewport: { width, height }, isMobile: true, hasTouch: true, javaScriptEnabled: false })
  const page = await window.newPage()
  await signInAs(page, address, 'test.manager', PASSWORD)
  await page.goto(`${address}/counter-jobs/new`)
  await page.locator('[name=customerName]').fill('Osric Vane')
  await page.locator('[name=make]').fill('Corvane')
  await page.locator('[name=body]').selectOption('van')
  await page.locator('[name=fittingId1]').selectOption({ index: 1 })
  await page.getByRole('button', { name: 'Enter counter job' }).click()
  test.match(await page.getByRole('alert').innerText(), /Model is needed/)
  test.equal(await page.locator('[name=customerName]').inputValue(), 'Osric Vane')
  await page.locator('[name=model]').fill('Plover')
  await page.getByRole('button', { name: 'Enter counter job' }).click()
  await page.waitForURL(/saved=created/)
  test.equal(await shop.database.reads.build.count(), 1)

  // The next job of the same vehicle: two entries.
  const { id } = await shop.database.reads.vehicle.findFirstOrThrow({})
  await page.goto(`${address}/vehicles/${id}`)
  await page.getByRole('link', { name: 'Counter job' }).click()
  await page.locator('[name=fittingId1]').selectOption({ index: 2 })
  await page.getByRole('button', { name: 'Enter counter job' }).click()
  await page.waitForURL(/saved=created/)
  test.same([await shop.database.reads.customer.count(), await shop.database.reads.build.count()], [1, 2])
})

t.test('the form and the pages of kit and fit keep to a narrow screen', { skip: missing ?? false, timeout: 120_000 }, async (test) => {
  const { shop, address } = await openCounter(test)
  const { create } = shop.as('manager').api
  const browser = await launch()
  test.teardown(() => browser.close())
  const page = await (await openWindow(browser, { width: 320, height: 640 }, true)).newPage()
  await signInAs(page, address, 'test.manager', PASSWORD)
  const fitting = await shop.database.reads.standardFitting.findFirstOrThrow({ where: { place: 'front doors' } })
  const { buildId } = (await create('/api/counter-jobs', { customerName: 'A', make: 'B', model: 'C', body: 'van', lines: [{ fittingId: fitting.id }] })) as unknown as { buildId: string }
  const zone = await shop.database.reads.zone.findFirstOrThrow({})
  const line = await shop.database.reads.equipmentLine.findFirstOrThrow({})
  const place = await create('/api/mounting-places', { buildId, zoneId: zone.id, name: 'Lower front door', checks: ['mounting depth', 'window drop'], depth: '60 mm' })
  const wire = await create('/api/materials', { name: 'Speaker wire', form: 'length', packName: 'reel', packSize: '50 m', packCost: '68', packPrice: '102' })
  const kit = await create('/api/kits', { name: 'Speaker kit' })
  await create('/api/kit-parts', { kitId: kit.id, materialId: wire.id, quantity: '1.5 m' })
  await shop.as('manager').api.patch(`/api/equipment-lines/${line.id}`, { placeId: place.id, kitId: kit.id }, { 'if-match': '"1"' })
  for (const path of ['/counter-jobs/new', `/builds/${buildId}/fit`, `/equipment-lines/${line.id}`, `/kits/${kit.id}`, '/standard-fittings']) {
    await page.goto(address + path)
    const over = await page.evaluate<number>('document.documentElement.scrollWidth - document.documentElement.clientWidth')
    test.equal(over, 0, `${path.replace(/[0-9a-f-]{36}/, 'ID')} does not scroll sideways`)
    test.same(await accessibilityFaults(page), [], `${path.replace(/[0-9a-f-]{36}/, 'ID')} is accessible`)
  }
})

t.test('what was made and is shown this once is not said to be unsaved', { skip: missing ?? false, timeout: 60_000 }, async (test) => {
  const { address } = await openCounter(test)
  const browser = await launch()
  test.teardown(() => browser.close())
  const page = await (await openWindow(browser, DESK, true)).newPage()
  await signInAs(page, address, 'test.manager', PASSWORD)
  await page.goto(`${address}/calendars`)
  await page.fill('[name=note]', 'Ida’s phone')
  await page.getByRole('button', { name: 'Make an address' }).click()
  await page.getByText('Shown this once').waitFor()
  test.equal(await page.getByText('It is not saved yet').count(), 0)
  test.equal(await page.inputValue('[name=note]'), '')
  await page.goto(`${address}/me`)
  await page.fill('[name=name]', 'Scales')
  await page.getByRole('button', { name: 'Make a token' }).click()
  await page.getByText('Shown this once').waitFor()
  test.equal(await page.getByText('It is not saved yet').count(), 0)
})
