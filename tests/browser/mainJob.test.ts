import t, { type Test } from 'tap'
import { execFileSync } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { hashPassword } from '../../server/people/passwords.ts'
import { accessibilityFaults } from '../support/axe.ts'
import { browserMissing, DESK, launch, openWindow, PHONE, signInAs, type Screen } from '../support/browser.ts'
import { openShop } from '../support/shop.ts'

const PASSWORD = 'grain along the sheet'
const missing = browserMissing()

// The main job as its three people do it: the manager at a desk or on a phone enters a build, the
// technician logs hours, whoever delivers prints the sheet. Nothing is called that a person could not press.
for (const [width, screen] of [['desk', DESK], ['phone', PHONE]] as const) {
  t.test(`a build is entered, worked on and its way back printed, on a ${width}`, { skip: missing ?? false, timeout: 170_000 }, (test) => walk(test, screen))
}

async function walk(test: Test, screen: Screen): Promise<void> {
  const shop = await openShop(test)
  await shop.database.write(async (write) => {
    const passwordHash = await hashPassword(PASSWORD)
    await write.person.updateMany({ data: { passwordHash } })
  })
  const address = await shop.app.listen({ host: '127.0.0.1', port: 0 })
  const browser = await launch()
  test.teardown(() => browser.close())
  const window = await openWindow(browser, screen, true)
  const page = await window.newPage()
  const problems: string[] = []
  page.on('console', (message) => {
    // A form to mend answers 422, which the browser reports as a failed load.
    if (message.type() === 'error' && !message.text().includes('422')) problems.push(message.text())
  })

  await signInAs(page, address, 'test.manager', PASSWORD)
  const build = await enterBuild(test, page, address)
  await readFigures(test, page, address, build)
  await importList(test, page, address)
  await signOut(page)

  await signInAs(page, address, 'test.technician', PASSWORD)
  await logHours(test, page, address, build)
  await signOut(page)

  await signInAs(page, address, 'test.delivery', PASSWORD)
  await printSheet(test, page, address, build)
  test.same(problems, [], 'the browser reports no errors')
}

async function importList(test: Test, page: Page, address: string): Promise<void> {
  await page.goto(`${address}/catalog`)
  await page.getByRole('link', { name: 'Import a list' }).click()
  const buffer = Buffer.from('Kind;Brand;Model;Cost;Price;shelf\nspeaker;Ostwen;Fenn 80;88,00;129;C1\nspeaker;Ostwen;Fenn 25;74;109;C2\n')
  await page.getByLabel('File').setInputFiles({ name: 'list.csv', mimeType: 'text/csv', buffer })
  await page.getByRole('button', { name: 'Read without writing' }).click()
  await page.getByText(/"88,00" is unclear/).waitFor()
  test.same(await accessibilityFaults(page), [], 'the dry run is accessible')
  await noSidewaysScroll(test, page)
  const text = page.getByLabel(/The file as it was read/)
  await text.fill((await text.inputValue()).replace('88,00', '88.00'))
  await page.getByRole('button', { name: 'Read the corrected text' }).click()
  await page.getByLabel('Column F is read as').selectOption({ label: 'Note' })
  await page.getByRole('button', { name: 'Read again with these columns' }).click()
  await page.getByRole('button', { name: 'Import: create 2, change 0' }).click()
  await page.getByText('equipment catalog: 2 created').waitFor()
  await page.goto(`${address}/catalog`)
  test.equal(await page.getByRole('link', { name: /Ostwen Fenn/ }).count(), 2, 'what was imported is listed')
}

interface Entered {
  readonly buildId: string
}

async function add(page: Page, url: string, entries: Readonly<Record<string, string>>, chosen: Readonly<Record<string, string>> = {}): Promise<string> {
  await page.goto(url)
  for (const [name, text] of Object.entries(entries)) await page.locator(`[name="${name}"]`).fill(text)
  for (const [name, label] of Object.entries(chosen)) await page.locator(`select[name="${name}"]`).selectOption({ label })
  await page.locator('form[data-keep] button[type=submit]').click()
  await page.waitForURL(/saved=created/)
  return new URL(page.url()).pathname.split('/').at(-1) ?? ''
}

