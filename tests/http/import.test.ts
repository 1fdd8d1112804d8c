import fc from 'fast-check'
import t from 'tap'
import { randomUUID } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { fillDemo } from '../../seed/fill.ts'
import { decodeText } from '../../server/shared/csv/decode.ts'
import { guarded, unguarded } from '../../server/shared/csv/guard.ts'
import { detectSeparator, readCsv, type CsvRow } from '../../server/shared/csv/readCsv.ts'
import { writeCsv } from '../../server/shared/csv/writeCsv.ts'
import { aWorld } from '../support/recordExamples.ts'
import { openShop, type Answer, type Json, type TestShop } from '../support/shop.ts'

const shop = await openShop(t)
const world = await aWorld(shop)
const manager = shop.as('manager')

interface Planned { line: number; action: string; id: string | null; changes: { field: string; before: unknown; after: unknown }[]; problems: { field: string; message: string }[] }
interface Told {
  isWritten: boolean; fingerprint: string; separator: string; faults: string[]; rows: Planned[]
  counts: Record<'create' | 'change' | 'skip' | 'error', number>; columns: { heading: string; field: string | null; remark: string }[]
}
const HEADINGS = 'Kind,Maker,Model,Cost,Price'
const ask = (text: string, more: Json = {}, kind = 'catalog'): Promise<Answer> => manager.api.post('/api/imports', { kind, text, ...more })
const tell = async (text: string, more: Json = {}, kind = 'catalog'): Promise<Told> => {
  const answer = await ask(text, more, kind)
  if (answer.statusCode !== 200) throw new Error(`${answer.statusCode}: ${answer.body}`)
  return answer.json<Told>()
}
const write = (text: string, kind = 'catalog', more: Json = {}): Promise<Told> => tell(text, { dryRun: false, ...more }, kind)
const exported = async (path: string, of: TestShop = shop): Promise<string> => {
  const answer = await of.as('owner').get(`/exports/${path}`)
  if (answer.statusCode !== 200) throw new Error(`${path}: ${answer.statusCode} ${answer.body}`)
  return answer.body
}
const problemsOf = ({ rows }: Told): string[] => rows.flatMap(({ line, problems }) => problems.map(({ message }) => `${line}: ${message}`))
const cellsOf = (rows: readonly CsvRow[]): string[][] => rows.map(({ cells }) => [...cells])

t.test('CSV is read and written by RFC 4180', (t) => {
  // The examples of RFC 4180, section 2, items 1, 2, 3, 5, 6 and 7.
  const read = (text: string): string[][] => cellsOf(readCsv(text, 'comma').rows)
  t.same(read('aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n'), [['aaa', 'bbb', 'ccc'], ['zzz', 'yyy', 'xxx']])
  t.same(read('aaa,bbb,ccc\r\nzzz,yyy,xxx'), [['aaa', 'bbb', 'ccc'], ['zzz', 'yyy', 'xxx']], 'the last line may end without a break')
  t.same(read('"aaa","bbb","ccc"\r\nzzz,yyy,xxx'), [['aaa', 'bbb', 'ccc'], ['zzz', 'yyy', 'xxx']])
  t.same(read('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx'), [['aaa', 'b\nbb', 'ccc'], ['zzz', 'yyy', 'xxx']])
  t.same(read('"aaa","b""bb","ccc"'), [['aaa', 'b"bb', 'ccc']])
  t.same(read(' aaa ,bbb'), [[' aaa ', 'bbb']], 'spaces are part of a field (item 4)')
  t.equal(writeCsv([['aaa', 'b\nbb', 'ccc'], ['zzz', 'b"bb', 'x,x']]), '\ufeffaaa,"b\nbb",ccc\r\nzzz,"b""bb","x,x"\r\n')
  t.end()
})

