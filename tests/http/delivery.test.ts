import t from 'tap'
import { parse } from 'csv-parse/sync'
import { createHash } from 'node:crypto'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { aDelivered } from '../support/aDelivered.ts'
import { browserMissing, launch } from '../support/browser.ts'
import { needsReader, pagesOfPdf } from '../support/pdfText.ts'
import { phonePicture, sendPhotos } from '../support/pictures.ts'
import { openShop, type Answer, type Form, type Json } from '../support/shop.ts'
import { unzipped } from '../support/unzipped.ts'

const shop = await openShop(t, { clock: () => new Date('2026-05-04T09:00:00Z') })
const { build, zone, vehicle, amplifier, speakers, ring, panel, speaker } = await aDelivered(shop)
const manager = shop.as('manager')
const delivery = shop.as('delivery')
const technician = shop.as('technician')
const page = `/builds/${build.id}/delivery`
const SIGNATURE = 'M10 20L30 40L50 45'
const hidden = (html: string, name: string): string => new RegExp(`name="${name}" value="([^"]*)"`).exec(html)?.[1] ?? ''
const change = async (path: string, json: Json): Promise<void> => {
  const { version } = (await manager.api.get(path)).json<{ version: number }>()
  const answer = await manager.api.patch(path, json, { 'if-match': `"${version}"` })
  if (answer.statusCode !== 200) throw new Error(answer.body)
}
await change(`/api/vehicles/${vehicle.id}`, { vin: '1M8GDM9AXKP042788', plate: 'RVT 7' })
await change(`/api/catalog/${amplifier.itemId}`, { mass: '3.8 kg', current: '48 A', fuse: '50 A' })
await change(`/api/catalog/${speakers.itemId}`, { mass: '1.5 kg' })
await manager.api.create('/api/alterations', { buildId: build.id, zoneId: zone.id, kind: 'drilled', what: 'Hole 12 mm, =SUM(1)', reversal: 'Plug "12", sealed' })
await sendPhotos(shop, technician, { subjectKind: 'factory part', subjectId: String(panel.id), caption: 'Door <before> & "as it was"' }, [{ name: 'door.jpg', data: await phonePicture(90) }])
await sendPhotos(shop, technician, { subjectKind: 'factory part', subjectId: String(speaker.id), caption: 'Four rivets' }, [{ name: 'speaker.jpg', data: await phonePicture(91) }])

const save = async (more: Form): Promise<Answer> => {
  const html = await delivery.page(page)
  return delivery.post(page, { odometer: '', placardLoad: '', careAndUse: '', beforeSale: '', explainedById: '', note: '', _version: hidden(html, '_version'), ...more })
}

t.test('who delivers writes down what is said and handed over; what cannot be read is said beside its field', async (t) => {
  const first = await delivery.page(page)
  for (const words of ['A blown fuse is replaced by one of the same rating', 'nothing is saved yet', 'Enter the load on the tire placard', 'P-101 Speaker ring', 'Factory parts that are not in the vehicle', 'out with the customer']) t.match(first, words)
  const refused = await save({ odometer: '38,290 km', placardLoad: '510 mm', careAndUse: 'Kept text' })
  t.equal(refused.statusCode, 422)
  for (const words of ['Occupants and cargo by the tire placard', 'Kept text', '38,290 km']) t.match(refused.body, words)
  t.equal((await save({ odometer: '38,290 km', placardLoad: '510 kg', careAndUse: 'Mind the fuse.\nCall when it rattles.', beforeSale: 'Call two months before.', explainedById: delivery.personId })).statusCode, 303)
  t.equal((await technician.post(page, { odometer: '1 km' })).statusCode, 403, 'a technician reads it')
  t.match(await technician.page(page), 'Mind the fuse.')
})

t.test('the load that remains is the placard’s less what was added, with how it comes about', async (t) => {
  const html = await delivery.page(page)
  // 3.8 kg amplifier and two speakers of 1.5 kg: 6.8 kg of 510 kg.
  for (const words of ['6.8 kg', '503.2 kg', 'placard − added mass', '49 CFR 575.6', 'E-01 Averne A 4', '2 × E-02 Averne M 165']) t.match(html, words)
  await change(`/api/parts/${ring.id}`, { mass: '500 g' })
  t.match(await delivery.page(page), '502.2 kg')
  t.notMatch(await delivery.page(page), 'No mass is recorded')
})

