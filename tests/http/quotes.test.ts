import t from 'tap'
import { parse } from 'csv-parse/sync'
import { randomUUID } from 'node:crypto'
import { aBuild } from '../support/aBuild.ts'
import { factsOfPdf, needsReader, textOfPdf } from '../support/pdfText.ts'
import { openShop, type Answer, type Form, type Json } from '../support/shop.ts'

let now = new Date('2031-03-03T09:00:00Z')
const shop = await openShop(t, { clock: () => now })
const manager = shop.as('manager')
const { api } = manager
await shop.database.write((write) => write.shop.update({ where: { id: 'shop' }, data: { timeZone: 'Pacific/Chatham', address: '4 Slip Lane', phone: '555-0147' } }))
const labor = await api.create('/api/tax-codes', { code: 'LABOR', name: 'Work', rate: '6.25 %' })
const goods = await api.create('/api/tax-codes', { code: 'GOODS', name: 'Goods sold', rate: '7.25 %' })

interface Frozen { readonly id: string, readonly number: string, readonly contentHash: string }

/** A build with about 10 h of work at 95.00, an amplifier, and a quote with one yes or no and one either or. */
async function aQuote(): Promise<{ build: string, line: Json & { id: string }, lamp: string, leather: string, felt: string }> {
  const { build, zone, department } = await aBuild(shop)
  const inZone = { buildId: build.id, zoneId: zone.id }
  const part = await api.create('/api/parts', { ...inZone, name: 'Door pod', quantity: 1 })
  await api.create('/api/operations', { buildId: build.id, partId: part.id, kind: 'sand', departmentId: department.id, run: '10 h', runBest: '8 h', runWorst: '16 h' })
  await api.create('/api/equipment-lines', { ...inZone, name: 'Amplifier', quantity: 1, cost: '300.00', price: '500.00', taxCodeId: goods.id })
  const option = async (name: string, insteadOf = ''): Promise<string> => (await api.create('/api/quote-options', { buildId: build.id, name, insteadOf })).id
  const [lamp, leather, felt] = [await option('Second lamp'), await option('Leather', 'cover'), await option('Felt', 'cover')]
  await api.create('/api/equipment-lines', { ...inZone, name: 'Lamp', quantity: 1, cost: '10.00', price: '40.00', taxCodeId: goods.id, optionId: lamp })
  const add = (text: string, price: string, more: Json = {}) => api.create('/api/quote-lines', { buildId: build.id, text, price, taxCodeId: goods.id, ...more })
  await add('Cover in leather', '200.00', { optionId: leather })
  await add('Cover in felt', '-20.00', { optionId: felt })
  const line = await add('Collecting the vehicle', '85.00', { quantity: '1.5' })
  await api.create('/api/deposit-steps', { buildId: build.id, due: 'On signing', share: '30 %' })
  await api.create(`/api/builds/${build.id}/quotes`, { laborTaxCodeId: labor.id, materialTaxCodeId: goods.id, suppliesShare: '10 %', suppliesMost: '50.00', validDays: 10, exclusions: 'Paint of the doors.', replacedParts: 'wanted back' })
  return { build: build.id, line, lamp, leather, felt }
}

const freeze = async (build: string): Promise<Frozen> => (await api.create(`/api/builds/${build}/revisions`, {})) as unknown as Frozen
const yes = (frozen: Frozen, more: Json = {}): Json => ({ decision: 'accepted', typedName: 'Imre Dall', hasRead: true, contentHash: frozen.contentHash, ...more })
const consent = (frozen: Frozen, body: Json): Promise<Answer> => api.post(`/api/revisions/${frozen.id}/consents`, body)
const read = async (url: string): Promise<Json> => (await api.get(url)).json()