async function enterBuild(test: Test, page: Page, address: string): Promise<Entered> {
  await add(page, `${address}/departments/new`, { name: 'Wood room', costRate: '38', sellRate: '95' })
  await add(page, `${address}/customers/new`, { name: 'Saltmarsh Ferry Café', phone: '555-0171' })

  await page.goto(`${address}/vehicles/new`)
  await page.locator('select[name=customerId]').selectOption({ index: 1 })
  await page.locator('[name=make]').fill('Corvane')
  await page.locator('[name=model]').fill('Tern')
  await page.locator('[name=vin]').fill('1M8GDM9A1KP042788')
  await page.locator('form[data-keep] button[type=submit]').click()
  await page.getByRole('alert').waitFor()
  const said = await page.getByRole('alert').innerText()
  test.match(said, /Position 9 should be X/, 'a mistyped VIN names the position')
  test.match(said, /Body is needed/, 'and all that is wrong is said at once')
  test.equal(await page.locator('[name=model]').inputValue(), 'Tern', 'nothing typed is lost')
  test.same(await accessibilityFaults(page), [], 'the form with an error is accessible')
  await page.locator('[name=vin]').fill('1M8GDM9AXKP042788')
  await page.locator('select[name=body]').selectOption('hatchback')
  await page.locator('form[data-keep] button[type=submit]').click()
  await page.waitForURL(/saved=created/)

  const buildId = await add(page, `${address}/builds/new`, { title: 'Two-way front' }, { kind: 'build', vehicleId: 'V-001 Corvane Tern' })
  const of = `?build=${buildId}`
  await add(page, `${address}/zones/new${of}`, { name: 'Front doors' }, { place: 'front doors' })
  const zoneId = new URL(page.url()).pathname.split('/').at(-1) ?? ''
  const inZone = `${of}&zoneId=${zoneId}`
  await add(page, `${address}/bins/new${of}`, { place: 'rack C, shelf 2' })
  const panelId = await add(page, `${address}/factory-parts/new${inZone}`, { name: 'Door panel left', takeOut: '20 min', putBack: '25 min' })
  const grilleId = await add(page, `${address}/factory-parts/new${inZone}`, { name: 'Speaker grille', takeOut: '5 min', putBack: '5 min' })
  await add(page, `${address}/fasteners/new${of}&factoryPartId=${panelId}`, { count: '4', size: 'M6 × 20', torque: '80 lbf·in', torqueSource: 'maker’s manual, page 31' }, { kind: 'bolt' })
  await add(page, `${address}/fasteners/new${of}&factoryPartId=${panelId}`, { count: '9', breakShare: '20 %' }, { kind: 'clip' })
  await page.goto(`${address}/order-edges/new${of}&beforeId=${grilleId}&afterId=${panelId}`)
  await page.locator('form[data-keep] button[type=submit]').click()
  await page.waitForURL(/saved=created/)
  await add(page, `${address}/equipment-lines/new${inZone}`, { name: 'Midbass 165 mm', quantity: '2', cost: '60', price: '95' })
  await add(page, `${address}/materials/new`, { name: 'MDF 18 mm', packName: 'sheet 2440 × 1220', packSize: '2.98 m²', packCost: '48', packPrice: '72' }, { form: 'area' })
  const partId = await add(page, `${address}/parts/new${inZone}`, { name: 'Speaker ring', quantity: '2' })
  await add(page, `${address}/operations/new${of}&partId=${partId}`, { setUp: '0.5 h', run: '15 min' }, { kind: 'cut', departmentId: 'Wood room' })
  await page.goto(`${address}/material-needs/new${of}&partId=${partId}`)
  await page.locator('select[name=materialId]').selectOption({ index: 1 })
  await page.locator('[name=quantity]').fill('0.09 m²')
  await page.locator('form[data-keep] button[type=submit]').click()
  await page.waitForURL(/saved=created/)
  return { buildId }
}