t.test('no text of people becomes a formula, and every text comes back', (t) => {
  // OWASP, CSV injection: = + - @, tab, carriage return, line feed, full-width forms; ASVS 5.0, 1.2.10, names the single quote and the null sign.
  for (const start of ['=', '+', '-', '@', '\t', '\r', '\n', '\0', '＝', '＋', '－', '＠']) t.equal(guarded(`${start}1+1`), `'${start}1+1`)
  t.equal(guarded('Front doors'), 'Front doors')
  t.equal(unguarded('=1+1'), '=1+1')
  const texts = fc.string({ unit: fc.constantFrom('=', '+', '-', '@', '\t', '\n', "'", '"', ',', ';', 'a', ' ', 'é', '😀', '＝') })
  fc.assert(fc.property(fc.array(fc.tuple(texts, texts), { minLength: 1, maxLength: 6 }), (rows) => {
    const kept = rows.map((row) => ['x', ...row])
    const back = readCsv(writeCsv(kept.map((row) => row.map(guarded))), 'comma').rows
    t.same(cellsOf(back).map((row) => row.map(unguarded)), kept)
    t.ok(cellsOf(back).flat().every((cell) => !/^[=+\-@\t\r\n＝]/.test(cell)))
  }), { seed: 4180, numRuns: 100 })
  t.end()
})

t.test('files come as spreadsheets of all kinds write them', (t) => {
  // WHATWG Encoding Standard, index windows-1252: 0x80 is U+20AC, 0x93 and 0x94 are quotes, 0xBD is ½ and 0xE9 is é as in Latin-1.
  t.same(decodeText(Buffer.from([0x80, 0x93, 0x94, 0xbd, 0xe9])), { text: '€“”½é', encoding: 'Windows-1252' })
  t.same(decodeText(Buffer.from('½ é')), { text: '½ é', encoding: 'UTF-8' })
  t.same(decodeText(Buffer.from('\ufeffa\t½', 'utf16le')), { text: 'a\t½', encoding: 'UTF-16' })
  t.same(['Name;Cost', 'Name\tCost', 'Name,Cost', '"a;b;c",d', 'Name'].map(detectSeparator), ['semicolon', 'tab', 'comma', 'comma', 'comma'])
  for (const end of ['\n', '\r\n', '\r']) {
    const { rows } = readCsv(['a,b', '"one', 'two",2', '', ',', '3,4'].join(end), 'comma')
    t.same(rows, [{ line: 1, cells: ['a', 'b'] }, { line: 2, cells: ['one\ntwo', '2'] }, { line: 6, cells: ['3', '4'] }], 'lines are those of the file')
  }
  t.same(readCsv('a,b\n6.5" speaker,2\n', 'comma').rows[1], { line: 2, cells: ['6.5" speaker', '2'] }, 'an inch sign is no quote')
  t.equal(readCsv('a,b\n1,2\n3,"open\n5,6\n', 'comma').openQuoteLine, 3)
  t.end()
})

/** 320 rows as they come out of an old sheet, with seven that cannot be taken. */
function messySheet(): string {
  const rows = Array.from({ length: 320 }, (_, index) => {
    const number = String(index + 1).padStart(3, '0')
    return ['speaker', 'Brand\u00a0Nine', `Row ${number}`, '12.50', '25.00', `${index % 9 + 1}00`, index % 7 === 0 ? '"two\nlines"' : '', "'0042", '']
  })
  const set = (row: number, column: number, value: string): void => { rows[row]![column] = value }
  set(10, 3, '1.250,50')
  set(20, 3, '1 250.50')
  set(30, 0, 'spaceship')
  set(40, 2, '')
  set(50, 4, '=D51*2')
  set(60, 5, '#REF!')
  set(70, 2, 'Row 001')
  const lines = rows.map((row) => row.join(';'))
  lines.splice(100, 0, 'Type of thing;BRAND;model ;Cost;Price;Weight [g];Remarks;;')
  return `\ufeff${['Type of thing;BRAND;model ;Cost;Price;Weight [g];Remarks;;', ...lines, ';;;;;;;;', '', ''].join('\r\n')}`
}