async function linkTo(build: string, frozen: Frozen, days = 90): Promise<{ path: string, id: string }> {
  const made = (await api.post(`/api/builds/${build}/links`, { subject: `quote:${frozen.id}`, note: 'Imre', days })).json<{ address: string, link: { id: string } }>()
  return { path: new URL(made.address).pathname, id: made.link.id }
}
/** As a browser sends a form from a page that tells nobody where it stands. */
const send = (url: string, form: Form): Promise<Answer> =>
  shop.app.inject({ method: 'POST', url, headers: { 'content-type': 'application/x-www-form-urlencoded', 'origin': 'null' }, payload: new URLSearchParams(Object.entries(form).flatMap(([name, value]) => [value].flat().map((one): [string, string] => [name, one]))).toString() })
const formOf = (html: string): Form => Object.fromEntries([...html.matchAll(/<input type="hidden" name="(_key|hash|seen|decision)" value="([^"]*)"/g)].slice(0, 4).map(([, name, value]) => [name!, value!]))

t.test('a draft adds up by zone, by part and as a lump sum, and is frozen as numbered revisions', async (t) => {
  const { build, line } = await aQuote()
  const quoteId = (await api.get(`/api/quotes?build=${build}`)).json<{ items: { id: string, version: number }[] }>().items[0]!
  // By hand: work (8 + 4 × 10 + 16) ÷ 6 = 10.667 h × 95.00 = 1,013.33; amplifier 500.00; lamp 40.00.
  for (const [index, linesBy] of ['part', 'lump sum', 'zone'].entries()) {
    await api.patch(`/api/quotes/${quoteId.id}`, { linesBy }, { 'if-match': `"${quoteId.version + index}"` })
    const { content, estimate, hinders } = (await read(`/api/builds/${build}/quote`)) as { content: { number: string, lines: { amountMinor: number, key: string }[], totals: Json, options: { totals: Json }[] }, estimate: number, hinders: string[] }
    t.same(hinders, [])
    t.equal(estimate, 101_333 + 50_000 + 4_000, linesBy)
    t.equal(content.lines.reduce((sum, { amountMinor }) => sum + amountMinor, 0), estimate + 5_000 + 12_750 + 20_000 - 2_000, 'with supplies, at most 50.00, and the further lines')
    // In a spreadsheet the draft adds up to the same.
    const rows = (parse((await manager.get(`/builds/${build}/quote-draft.csv`)).body, { bom: true }) as string[][]).slice(1)
    t.equal(rows.reduce((sum, row) => sum + Math.round(Number(row[8]) * 100), 0), estimate + 5_000 + 12_750 + 20_000 - 2_000)
    t.ok(rows.every(([paper, , standing, , , , , , , , , accepted]) => paper === content.number && standing === 'draft' && accepted === 'no'))
    // Goods without options: 500.00 + supplies 50.00 + 127.50 = 677.50, 7.25 % of it 49.12; work 1,013.33, 6.25 % of it 63.33.
    t.match(content.totals, { netMinor: 169_083, taxMinor: 4_912 + 6_333, totalMinor: 180_328 })
    t.same(content.options.map(({ totals }) => totals.netMinor), [4_000, 20_000, -2_000])
  }
  const page = await manager.page(`/builds/${build}/quote`)
  t.match(page, /1,803\.28 USD/)
  t.match(page, /80 in 100/, 'the manager sees what it may come to')
  for (const how of ['l0', 'l1', 'net', 't0', 'total', 'd0', 'o1']) t.equal((await manager.get(`/builds/${build}/quote?how=${how}`)).statusCode, 200, how)

  const first = await freeze(build)
  t.match(first.number, /^Q-\d{4}-1$/)
  const changed = await api.patch(`/api/quote-lines/${line.id}`, { price: '95.00' }, { 'if-match': '"1"' })
  t.equal(changed.statusCode, 200)
  const second = await freeze(build)
  t.match(second.number, /-2$/)
  t.match(await read(`/api/revisions/${first.id}`), { standing: 'superseded', contentHash: first.contentHash, content: { totals: { netMinor: 169_083 } }, validUntil: '2031-03-13' })
  t.match(await read(`/api/revisions/${second.id}/difference?from=${first.id}`), {
    lines: [{ what: 'changed', text: 'Collecting the vehicle', before: '127.50', after: '142.50', by: '15.00' }], totals: [{ before: '1,690.83', after: '1,705.83', by: '15.00' }, {}, {}, { text: 'Total' }],
  })
  t.match(await manager.page(`/revisions/${second.id}/difference?from=${first.id}`), /Collecting the vehicle.*127\.50.*142\.50/s)
  for (const method of ['PUT', 'PATCH', 'DELETE'] as const) {
    const answer = await shop.app.inject({ method, url: `/api/revisions/${first.id}`, headers: { authorization: `Bearer ${manager.token}` }, payload: {} })
    t.equal(answer.statusCode, 405, method)
    t.match(answer.json<Json>().detail, /stays as it was frozen/)
  }
})

t.test('whoever saves an option, a line or a deposit step is back at the quote, which says what was saved', async (t) => {
  const { build, line, leather } = await aQuote()
  const lands = async (url: string, form: Form, says: RegExp): Promise<void> => {
    const { statusCode, headers, body } = await manager.post(url, form)
    t.equal(statusCode, 303, body.slice(0, 500))
    t.match(headers.location, new RegExp(`^/builds/${build}/quote\\?saved=`), url)
    t.match(await manager.page(String(headers.location)), says)
  }
  await lands('/quote-options', { buildId: build, name: 'Walnut' }, /Saved: <strong>option 4, Walnut</)
  await lands(`/quote-options/${leather}`, { name: 'Nappa', insteadOf: 'cover', _version: '1' }, /Saved: <strong>option 2, Nappa</)
  await lands('/quote-lines', { buildId: build, text: 'Returning customer', quantity: '1', price: '-10.00' }, /Saved: <strong>line “Returning customer”</)
  await lands(`/quote-lines/${line.id}`, { text: 'Collecting it', quantity: '1', price: '85.00', _version: '1' }, /Saved: <strong>line “Collecting it”</)
  await lands('/deposit-steps', { buildId: build, due: 'At delivery', share: '70 %' }, /Saved: <strong>deposit step “At delivery”</)
  const again = await manager.post('/quote-lines', { buildId: build, text: 'One of many', quantity: '1', price: '1.00', _another: 'true' })
  t.match(again.headers.location, /^\/quote-lines\/new/, 'an empty form, where that is asked for')
  t.equal((await manager.get(`/quote-options/${leather}`)).statusCode, 200, 'its own page is still there, with its history')
})

t.test('what if an option is dropped: what is in it goes, whether made, bought or a line of the quote, and nothing is written', async (t) => {
  const { build } = await aQuote()
  interface Side { price: number, further: number, cost: number, margin: number, marginShare: number }
  const ask = async (query: string): Promise<{ asItIs: Side, whatIf: Side }> => (await read(`/api/builds/${build}/what-if?${query}`)) as unknown as { asItIs: Side, whatIf: Side }
  // By hand: work 1,013.33, amplifier 500.00, lamp 40.00; supplies 50.00, collecting 127.50, leather 200.00, felt −20.00.
  const { asItIs } = await ask('')
  t.match(asItIs, { price: 155_333, further: 35_750 })
  t.equal(asItIs.margin, asItIs.price + asItIs.further - asItIs.cost)
  t.match((await ask('drop=1')).whatIf, { price: 151_333, further: 35_750, cost: asItIs.cost - 1_000 }, 'the lamp costs 10.00')
  t.match((await ask('drop=3')).whatIf, { price: 155_333, further: 37_750, margin: asItIs.margin + 2_000 }, 'felt takes 20.00 off')
  const { whatIf } = await ask('drop=1&drop=2&drop=3')
  t.match(whatIf, { price: 151_333, further: 17_750 })
  t.equal(whatIf.marginShare, Math.round(1000 * whatIf.margin / (whatIf.price + whatIf.further)))
  t.same((await ask('')).whatIf, asItIs, 'nothing is written')
  const page = await manager.page(`/builds/${build}/what-if?drop=2`)
  t.match(page.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' '), /Further lines and supplies 357\.50 USD 157\.50 USD −200\.00 USD/)
  t.match(page, /name="drop" value="2" checked/)
  for (const how of ['fa', 'fw', 'fd', 'mw']) t.equal((await manager.get(`/builds/${build}/what-if?drop=2&how=${how}`)).statusCode, 200, how)
  const refused = await api.get(`/api/builds/${build}/what-if?drop=9`)
  t.equal(refused.statusCode, 422)
  t.match(refused.json<Json>().detail, /no option of this quote/)
})