t.test('an assembly that nobody weighed is the sum of its parts', async (t) => {
  const { create } = manager.api
  const box = await create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Box', quantity: 1, isFitted: true })
  const side = await create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Side', quantity: 0, mass: '2 kg' })
  await create('/api/part-uses', { buildId: build.id, parentId: box.id, partId: side.id, quantity: 4 })
  t.match(await delivery.page(page), '494.2 kg')
})

t.test('whoever receives the vehicle signs once, and what was signed stays', async (t) => {
  const version = hidden(await delivery.page(page), '_version')
  const sign = (form: Form): Promise<Answer> => delivery.post(`/builds/${build.id}/receipts`, { receivedBy: 'Imre Vadas', signature: SIGNATURE, _version: version, ...form })
  t.equal((await sign({ receivedBy: ' ' })).statusCode, 422)
  t.equal((await sign({ signature: 'M1 1"/><script>' })).statusCode, 422)
  t.equal((await sign({ _version: '77' })).statusCode, 409, 'what is signed is what was read')
  t.equal((await sign({})).statusCode, 303)
  t.equal((await sign({})).statusCode, 409)
  t.equal((await save({ note: 'later' })).statusCode, 409)
  t.match((await delivery.api.post(`/api/builds/${build.id}/receipts`, { receivedBy: 'X' })).json(), { status: 409, detail: /Imre Vadas signed/ })
  const { id, version: stored } = await shop.database.reads.delivery.findUniqueOrThrow({ where: { buildId: build.id } })
  t.equal((await delivery.api.patch(`/api/deliveries/${id}`, { note: 'later' }, { 'if-match': `"${stored}"` })).statusCode, 409)
  t.match(await delivery.page(page), `<path d="${SIGNATURE}"`)
  const other = await manager.api.create('/api/builds', { title: 'Other', kind: 'counter job', vehicleId: vehicle.id })
  t.match((await delivery.api.post(`/api/builds/${other.id}/receipts`, { receivedBy: 'X' })).json(), { status: 409, title: 'Nothing to sign yet' })
  t.match(await delivery.api.create(`/api/builds/${other.id}/deliveries`, { odometer: '10 km' }), { odometer: 10_000 })
  t.equal((await delivery.api.post(`/api/builds/${other.id}/deliveries`, { odometer: '10 km' })).statusCode, 409, 'a build is delivered once')
})

t.test('the pack on paper carries equipment, warranty, load, parts kept, the way back and the signatures', needsReader, async (t) => {
  for (const paper of ['A4', 'Letter']) {
    const answer = await delivery.get(`/builds/${build.id}/delivery-pack.pdf?paper=${paper}`)
    t.equal(answer.headers['content-type'], 'application/pdf')
    const text = pagesOfPdf(answer.rawPayload).join(' ').replaceAll(/\s+/g, ' ')
    for (const words of ['Delivery pack', 'A4-0127', '50 A', 'Wed 30 Sep 2026', '510 kg on the tire placard less', 'Mind the fuse.', 'out with the customer', 'no circuits', 'Imre Vadas', 'VIN 1M8GDM9AXKP042788']) {
      t.match(text.toLowerCase(), words === 'no circuits' ? 'circuits: none are recorded' : words.toLowerCase(), `${paper}: ${words}`)
    }
    t.notMatch(text, /USD|200\.00/)
    // The sheet stands in it whole, as it would alone.
    const alone = (await delivery.page(`/builds/${build.id}/return-to-stock`)).replaceAll(/<[^>]+>/g, ' ').replaceAll(/\s+/g, ' ')
    for (const words of ['Return-to-stock sheet', 'Cautions, before anything else', 'Parts to buy before you begin', 'Where things are, and what you need', 'Steps, in this order', 'Function tests', 'Done and tested', 'longest wait', 'Hours of the restoration']) {
      t.match(text, words, `${paper}: ${words}`)
      if (words !== 'Return-to-stock sheet') t.match(alone, words)
    }
  }
  t.equal((await shop.as('nobody').get(`/builds/${build.id}/delivery-pack.pdf`)).statusCode, 303)
})