async function readFigures(test: Test, page: Page, address: string, { buildId }: Entered): Promise<void> {
  await page.goto(`${address}/builds/${buildId}`)
  const ledger = await page.locator('main').innerText()
  for (const expected of ['Two-way front', 'Door panel left', 'Midbass 165 mm', 'Speaker ring']) test.match(ledger.toLowerCase(), expected.toLowerCase())
  // Set-up 0.5 h and two pieces of 0.25 h.
  test.match(ledger, /1\.0/, 'the estimate is an hour')
  test.same(await accessibilityFaults(page), [], 'the ledger is accessible')
  await noSidewaysScroll(test, page)
  await page.goto(`${address}/builds/${buildId}/materials`)
  const bill = await page.locator('main').innerText()
  test.match(bill, /MDF 18 mm/)
  test.match(bill, /Midbass 165 mm/)
  test.same(await accessibilityFaults(page), [], 'the bill of materials is accessible')
  for (const address_ of ['estimate', 'removal', 'restoration']) {
    await page.goto(`${address}/builds/${buildId}/${address_}`)
    test.same(await accessibilityFaults(page), [], `${address_} is accessible`)
    await noSidewaysScroll(test, page)
  }
}

async function logHours(test: Test, page: Page, address: string, { buildId }: Entered): Promise<void> {
  await page.goto(`${address}/now`)
  await page.getByRole('button', { name: /start|switch/i }).first().click()
  await page.getByRole('button', { name: /stop/i }).waitFor()
  test.same(await accessibilityFaults(page), [], 'the page of what is running is accessible')
  await smallTargets(test, page)
  await page.getByRole('button', { name: /stop/i }).click()
  await page.waitForURL(/\/now/)
  await page.goto(`${address}/builds/${buildId}`)
  const seen = await page.content()
  test.notMatch(seen, /[\s>&;]USD/, 'a technician sees no money')
}

async function printSheet(test: Test, page: Page, address: string, { buildId }: Entered): Promise<void> {
  await page.goto(`${address}/builds/${buildId}/return-to-stock`)
  test.same(await accessibilityFaults(page), [], 'the sheet is accessible')
  for (const format of ['A4', 'Letter'] as const) {
    const file = join(test.testdir(), `sheet-${format}.pdf`)
    writeFileSync(file, await page.pdf({ format, preferCSSPageSize: false }))
    const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' })
    for (const expected of [/RETURN-TO-STOCK SHEET/i, /C1/, /Door panel left/, /9\.0|9 N·m|9\.04/, /sheet 1 of \d/i]) test.match(text, expected, `${format}: ${String(expected)}`)
    test.ok(text.indexOf('C1') < text.indexOf('Door panel left'), `${format}: cautions come before the first step`)
  }
}

async function signOut(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Sign out' }).first().click()
  await page.waitForURL(/sign-in/)
}

async function noSidewaysScroll(test: Test, page: Page): Promise<void> {
  const over = await page.evaluate<number>('document.documentElement.scrollWidth - document.documentElement.clientWidth')
  test.equal(over, 0, `${new URL(page.url()).pathname.replace(/[0-9a-f-]{36}/, 'ID')} does not scroll sideways`)
}

async function smallTargets(test: Test, page: Page): Promise<void> {
  const buttons = await page.locator('main button').all()
  const boxes = await Promise.all(buttons.map(async (button) => ({ text: await button.innerText(), box: await button.boundingBox() })))
  const small = boxes.filter(({ box }) => box !== null && box.height < 44).map(({ text }) => text)
  test.same(small, [], 'gloves hit every button')
}