t.test('what cannot be a paper is refused in words', async (t) => {
  const { build, line, felt } = await aQuote()
  const hinders = async (): Promise<string[]> => ((await read(`/api/builds/${build}/quote`)) as { hinders: string[] }).hinders
  const price = async (amount: string, version: number): Promise<void> => void await api.patch(`/api/quote-lines/${line.id}`, { price: amount }, { 'if-match': `"${version}"` })
  await price('-900.00', 1)
  t.match((await hinders()).join(' '), /tax code GOODS can come to less than nothing/, 'with felt chosen, too')
  t.equal((await api.post(`/api/builds/${build}/revisions`, {})).statusCode, 409)
  await price('9000000.00', 2)
  t.same(await hinders(), [], 'a large one is taken as far as it can be carried')
  await api.patch(`/api/quote-lines/${line.id}`, { quantity: '1000' }, { 'if-match': '"3"' })
  const tooMuch = await api.patch(`/api/quote-lines/${line.id}`, { price: '10000000.00', quantity: '1000000' }, { 'if-match': '"3"' })
  t.match(tooMuch.json<Json>().detail, /more than can be kept/)
  await price('0', 3)
  t.match(await manager.page(`/builds/${build}/quote`), /0\.00, no charge/, 'a line of nothing says so')
  await api.create('/api/quote-options', { buildId: build, name: 'Nothing' })
  t.match((await hinders()).join(' '), /Option 4, Nothing, has nothing in it/)
  t.match((await api.post(`/api/quote-options/${felt}/removal`, {})).json<Json>().detail, /Take them out of the option first/)
  t.match((await api.post('/api/deposit-steps', { buildId: build, due: 'At delivery', share: '71 %' })).json<Json>().detail, /at most 70 %/)

  const { build: large, zone, department } = await aBuild(shop)
  const many = await api.create('/api/parts', { buildId: large.id, zoneId: zone.id, name: 'Grille', quantity: 250 })
  await api.create('/api/operations', { buildId: large.id, partId: many.id, departmentId: department.id, kind: 'sand', run: '2000 h' })
  t.match((await api.post(`/api/builds/${large.id}/revisions`, {})).json<Json>().detail, /more than a paper can carry/, 'half a million hours')
  t.equal((await manager.get(`/builds/${large.id}/quote`)).statusCode, 200, 'and the draft says so')
  await api.patch(`/api/parts/${many.id}`, { quantity: 500 }, { 'if-match': '"1"' })
  t.match((await api.post(`/api/builds/${large.id}/revisions`, {})).json<Json>().detail, /more than 596,523 hours: check its times/, 'a million hours')
})