async function archive(by = delivery, query = ''): Promise<Map<string, Buffer>> {
  const answer = await by.get(`/builds/${build.id}/delivery-pack.zip${query}`)
  if (answer.statusCode !== 200) throw new Error(answer.body)
  return unzipped(answer.rawPayload)
}
const textIn = (files: ReadonlyMap<string, Buffer>, name: string): string => files.get(name)!.toString('utf8')

t.test('the archive is the same for the same records, and its checksums hold', async (t) => {
  const [one, two] = [await delivery.get(`/builds/${build.id}/delivery-pack.zip`), await delivery.get(`/builds/${build.id}/delivery-pack.zip`)]
  t.ok(one.rawPayload.equals(two.rawPayload))
  const files = await unzipped(one.rawPayload)
  const sums = textIn(files, 'checksums-sha256.txt').trim().split('\n').map((line) => line.split('  '))
  t.equal(sums.length, files.size - 1)
  for (const [sum, name] of sums) t.equal(createHash('sha256').update(files.get(name!)!).digest('hex'), sum, name!)
})

t.test('every address on its pages leads into the archive, without a script and without another site', async (t) => {
  const files = await archive()
  for (const name of ['index.html', 'equipment.html', 'check.html', 'return-to-stock.html', 'photos.html', 'layout.html', 'README.txt', 'style.css', 'data/pack.json']) t.ok(files.has(name), name)
  const pages = [...files.keys()].filter((name) => name.endsWith('.html'))
  let followed = 0
  for (const name of pages) {
    const html = textIn(files, name)
    t.notMatch(html, /<script|https?:|style="|\son[a-z]+="/, name)
    for (const [, address] of html.matchAll(/(?:href|src)="([^"]*)"/g)) {
      if (address === 'data:,') continue
      t.ok(files.has(address!), `${name} leads to ${address}`)
      followed += 1
    }
  }
  t.ok(followed > 50, `${followed} addresses`)
  const back = textIn(files, 'return-to-stock.html')
  for (const words of ['Where things are, and what you need', 'Function tests', 'Work done by', 'Hours of the restoration']) t.match(back, words)
  t.match(back, /Refit <i>F-012<.i> Door speaker(?:(?!<tr>)[^])*<img src="photos\/\d{3}\.jpg" alt="Four rivets"/, 'what a part looked like stands beside its step')
  t.notMatch(textIn(files, 'style.css'), /url\(|@import/)
  t.match(textIn(files, 'photos.html'), /<p>Door &lt;before(?:&gt;|>) &amp; /)
})

t.test('JSON, CSV and pages say the same, and each column is described in the archive itself', async (t) => {
  const files = await archive()
  const pack = JSON.parse(textIn(files, 'data/pack.json')) as Record<string, unknown> & { returnToStock: Record<string, unknown> }
  const readme = textIn(files, 'README.txt')
  const tables: Record<string, unknown> = {
    'equipment': pack.equipment, 'made-parts': pack.madeParts, 'finishes': pack.finishes, 'alterations': pack.alterations, 'factory-parts': pack.keptParts, 'final-check': pack.finalCheck,
    'open-points': pack.openPoints, 'return-to-stock': pack.returnToStock.steps, 'parts-to-buy': pack.returnToStock.partsToBuy, 'photos': pack.photos,
  }
  t.same([...files.keys()].filter((name) => name.endsWith('.csv')).sort(), Object.keys(tables).map((name) => `data/${name}.csv`).sort())
  for (const [name, given] of Object.entries(tables)) {
    const rows = given as Record<string, unknown>[]
    const [heads = [], ...lines] = parse(files.get(`data/${name}.csv`)!, { bom: true }) as string[][]
    t.equal(lines.length, rows.length, name)
    for (const row of rows) t.same(Object.keys(row).filter((key) => !heads.includes(key)), [], `${name}: a column for each value`)
    lines.forEach((line, index) => t.same(line, heads.map((key) => asCell(rows[index]![key])), `${name}, row ${index + 1}`))
    for (const key of heads) {
      t.ok(readme.includes(`\r\n  ${key}:`) || readme.includes(`\r\n  ${key} [`), `README tells what ${name}.${key} is`)
      t.match(textIn(files, 'layout.html'), `>${key}</td>`)
    }
  }
  t.match(readme, 'fuse [mA]: As its maker asks for.')
  const [first] = pack.equipment as Json[]
  t.match(first, { number: 'E-01', serialNumbers: ['A4-0127'], fuse: 50_000, mass: 3_800, warrantyUntil: '2026-09-30' })
  for (const words of ['A4-0127', '50 A', '2026-09-30', 'Hole 12 mm, =SUM(1)']) t.match(textIn(files, 'equipment.html'), words)
  t.match(textIn(files, 'data/alterations.csv'), '"Hole 12 mm, =SUM(1)"')
  for (const words of ['Imre Vadas', 'Mind the fuse.', 'Circuits: none are recorded', `d="${SIGNATURE}"`, 'RVT 7']) t.match(textIn(files, 'index.html'), words)
  t.match((await delivery.api.get(`/api/builds/${build.id}/delivery-pack`)).json(), { layout: 'putback-delivery-pack', equipment: pack.equipment, keptParts: pack.keptParts })
})