t.test('a messy sheet of 320 rows is read, each fault with its line, field and remedy; mended, all of it goes in, and a second time nothing', async (t) => {
  const columns = { 0: 'kind' }
  const told = await tell(messySheet(), { columns })
  t.equal(told.separator, 'semicolon')
  t.same(told.columns.map(({ field }) => field), ['kind', 'maker', 'model', 'cost', 'price', 'mass', 'note', null])
  t.match(told.columns[5]?.remark, /bare numbers are g/)
  t.same(told.counts, { create: 312, change: 0, skip: 1, error: 8 })
  const lineOf = (row: number): number => 2 + row + Math.ceil(row / 7) + (row >= 100 ? 1 : 0)
  const problems = problemsOf(told)
  for (const expected of [
    `${lineOf(10)}: Cost: "1.250,50" is unclear: write the decimal with a point, as 2.5, and thousands with a comma, as 1,250.`,
    `${lineOf(20)}: Cost: "1 250.50" is not one number: write it as 23 7/16 or 23.4375.`,
    `${lineOf(40)}: Model is needed.`,
    `${lineOf(50)}: Price: “=D51*2” is a formula. Paste its value instead, or put an apostrophe before it where it is meant as text.`,
    `${lineOf(60)}: Mass: “#REF!” is a fault of the spreadsheet. Correct the cell there, or clear it.`,
    `${lineOf(0)}: Lines ${lineOf(0)} and ${lineOf(70)} are about the same catalog item. Keep one of them.`,
    `${lineOf(70)}: Lines ${lineOf(0)} and ${lineOf(70)} are about the same catalog item. Keep one of them.`,
  ]) t.ok(problems.includes(expected), expected)
  t.match(problems.find((problem) => problem.startsWith(`${lineOf(30)}:`)), /Kind is one of: source unit/)
  t.equal(problems.length, 8)
  const before = await shop.database.reads.equipmentItem.count()
  const refused = await ask(messySheet(), { columns, dryRun: false })
  t.equal(refused.statusCode, 422, 'one wrong row keeps all out')
  t.match(refused.json<{ fields: { field: string }[] }>().fields.map(({ field }) => field), [`line ${lineOf(0)}, number`])
  t.equal(await shop.database.reads.equipmentItem.count(), before)

  const mended = messySheet().replace('1.250,50', '1,250.50').replace('1 250.50', '1250.50').replace('spaceship', 'Speaker')
    .replace('Nine;;', 'Nine;Row 041;').replace('=D51*2', '40').replace('#REF!', '').replace(/Row 001(?=(?:.|\r|\n)*Row 072)(?!(?:.|\r|\n)*Row 001)/, 'Row 071')
  const done = await write(mended, 'catalog', { columns })
  t.same([done.isWritten, done.counts], [true, { create: 320, change: 0, skip: 1, error: 0 }])
  t.equal(await shop.database.reads.equipmentItem.count(), before + 320)
  t.match(await shop.database.reads.equipmentItem.findFirst({ where: { model: 'Row 011' } }), { maker: 'Brand Nine', cost: 125_050, mass: 200 })
  t.match(await shop.database.reads.equipmentItem.findFirst({ where: { model: 'Row 001' } }), { note: 'two\nlines', entered: JSON.stringify({ mass: '100 g' }) })
  const again = await write(mended, 'catalog', { columns })
  t.same(again.counts, { create: 0, change: 0, skip: 321, error: 0 })
  const history = await shop.database.reads.auditEntry.count({ where: { recordKind: 'catalog item', action: 'created' } })
  t.equal(history, before + 320, 'each new record has its first line of history, and none a second')
})

t.test('a row changes what differs and leaves the rest; the history names it', async (t) => {
  const number = (await exported('catalog')).split('\r\n')[1]!.split(',')[0]!
  const told = await write(`No.;Price\n${number};"80.00"`)
  t.same(told.rows.map(({ action, changes }) => ({ action, changes })), [{ action: 'change', changes: [{ field: 'price', before: 7900, after: 8000 }] }])
  const stored = await shop.database.reads.equipmentItem.findUniqueOrThrow({ where: { id: world.item } })
  t.match(stored, { maker: 'Averne', model: 'M 100', cost: 4150, price: 8000, version: 2 })
  t.match(await manager.page(`/catalog/${world.item}`), /79\.00.*80\.00/s)
  const strange = await tell('Number,Price\nQ-001,1\nK-9000,1\n0,2')
  t.match(problemsOf(strange), [/^2: Number: “Q-001” is no number/, /^3: Number: there is no K-9000/, /^4: Number: “0” is no number/])
})