t.test('the customer reads, chooses and agrees by link, once, and the build says what is agreed', async (t) => {
  const { build, lamp, leather } = await aQuote()
  const frozen = await freeze(build)
  const { path } = await linkTo(build, frozen)
  const opened = await shop.app.inject(path)
  t.equal(opened.statusCode, 200)
  t.notMatch(opened.body, /80 in 100|300\.00 USD|cost/i, 'no spread and no cost')
  t.match(opened.body, frozen.contentHash.match(/.{4}/g)!.join(' '), 'the hash is read in groups')
  const form = { ...formOf(opened.body), typedName: 'Imre Dall', hasRead: 'true' }

  const worked = await send(`${path}/totals`, { ...form, 'option': '1', 'one.cover': '2' })
  t.equal(worked.statusCode, 200)
  // Goods then 677.50 + 40.00 + 200.00 = 917.50, 7.25 % of it 66.52; work as before: 1,930.83 + 66.52 + 63.33.
  t.match(worked.body, /2,060\.68 USD/, 'the total is worked out without script')
  t.match(worked.body, /value="Imre Dall"/, 'nothing typed is lost')
  const other = await send(`${path}/consents`, { ...form, 'option': '1', 'one.cover': '2' })
  t.equal(other.statusCode, 422)
  t.match(other.body, /With these options the total is 2,060\.68 USD/, 'another total than the one read is shown first')
  t.match((await send(`${path}/consents`, { ...form, hasRead: '', typedName: ' ' })).body, /The full name is needed.*Tick that you have read it/s)
  t.match((await send(`${path}/consents`, { ...form, option: ['2', '3'], seen: '0' })).body, /With these options/)
  t.match((await consent(frozen, yes(frozen, { options: [2, 3] }))).json<Json>().detail, /exclude each other/)
  t.match((await consent(frozen, yes(frozen, { contentHash: 'f'.repeat(64) }))).json<Json>().detail, /Nothing was taken down/)

  const agreed = { ...formOf(worked.body), 'typedName': 'Imre Dall', 'hasRead': 'true', 'option': '1', 'one.cover': '2' }
  const answers = await Promise.all([send(`${path}/consents`, agreed), send(`${path}/consents`, agreed), consent(frozen, yes(frozen, { typedName: 'Odile Dall' }))])
  t.same(answers.map(({ statusCode }) => statusCode).sort(), [303, 303, 409], 'pressed twice it is one answer, and of two people one is first')
  t.match(answers[2]!.json<Json>().detail, /was accepted by Imre Dall on Mon 3 Mar 2031 at 22:45/, 'in the shop’s time zone')
  const { items } = (await read(`/api/builds/${build}/consents`)) as { items: Json[] }
  t.equal(items.length, 1)
  t.match(items[0], { typedName: 'Imre Dall', way: 'by link', net: 193_083, tax: 12_985, chosen: [lamp, leather], contentHash: frozen.contentHash })
  t.match(await read(`/api/builds/${build}`), { consent: 193_083, consentBy: 'Imre Dall', consentOn: '2031-03-03' })
  t.match((await shop.app.inject(path)).body, /Accepted by Imre Dall.*With 2 options: Second lamp, Leather/s)

  const { version } = (await read(`/api/builds/${build}`)) as { version: number }
  const byHand = await api.patch(`/api/builds/${build}`, { consent: '9999.00' }, { 'if-match': `"${version}"` })
  t.equal(byHand.statusCode, 422)
  t.match(byHand.json<Json>().detail, /comes from the accepted quote/)
  t.equal((await api.patch(`/api/builds/${build}`, { reason: 'road noise' }, { 'if-match': `"${version}"` })).statusCode, 200, 'all else may be changed')
  t.match((await api.post(`/api/builds/${build}/revisions`, {})).json<Json>().detail, /is a change order/)
})

