import t from 'tap'
import sharp from 'sharp'
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { qrDrawing, qrSymbol } from '../../server/shared/qrSymbol.ts'
import { aDoor, buildDoor } from '../support/aDoor.ts'
import { openShop, type TestShop } from '../support/shop.ts'

const has = (program: string): boolean => spawnSync(program, ['--version']).status === 0
const needs = (program: string): false | string => (has(program) ? false : `skipped: the program "${program}" is not installed`)

const folder = mkdtempSync(join(tmpdir(), 'putback-labels-'))
t.teardown(() => rmSync(folder, { recursive: true, force: true }))

const shop = await openShop(t)
const door = await aDoor(shop)
await buildDoor(shop, door)
const technician = shop.as('technician')
const build = `/builds/${door.build.id}`

/** What zbar, a reader that this project did not write, makes of a drawn code. */
async function read(svg: string, pixelsPerModule = 6): Promise<string> {
  const side = Number(/viewBox="0 0 (\d+)/.exec(svg)![1])
  const file = join(folder, 'code.png')
  writeFileSync(file, await sharp(Buffer.from(svg), { density: 72 }).resize(side * pixelsPerModule, side * pixelsPerModule, { kernel: 'nearest' }).flatten({ background: '#fff' }).png().toBuffer())
  return spawnSync('zbarimg', ['--quiet', '--raw', file], { encoding: 'utf8' }).stdout.trim()
}

const codeOf = async (where: TestShop, thing: string): Promise<string> => {
  const { statusCode, headers, body } = await where.as('technician').get(`/scan/B-0001/${thing}/code.svg`)
  if (statusCode !== 200 || headers['content-type'] !== 'image/svg+xml') throw new Error(`${statusCode} ${body}`)
  return body
}

t.test('another’s reader reads from the printed code the address that opens the part', { skip: needs('zbarimg') }, async (t) => {
  t.equal(await read(await codeOf(shop, 'F-013')), 'http://localhost:80/scan/B-0001/F-013')
  t.equal(await read(await codeOf(shop, 'A-1'), 3), 'http://localhost:80/scan/B-0001/A-001', 'small as well, and however the number was written')
  const outside = await openShop(t, { env: { PUBLIC_URL: 'https://putback.rivet-lane.example' } })
  await buildDoor(outside, await aDoor(outside))
  t.equal(await read(await codeOf(outside, 'F-013')), 'https://putback.rivet-lane.example/scan/B-0001/F-013', 'the shop’s own address where one is set')
})

t.test('every module of the symbol is where another’s program puts it', { skip: needs('zint') }, (t) => {
  // The other program packs capitals and figures closer; of small letters both write bytes.
  for (const text of ['https://putback.example/scan/b-1/f-2', 'http://shop.lan/scan/b/f', 'https://putback.somewhere-far-away.example/scan/b-x/f-y']) {
    const symbol = qrSymbol(text)
    const masks = Array.from({ length: 8 }, (_, mask) => spawnSync('zint', ['--barcode=58', '--secure=2', `--mask=${mask}`, '--dump', '--binary', '-d', text], { encoding: 'utf8' }).stdout.trim().split('\n'))
    const ours = Array.from({ length: symbol.size }, (_, row) => Array.from({ length: symbol.size }, (_, column) => (symbol.isDark(row, column) ? '1' : '0')).join(''))
    const theirs = masks.map((rows) => rows.map((row) => [...row.replaceAll(' ', '')].map((digit) => Number.parseInt(digit, 16).toString(2).padStart(4, '0')).join('').slice(0, symbol.size)))
    t.ok(theirs.some((rows) => rows.join() === ours.join()), text)
  }
  t.end()
})

t.test('a code is a square of 17 + 4 × version modules with four light ones around it, by ISO/IEC 18004', async (t) => {
  const { side, path } = qrDrawing('http://localhost:80/scan/B-0001/F-013')
  t.equal(side, 29 + 8, 'version 3 holds 42 bytes at level M (ISO/IEC 18004, table 7, from memory)')
  const { data, info } = await sharp(Buffer.from(`<svg xmlns="http://www.w3.org/2000/svg" width="${side}" height="${side}"><rect width="${side}" height="${side}" fill="#fff"/><path d="${path}"/></svg>`)).greyscale().raw().toBuffer({ resolveWithObject: true })
  const isDark = (x: number, y: number): boolean => data[(y * info.width + x) * info.channels]! < 128
  const all = Array.from({ length: side }, (_, y) => Array.from({ length: side }, (_, x) => ({ x, y, dark: isDark(x, y) }))).flat()
  const isQuiet = ({ x, y }: { x: number, y: number }): boolean => Math.min(x, y, side - 1 - x, side - 1 - y) < 4
  t.same(all.filter((module) => isQuiet(module) && module.dark), [])
  t.ok(isDark(4, 4) && isDark(4, side - 5) && isDark(side - 5, 4) && !isDark(5, 5), 'finder patterns in three corners, right inside the quiet zone')
})

const printed = (html: string): string => [...html.matchAll(/<div class="stuck">.*?<\/div><\/div>/gs)].map(([label]) => label).join('\n')

t.test('labels carry number, name, zone and vehicle, and neither customer, plate, VIN nor any id', async (t) => {
  const { version } = (await shop.as('manager').api.get(`/api/vehicles/${String(door.vehicle.id)}`)).json<{ version: number }>()
  t.equal((await shop.as('manager').api.patch(`/api/vehicles/${String(door.vehicle.id)}`, { plate: 'PLATE 7' }, { 'if-match': String(version) })).statusCode, 200)
  const customer = await shop.database.reads.customer.findFirstOrThrow()
  for (const [what, words] of [
    ['bins', ['A-001', 'rack C, shelf 2', 'B-0001']], ['parts out', ['F-013', 'Door speaker', 'Front doors', 'Corvane Tern']], ['bags of parts out', ['F-013', 'Door speaker: 4 × M6 × 20 bolt', 'Fastener bag']],
  ] as const) {
    const labels = printed(await technician.page(`${build}/labels?${new URLSearchParams({ what }).toString()}`))
    for (const word of words) t.ok(labels.includes(word), `${what}: ${word}`)
    for (const secret of [customer.name, 'PLATE 7', door.build.id]) t.notOk(labels.includes(secret), `${what}: ${secret}`)
    t.notMatch(labels, /[0-9a-f]{8}-[0-9a-f]{4}-/, 'no id reaches paper')
  }
})

t.test('one part, one bag or one bin is chosen by its number; a strange one is not here, and a word is told how to write it', async (t) => {
  const page = (query: Record<string, string>) => technician.get(`${build}/labels?${new URLSearchParams(query).toString()}`)
  t.match(printed((await page({ what: 'one part', number: 'F-012' })).body), /F-012.*Door panel/s)
  t.match(printed((await page({ what: 'one bag', number: '12' })).body), /9 × clip, 2 × M5 × 20 screw/)
  t.match(printed((await page({ what: 'one bin', number: 'A-1' })).body), /A-001/)
  t.equal((await page({ what: 'one part', number: 'F-099' })).statusCode, 404)
  const bad = await page({ what: 'one part', number: 'the panel' })
  t.equal(bad.statusCode, 422)
  t.match(bad.body, /Write the number as F-021 or A-003/)
  t.equal((await page({ what: 'one part' })).statusCode, 404)
})

t.test('on a partly used sheet the first label goes to the place that is asked for', async (t) => {
  const html = await technician.page(`${build}/labels?${new URLSearchParams({ what: 'one part', number: 'F-012', sheet: 'letter-3x10', start: '5' }).toString()}`)
  t.match(html, /row 2, column 2/)
  t.equal(html.split('<div class="label-free"></div>').length - 1, 4)
  const beyond = await technician.page(`${build}/labels?${new URLSearchParams({ what: 'one part', number: 'F-012', start: '999' }).toString()}`)
  t.match(beyond, /row 8, column 3/, 'no place beyond the last')
})

t.test('who is not signed in signs in first and comes straight back; what the shop does not have is not here', async (t) => {
  const answer = await shop.as('nobody').get('/scan/B-0001/F-013')
  t.equal(answer.headers.location, `/sign-in?to=${encodeURIComponent('/scan/B-0001/F-013')}`)
  for (const address of ['/scan/B-0001/F-099', '/scan/B-0099/F-013', '/scan/B-0001/Q-1', '/scan/x/y', '/scan/B-0001/F-099/code.svg', '/scan/B-0009']) {
    t.equal((await technician.get(address)).statusCode, 404, address)
  }
  t.equal((await technician.get('/scan/B-0001')).headers.location, build)
})

t.test('a scanned bin says what should be in it and takes a part with one press, wherever that was', async (t) => {
  const bin = await technician.page('/scan/B-0001/A-001')
  t.match(bin, /Should be in it.*F-013<\/span> <span>Door speaker/s)
  const put = (part: string, role: 'technician' | 'delivery' = 'technician') => shop.as(role).post('/scan/B-0001/A-1/moves', { part })
  const state = async (id: string): Promise<string> => (await shop.database.reads.factoryPart.findUniqueOrThrow({ where: { id } })).state
  const answer = await put('12')
  t.equal(answer.headers.location, '/scan/B-0001/A-001?part=12&bin=1')
  t.match(await technician.page(String(answer.headers.location)), /Saved: <strong>F-012 is in A-001/)
  t.equal(await state(door.panel.id), 'out and stored')
  const removals = await shop.database.reads.removal.findMany({ where: { factoryPartId: door.panel.id, binId: door.bin.id } })
  t.equal(removals.length, 1, 'a part that was still in the vehicle came out, and its removal is recorded')
  t.match((await put('F-012')).body, /F-012 Door panel is in A-001 already/)
  t.equal((await put('the panel')).statusCode, 422)
  t.equal((await put('99')).statusCode, 404)
  t.equal((await put('11', 'delivery')).statusCode, 403, 'who delivers takes nothing out')
  t.equal(await state(door.switch.id), 'fitted')
})

t.test('a scanned part says where it is, what can be done next, its fasteners and its photos', async (t) => {
  const html = await technician.page('/scan/B-0001/F-013')
  for (const words of ['bin A-001, rack C, shelf 2', 'Hand to the customer', 'It went back', '4 × M6 × 20</i> bolt', '9 N·m, maker’s manual, page 31', 'Add photos of']) t.ok(html.includes(words), words)
  const other = await shop.as('manager').api.create('/api/bins', { buildId: door.build.id, place: 'rack E' })
  const answer = await technician.post('/scan/B-0001/F-013/moves', { bin: 'A-2' })
  t.equal(answer.statusCode, 303)
  t.equal((await shop.database.reads.factoryPart.findUniqueOrThrow({ where: { id: door.speaker.id } })).binId, other.id)
})