t.test('what the columns cannot be is said before any row', async (t) => {
  t.match((await tell('Price\n1')).faults, ['No column says which catalog item a row is. Choose a column for Maker and Model, or for Number.'])
  t.match((await tell(`${HEADINGS.replace('Cost', 'Cost (EUR)')}\nspeaker,A,B,1,2`)).faults, ['Column D, “Cost (EUR)”: the shop keeps USD.'])
  t.match((await tell(`${HEADINGS},Cost\nspeaker,A,B,1,2,3`)).columns[5], { field: null, remark: 'the same as column D, so left out' })
  t.match((await tell(`${HEADINGS},x\nspeaker,A,B,1,2,3`, { columns: { 5: 'cost' } })).faults, ['Columns D and F are all read as Cost.'])
  t.match((await tell(HEADINGS)).faults, ['There are headings and no rows below them.'])
  t.match((await tell(`${HEADINGS}\nspeaker,"A,B,1,2`)).faults, ['Line 2: a quote opens and never closes.'])
  t.match((await tell(`${HEADINGS}\n${'speaker,A,B,1,2\n'.repeat(5_001)}`)).faults, ['There are 5,001 rows; 5,000 at most go in at once.'])
  t.match(problemsOf(await tell(`${HEADINGS}\nspeaker,A,B, 6,5,9`)), ['2: This row has 6 cells and the headings only 5.'])
  const large = await ask(`${HEADINGS}\n${'x'.repeat(1_000_001)}`)
  t.equal(large.statusCode, 422)
  t.match(large.json<{ detail: string }>().detail, /1,000,0\d\d bytes; 1,000,000 at most/)
  t.equal((await ask('x', {}, 'rockets')).statusCode, 422)
})

t.test('materials are measured by their form; parts go into a build, their zones and bins by name', async (t) => {
  const materials = await write('Name\tUsed by\tBought as\tIn one pack\tCost of a pack\tPrice of a pack\nVeneer oak\tarea\tsheet\t2.5 m²\t40\t60\nClip\teach\tbag of 50\t50\t4\t9', 'materials')
  t.equal(materials.counts.create, 2)
  t.match(problemsOf(await tell('Name,Used by,Bought as,In one pack,Cost of a pack,Price of a pack\nFelt,area,roll,5 kg,1,2', {}, 'materials')), [/2: In one pack/])
  const ofBuild = { buildId: world.build }
  const parts = await write('Zone,Name,Fitted straight to the vehicle,Mass each,Fitted\nFront doors,Pod left,1,1 lb,x\n1,Pod right,1,450 g,', 'parts', ofBuild)
  t.same(parts.counts, { create: 2, change: 0, skip: 0, error: 0 })
  t.match(await shop.database.reads.fabricatedPart.findFirst({ where: { name: 'Pod left' } }), { buildId: world.build, zoneId: world.zone, mass: 454, isFitted: true })
  t.match(problemsOf(await tell('Zone,Name,Quantity\nRear,Pod,1', ofBuild, 'parts')), ['2: Zone: there is no “Rear”. There are: 1 Front doors. Write one of these, or add it first.'])
  const factory = await write('Zone,Name,State,Bin,Cost of a new one\n1 Front doors,Sill trim,out and stored,A-001,85', 'factory-parts', ofBuild)
  t.equal(factory.counts.create, 1)
  t.match(await shop.database.reads.factoryPart.findFirst({ where: { name: 'Sill trim' } }), { binId: world.bin, replaceCost: 8500 })
  t.equal((await ask('Name\nx', {}, 'parts')).statusCode, 422, 'a part without its build')
})

t.test('people come without passwords and get codes; nobody but an owner brings owners', async (t) => {
  const told = await write('Name,Sign-in name,Role,Skills\nImre Tal,i.tal,technician,laminating\nOda Quist,o.quist,delivery,', 'people')
  t.equal(told.counts.create, 2)
  const imre = await shop.database.reads.person.findUniqueOrThrow({ where: { signInName: 'i.tal' }, include: { skills: true } })
  t.match(imre, { passwordHash: '', codeHash: '', isActive: true, units: 'metric' })
  t.same(imre.skills.map(({ skillId }) => skillId), [world.skill])
  t.same((await write('Name,Sign-in name,Role,Skills\nImre Tal,i.tal,technician,laminating', 'people')).counts.skip, 1)
  t.match(await manager.page('/imports?kind=people&created=2&changed=0&skipped=0'), new RegExp(`/people/${imre.id}/codes`))
  t.notMatch(await exported('people'), /argon|passw|hash/i)
  const owners = 'Name,Sign-in name,Role\nEve,eve.x,owner\nTest owner,test.owner,technician'
  t.match(problemsOf(await tell(owners, {}, 'people')), [/^2: .*nly an owner/, /^3: .*nly an owner/])
  const both = await shop.as('owner').api.post('/api/imports', { kind: 'people', dryRun: false, text: 'Sign-in name,Role\ntest.owner,technician' })
  t.match(both.json(), { status: 422, detail: /only owner/ }, 'an owner stays')
})