t.test('withdrawn, superseded, run out, declined or by a dead link, nothing is agreed', async (t) => {
  const { build } = await aQuote()
  const refused = async (frozen: Frozen, says: RegExp): Promise<void> => {
    const answer = await consent(frozen, yes(frozen))
    t.equal(answer.statusCode, 409)
    t.match(answer.json<Json>().detail, says)
    t.match(answer.json<Json>().detail, /Nothing was taken down/)
  }
  const first = await freeze(build)
  const link = await linkTo(build, first)
  const form = { ...formOf((await shop.app.inject(link.path)).body), typedName: 'Imre', hasRead: 'true' }
  await api.post(`/api/links/${link.id}/revocations`, {})
  t.equal((await send(`${link.path}/consents`, form)).statusCode, 404)
  t.equal((await api.post(`/api/revisions/${first.id}/withdrawals`, { why: ' ' })).statusCode, 422)
  t.match(await (await api.post(`/api/revisions/${first.id}/withdrawals`, { why: 'The amplifier is no longer made.' })).json<Json>(), { standing: 'withdrawn' })
  await refused(first, /withdrawn.*no longer made/)
  const second = await freeze(build)
  const openLink = await linkTo(build, second)
  const third = await freeze(build)
  await refused(second, /superseded by Q-\d+-3/)
  t.match((await send(`${openLink.path}/consents`, { ...form, hash: second.contentHash, seen: '180328' })).body, /There is a newer one/)
  now = new Date('2031-03-13T10:14:00Z')
  t.match(await read(`/api/revisions/${third.id}`), { standing: 'open' }, 'a minute before the shop’s midnight')
  now = new Date('2031-03-13T10:16:00Z')
  await refused(third, /good until Thu 13 Mar 2031/)
  now = new Date('2031-03-03T09:00:00Z')
  const no = await consent(third, { decision: 'declined', typedName: 'Imre Dall', contentHash: third.contentHash, note: 'Too dear.' })
  t.match(no.json<Json>(), { standing: 'declined', consent: { net: 0, note: 'Too dear.' } })
  await refused(third, /declined by Imre Dall/)
  t.match(await read(`/api/builds/${build}`), { consent: null })
  t.equal((await freeze(build)).number.slice(-2), '-4', 'after a no, a new revision')
  t.equal((await send(`${openLink.path}/constructor`, form)).statusCode, 404, 'nothing else is done by link')
})