const asCell = (value: unknown): string => {
  if (value === null || value === undefined) return ''
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  const text = Array.isArray(value) ? value.join(' | ') : String(value)
  return typeof value !== 'number' && /^['=+\-@]/.test(text) ? `'${text}` : text
}

t.test('prices are in it only where a manager asks, and what thieves want never is', async (t) => {
  t.equal((await delivery.get(`/builds/${build.id}/delivery-pack.zip?money=yes`)).statusCode, 403)
  t.equal((await technician.api.get(`/api/builds/${build.id}/delivery-pack?money=yes`)).statusCode, 403)
  const plain = await archive(manager)
  const priced = await archive(manager, '?money=yes')
  const all = (files: ReadonlyMap<string, Buffer>): string => [...files].filter(([name]) => !name.endsWith('.jpg')).map(([, data]) => data.toString('utf8')).join('\n')
  t.match(all(priced), /"price": 20000/)
  t.match(textIn(priced, 'equipment.html'), '200.00 USD')
  t.notMatch(all(plain), /20000|200\.00|"price"|USD\b.*price/)
  t.notMatch(all(plain), /radio code|immobilizer|place of the keys/i)
  for (const id of [manager.personId, technician.personId, build.id]) t.notMatch(all(priced), id, 'ids never leave')
})

t.test('unzipped, it opens from a disk without a network and nothing fails to load', { skip: browserMissing() ?? false, timeout: 90_000 }, async (t) => {
  const folder = mkdtempSync(join(tmpdir(), 'putback-archive-'))
  t.teardown(() => rmSync(folder, { recursive: true, force: true }))
  for (const [name, data] of await archive()) {
    mkdirSync(dirname(join(folder, name)), { recursive: true })
    writeFileSync(join(folder, name), data)
  }
  const browser = await launch()
  t.teardown(() => browser.close())
  const window = await (await browser.newContext({ offline: true, javaScriptEnabled: false, viewport: { width: 390, height: 844 } })).newPage()
  const failed: string[] = []
  const asked: string[] = []
  window.on('requestfailed', (request) => failed.push(request.url()))
  window.on('request', (request) => asked.push(request.url()))
  await window.goto(`file://${folder}/index.html`)
  for (const name of ['What was built in', 'Final check', 'Return to stock', 'Photos', 'Layout of the records']) {
    await window.getByRole('link', { name, exact: true }).click()
    await window.waitForLoadState('load')
    t.equal(await window.locator('h2').first().textContent(), name)
  }
  await window.goto(`file://${folder}/photos.html`)
  await window.waitForLoadState('load')
  t.same(failed, [])
  t.same(asked.filter((url) => !url.startsWith('file://') && !url.startsWith('data:')), [])
  t.ok(asked.some((url) => url.endsWith('photos/001.jpg')))
})