t.test('on the pages: a file, its columns by hand, a dry run that writes nothing, and one import for one key', async (t) => {
  const text = `thing,${HEADINGS},spare\nx,lighting,Dulcimar,"Strip <b>",18,29,y\n`
  const boundary = 'test-boundary'
  const csrf = /name="_csrf" value="([^"]+)"/.exec(await manager.page('/imports'))![1]!
  const upload = (bytes: Buffer, kind = 'catalog'): Promise<Answer> => shop.app.inject({
    method: 'POST', url: '/imports/readings', headers: { cookie: manager.cookie, 'content-type': `multipart/form-data; boundary=${boundary}` },
    payload: Buffer.concat([
      Buffer.from([['_csrf', csrf], ['kind', kind], ['build', ''], ['text', '']].map(([name, value]) => `--${boundary}\r\ncontent-disposition: form-data; name="${name}"\r\n\r\n${value}\r\n`).join('')),
      Buffer.from(`--${boundary}\r\ncontent-disposition: form-data; name="file"; filename="a.csv"\r\ncontent-type: text/csv\r\n\r\n`), bytes, Buffer.from(`\r\n--${boundary}--\r\n`),
    ]),
  })
  const before = await shop.database.reads.equipmentItem.count()
  const dry = await upload(Buffer.from(text))
  t.equal(dry.statusCode, 200)
  t.match(dry.body, /Column A is read as/)
  t.match(dry.body, /Dulcimar Strip &lt;b>/)
  t.match((await upload(Buffer.from([0x50, 0x4b, 3, 4, 0]))).body, /This is a workbook/)
  t.match((await upload(Buffer.from(`${HEADINGS}\nspeaker,A,Caf\xe9,1,2`, 'latin1'))).body, /read as Windows-1252.*Café/s)
  t.match((await upload(Buffer.from(''))).body, /Choose a file, or paste/)
  t.match((await upload(Buffer.from(text), '')).body, /Choose what the file lists/)
  t.equal((await shop.app.inject({ method: 'POST', url: '/imports/readings', headers: { cookie: manager.cookie, 'content-type': 'multipart/form-data; boundary=x' }, payload: 'broken' })).statusCode, 400)
  t.equal(await shop.database.reads.equipmentItem.count(), before, 'nothing is written by reading')

  const fields = (html: string): Record<string, string> => ({
    kind: 'catalog', text, separator: 'comma', readSeparator: 'comma', fingerprint: /name="fingerprint" value="(\w+)"/.exec(html)![1]!, _key: randomUUID(),
  })
  const chosen = { 'column-0': '', 'column-1': 'kind', 'column-2': 'maker', 'column-3': 'model', 'column-4': 'cost', 'column-5': 'price', 'column-6': 'note' }
  const reread = await manager.post('/imports/readings', { ...fields(dry.body), ...chosen })
  const form = { ...fields(reread.body), ...chosen }
  t.equal((await manager.post('/imports', { ...form, 'column-6': '' })).statusCode, 409, 'other columns than those shown')
  t.equal((await manager.post('/imports', { ...form, text: text.replace('29', '30') })).statusCode, 409, 'another text than the one shown')
  const sent = await Promise.all(Array.from({ length: 5 }, () => manager.post('/imports', form)))
  for (const answer of sent) t.match(answer, { statusCode: 303, headers: { location: '/imports?kind=catalog&created=1&changed=0&skipped=0' } })
  t.equal(await shop.database.reads.equipmentItem.count(), before + 1)
  t.match(await shop.database.reads.equipmentItem.findFirst({ where: { maker: 'Dulcimar' } }), { note: 'y', kind: 'lighting' })
  t.match(await manager.page(String(sent[0]!.headers.location)), /equipment catalog: 1 created/)
})

t.test('what changed between the dry run and the import is shown again, and nothing is written', async (t) => {
  const text = `${HEADINGS}\nspeaker,Ostwen,Fenn 80,88,129\n`
  const page = await manager.post('/imports/readings', { kind: 'catalog', text })
  const fingerprint = /name="fingerprint" value="(\w+)"/.exec(page.body)![1]!
  await manager.api.create('/api/catalog', { kind: 'speaker', maker: 'Ostwen', model: 'Fenn 80', cost: '80.00', price: '129.00' })
  const answer = await manager.post('/imports', { kind: 'catalog', text, fingerprint })
  t.equal(answer.statusCode, 409)
  t.match(answer.body, /Nothing was written.*class="was">80\.00 USD/s)
  t.equal(await shop.database.reads.equipmentItem.count({ where: { model: 'Fenn 80' } }), 1)
  const again = await ask(text, { dryRun: false, fingerprint })
  t.equal(again.statusCode, 409, 'and so for the API')
  t.equal((await shop.as('technician').get('/exports/catalog')).statusCode, 403)
})