t.test('on paper stands what was frozen, in A4 and Letter', needsReader, async (t) => {
  const { build } = await aQuote()
  const frozen = await freeze(build)
  for (const [paper, size] of [['A4', /A4/], ['Letter', /letter/]] as const) {
    const answer = await manager.get(`/revisions/${frozen.id}/paper.pdf?paper=${paper}`)
    const [text, facts] = [textOfPdf(answer.rawPayload), factsOfPdf(answer.rawPayload)]
    t.match(facts.get('Page size'), size)
    const { content } = (await read(`/api/revisions/${frozen.id}`)) as { content: { lines: { text: string }[], options: { name: string }[] } }
    for (const { text: words } of content.lines) t.match(text, words)
    for (const { name } of content.options) t.match(text, name)
    for (const words of [frozen.number, 'Rivet Lane', 'Harrow Lane Bakery', '1,690.83', '63.33', '49.12', '1,803.28', '540.98', 'Paint of the doors.', 'sheet 1 of', frozen.contentHash.slice(0, 4), '2031-03-13']) t.match(text, words)
    t.match(answer.rawPayload.toString('latin1'), /\/Outlines/, 'with bookmarks')
  }
  await consent(frozen, yes(frozen))
  const agreed = textOfPdf((await manager.get(`/revisions/${frozen.id}/paper.pdf`)).rawPayload).replace(/\s+/g, ' ')
  t.match(agreed, /Accepted by Imre Dall, Mon 3 Mar 2031 at 22:45 \(Pacific\/Chatham\)/, 'nine in the morning by UTC, by the clock of the shop')
})

t.test('a technician and delivery never see a quote', async (t) => {
  const { build, lamp } = await aQuote()
  const frozen = await freeze(build)
  for (const role of ['technician', 'delivery'] as const) {
    for (const url of [`/builds/${build}/quote`, `/revisions/${frozen.id}`, `/revisions/${frozen.id}/paper.pdf`, `/quote-options/${lamp}`]) t.equal((await shop.as(role).get(url)).statusCode, 403, url)
    t.equal((await shop.as(role).api.post(`/api/revisions/${frozen.id}/consents`, yes(frozen), { 'idempotency-key': randomUUID() })).statusCode, 403)
  }
  const line = (await shop.as('technician').api.get(`/api/equipment-lines?build=${build}`)).json<{ items: Json[] }>().items[0]!
  t.notOk('optionId' in line, 'nor what is offered')
})