t.test('the sample lists of the README go into any shop', async (t) => {
  const readme = readFileSync('README.md', 'utf8')
  for (const [kind, file] of [['catalog', 'seed/import/equipment.csv'], ['materials', 'seed/import/materials.csv']] as const) {
    t.ok(readme.includes(file))
    const told = await tell(readFileSync(file, 'utf8'), {}, kind)
    t.same([told.faults, problemsOf(told), told.columns.filter(({ field }) => field === null)], [[], [], []], file)
    t.ok(told.counts.create >= 4)
  }
})

t.test('the whole demo goes out, comes in and goes out again, byte for byte', async (t) => {
  const demo = await openShop(t)
  await fillDemo(demo.database, new Date('2027-05-12T18:30:00Z'))
  const fresh = await openShop(t)
  const builds = await demo.database.reads.build.findMany()
  const paths = ['catalog', 'materials', 'people', ...builds.flatMap(({ id }) => [`parts?build=${id}`, `factory-parts?build=${id}`])]
  let rows = 0
  for (const path of paths) {
    const [kind, buildId] = path.split('?build=')
    const before = await exported(path, demo)
    const answer = await demo.as('owner').api.post('/api/imports', { kind, text: before, dryRun: false, ...(buildId ? { buildId } : {}) })
    if (before.split('\r\n').length === 2) continue
    const told = answer.json<Told>()
    t.equal(answer.statusCode, 200, `${path} ${answer.body.slice(0, 300)}`)
    t.same([told.counts.create, told.counts.change, told.counts.error], [0, 0, 0], `${path} changes nothing`)
    t.equal(await exported(path, demo), before, path)
    rows += told.counts.skip
  }
  t.ok(rows > 200, `${rows} rows`)
  // A list names other records, as the kit of a catalog item, and does not bring them.
  for (const { name } of await demo.database.reads.kit.findMany()) await fresh.as('owner').api.create('/api/kits', { name })
  for (const kind of ['catalog', 'materials']) {
    const text = await exported(kind, demo)
    const answer = await fresh.as('owner').api.post('/api/imports', { kind, text, dryRun: false })
    t.equal(answer.statusCode, 200, answer.body.slice(0, 300))
    t.equal(await exported(kind, fresh), text, `${kind} in an empty shop`)
  }
})

t.test('any records whatever come out of another shop as they went in', async (t) => {
  const [one, other] = [await openShop(t), await openShop(t)]
  const sign = fc.constantFrom(...'=+-@\'",;\t\n#|½é日😀 aB7.()/\\×“')
  const words = fc.string({ unit: sign, minLength: 1, maxLength: 24 }).filter((text) => text.trim() !== '' && !/[\u00a0\u2007\u202f]/.test(text))
  const line = words.map((text) => text.replaceAll('\n', ' '))
  const item = fc.record({
    kind: fc.constantFrom('speaker', 'amplifier', 'other'), maker: line, model: line, note: fc.option(words, { nil: '' }),
    cost: fc.integer({ min: 0, max: 1_000_000_000 }), price: fc.integer({ min: 0, max: 1_000_000_000 }), mass: fc.option(fc.integer({ min: 0, max: 500_000 })),
    mountingDepth: fc.option(fc.oneof(fc.integer({ min: 1, max: 2_000_000 }), fc.constantFrom('23 7/16 in', '1/64 in', '52 mm'))), current: fc.option(fc.integer({ min: 0, max: 1_000_000 })), channels: fc.option(fc.integer({ min: 1, max: 64 })),
  })
  await fc.assert(fc.asyncProperty(fc.array(item, { minLength: 1, maxLength: 4 }), async (items) => {
    for (const json of items) await one.as('owner').api.create('/api/catalog', json)
    const text = await exported('catalog', one)
    const answer = await other.as('owner').api.post('/api/imports', { kind: 'catalog', text, dryRun: false })
    t.equal(answer.statusCode, 200, answer.body.slice(0, 400))
    t.equal(await exported('catalog', other), text)
  }), { seed: 20_270_512, numRuns: 20 })
})
