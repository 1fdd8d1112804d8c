import t from 'tap'
import { randomUUID } from 'node:crypto'
import { acceptedQuote } from '../support/accepting.ts'
import { aPaper } from '../support/aPaper.ts'
import { anAccount, type Invoice } from '../support/anAccount.ts'
import { openShop } from '../support/shop.ts'

const clock = (): Date => new Date('2031-03-04T10:00:00Z')
const words = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')

t.test('a deposit before any invoice, a payment and one paid back stand on the account, and each figure opens', async (t) => {
  const shop = await openShop(t, { clock })
  const { build, pay, account } = await anAccount(shop)
  t.equal((await pay('250.00', { reference: 'RL-31', note: '=deposit' })).statusCode, 201)
  t.equal((await pay(10_050, { method: 'cash' })).statusCode, 201)
  t.match(await account(), { invoicedMinor: 0, paidMinor: 35_050, balanceMinor: -35_050, aheadMinor: 35_050 })
  t.equal((await pay('50.50', { direction: 'paid back' })).statusCode, 201, 'back to the customer, who has paid too much so far')
  t.match(await account(), { paidMinor: 30_000, balanceMinor: -30_000 })

  const manager = shop.as('manager')
  const page = await manager.page(`/builds/${build.id}/account`)
  t.match(words(page), /Received, bank transfer for no invoice; =deposit RL-31 Test manager 250\.00 Take back/)
  t.match(words(page), /Paid back, bank transfer for no invoice .* −50\.50/)
  t.match(words(page), /Balance: in the customer’s favor −300\.00 USD/)
  const csv = (await manager.get(`/builds/${build.id}/account.csv`)).body
  t.match(csv, `2031-03-04,payment,,,,,,-250.00,-250.00,bank transfer,RL-31,'=deposit,Test manager`, 'no cell is a formula')
  for (const role of ['technician', 'delivery'] as const) t.equal((await shop.as(role).get(`/builds/${build.id}/account`)).statusCode, 403)
})

t.test('the deposit plan of the accepted quote stands on the account, and lines, hours and account are taken into a spreadsheet', async (t) => {
  const shop = await openShop(t, { clock })
  const { build, log, pay } = await anAccount(shop)
  await log('1:30')
  const deposits = [{ number: 1, share: 300, due: 'On signing', amountMinor: 0 }, { number: 2, share: 200, due: 'At the equipment', amountMinor: 0 }]
  await acceptedQuote(shop, build.id, clock(), { deposits, lines: aPaper().lines.filter(({ option }) => option === null).map((line, index) => (index === 0 ? { ...line, text: '@Rear wall' } : line)) })
  await pay('4000.00')
  const manager = shop.as('manager')
  const page = words(await manager.page(`/builds/${build.id}/account`))
  // 11,537.86 with tax: 30 % are 3461.358, 20 % 2307.572.
  t.match(page, /On signing 30 % 3,461\.36 0\.00 paid At the equipment 20 % 2,307\.57 1,768\.93 in part/)
  t.match(words(await manager.page(`/builds/${build.id}/account?how=d1`)), /Accepted quote, with tax .* 11,537\.86 USD .* 20 % .* 2,307\.57 USD/)
  const csv = async (name: string): Promise<string> => (await manager.get(`/builds/${build.id}/${name}.csv`)).body
  t.match(await csv('quote-lines'), `Q-0147-1,quote,accepted,2031-03-03,,'@Rear wall,1,7420.00,7420.00,LABOR,6.25,yes`)
  t.match(await csv('hours'), '2031-03-03,Wood room,P-101,Amplifier board,10,cut,work,1.50,142.50,')
  for (const name of ['account', 'hours', 'quote-lines']) t.equal((await shop.as('technician').get(`/builds/${build.id}/${name}.csv`)).statusCode, 403)
})

t.test('a payment of nothing, of the future, for a foreign invoice, or beyond what can be kept is refused, and what was typed stays', async (t) => {
  const shop = await openShop(t, { clock })
  const { build, pay, account } = await anAccount(shop)
  const refused = [
    [{ amount: '0' }, /above zero/], [{ amount: '-5' }, /negative/], [{ amount: '1,5' }, /decimal comma|comma/i], [{ amount: '99999999999' }, /more than can be kept|at most/],
    [{ amount: '5', paidOn: '2031-03-05' }, /future/], [{ amount: '5', paidOn: '2031-02-30' }, /calendar date/], [{ amount: '5', invoiceId: randomUUID() }, /no such invoice/],
  ] as const
  for (const [{ amount, ...more }, says] of refused) {
    const answer = await pay(amount, more)
    t.equal(answer.statusCode, 422, amount)
    t.match(answer.json().detail, says)
  }
  const answer = await shop.as('manager').post(`/builds/${build.id}/payments`, { amount: '0', method: 'cheque', paidOn: '2031-03-04', reference: 'kept' })
  t.equal(answer.statusCode, 422)
  t.match(answer.body, 'value="kept"')
  t.match(words(answer.body), /2 entries to .*How is one of: cash, card, bank transfer, check/)
  t.same((await account()).payments, [])
})

t.test('the same post twice is one entry, and an equal one is asked about', async (t) => {
  const shop = await openShop(t, { clock })
  const { build, api, url, pay, account } = await anAccount(shop)
  const key = { 'idempotency-key': randomUUID() }
  const body = { amount: '100.00', method: 'card' }
  const [one, two] = [await api.post(`${url}/payments`, body, key), await api.post(`${url}/payments`, body, key)]
  t.equal(one.json().id, two.json().id)
  const form = { amount: '70.00', method: 'card', paidOn: '2031-03-04', _key: randomUUID() }
  for (let time = 0; time < 3; time += 1) t.equal((await shop.as('manager').post(`/builds/${build.id}/payments`, form)).statusCode, 303)
  t.same((await account()).payments.map(({ amountMinor }) => amountMinor), [10_000, 7_000])
  const equal = await pay('100.00', { method: 'card' })
  t.equal(equal.statusCode, 422)
  t.match(equal.json().detail, /An equal entry is there already: 100\.00 USD, card/)
  t.equal((await pay('100.00', { method: 'card', confirmed: true })).statusCode, 201)
})

t.test('an entry is taken back whole by another, once, also when two press at the same time', async (t) => {
  const shop = await openShop(t, { clock })
  const { api, pay, account } = await anAccount(shop)
  const { id } = (await pay('100.00')).json()
  const takeBack = () => api.post(`/api/payments/${id}/counter-entries`, { note: 'wrong customer' })
  const answers = await Promise.all([takeBack(), takeBack(), takeBack()])
  t.same(answers.map(({ statusCode }) => statusCode).sort(), [201, 409, 409])
  const counter = answers.find(({ statusCode }) => statusCode === 201)!.json()
  t.match(counter, { amountMinor: -10_000, takesBackId: id })
  t.equal((await api.post(`/api/payments/${counter.id}/counter-entries`, {})).statusCode, 409, 'nor is the taking back taken back')
  t.match(await account(), { paidMinor: 0, balanceMinor: 0 })
  t.equal((await api.post(`/api/payments/${randomUUID()}/counter-entries`, {})).statusCode, 404)
})

t.test('time and material: hours at the department’s price, things at theirs, tax by code; charged once', async (t) => {
  const shop = await openShop(t, { clock })
  const { build, log, issue, pay, account, api, url } = await anAccount(shop)
  const entry = await log('3:30')
  await log('1 h', { kind: 'rework', why: 'Cut too short' })
  await log('2 h', { kind: 'waiting', why: 'Glue' })
  await pay('200.00')
  // By hand: 3.5 h at 95.00 = 332.50; 2 × 149.95 = 299.90; one sheet 92.00. 5 % of 332.50 = 16.625; 7.25 % of 391.90 = 28.41275.
  const manager = shop.as('manager')
  const draft = words(await manager.page(`/builds/${build.id}/invoices/new?basis=time+and+material`))
  t.match(draft, /1 Wood room 3\.5 h 95\.00 LABOR 332\.50/)
  t.match(draft, /2 E-01 Amplifier 2 149\.95 GOODS 299\.90/)
  t.match(draft, /Hours of rework, and fasteners that the way back will take, are not charged unless they are ticked/)
  t.match(draft, /The customer has accepted nothing in writing/)
  const invoice = await issue()
  t.match(invoice, { number: 'I-0001', dueOn: '2031-03-14', paidAheadMinor: 20_000, openMinor: 56_944, total: { netMinor: 72_440, taxMinor: 4_504, totalMinor: 76_944 } })
  t.same(invoice.total.codes.map(({ taxCode, netMinor, taxMinor }) => [taxCode, netMinor, taxMinor]), [['GOODS', 39_190, 2_841], ['LABOR', 33_250, 1_663]])
  t.match(words(await manager.page(`/invoices/${invoice.id}?how=wt1`)), /332\.50 USD .*5 %.* 16\.63 USD/)
  t.match(words(await manager.page(`/invoices/${invoice.id}?how=L1`)), /3\.5 h .*95\.00 USD .*332\.50 USD/)

  const again = await api.post(`${url}/invoices`, { basis: 'time and material' })
  t.equal(again.statusCode, 409)
  t.match(again.json().detail, /all of it was invoiced already/)
  // What is corrected or logged afterward brings the difference alone: 3:30 becomes 4:00, and 20 minutes more.
  await api.create(`/api/time-entries/${entry.id}/corrections`, { operationId: entry.operationId, date: '2031-03-03', time: '4 h' })
  await log('0:20')
  const second = await issue({ lines: ['h1', 'r1'] })
  t.same(second.lines.map(({ text, amountMinor }) => [text, amountMinor]), [['Wood room', 7_917], ['Wood room, rework', 9_500]], '50 minutes at 95.00, and the rework that was ticked')
  t.match(await account(), { invoicedMinor: 76_944 + 17_417 + 871, paidMinor: 20_000, aheadMinor: 0 })
})

t.test('what was looked at is what is issued: hours logged in between bring the draft again', async (t) => {
  const shop = await openShop(t, { clock })
  const { build, log, api, url } = await anAccount(shop)
  await log('1 h')
  const manager = shop.as('manager')
  const page = await manager.page(`/builds/${build.id}/invoices/new?basis=time+and+material`)
  const fingerprint = /name="fingerprint" value="([^"]*)"/.exec(page)![1]!
  const line = [...page.matchAll(/type="hidden" name="line" value="([^"]*)"/g)].map(([, offer]) => offer!)
  await log('1 h')
  const form = { basis: 'time and material', fingerprint, line, note: '' }
  t.equal((await manager.post(`/builds/${build.id}/invoices`, form)).statusCode, 409)
  t.same(await shop.database.reads.invoice.count(), 0)
  const { fingerprint: now } = (await api.get(`${url}/invoice-draft?basis=time+and+material`)).json()
  const issued = await manager.post(`/builds/${build.id}/invoices`, { ...form, fingerprint: now })
  t.equal(issued.statusCode, 303)
  t.match(words(await manager.page(issued.headers.location!)), /I-0001 .* Still open/)
})

t.test('numbers have no gaps, however many issue at the same time, and nothing issued can be changed', async (t) => {
  const shop = await openShop(t, { clock })
  const { build, log, issue, credit, api, url, zone } = await anAccount(shop)
  await log('1 h')
  const first = await issue({ lines: ['h1'] })
  for (let index = 0; index < 5; index += 1) await api.create('/api/equipment-lines', { buildId: build.id, zoneId: zone.id, name: `Lamp ${index}`, quantity: 1, cost: '1.00', price: '10.00' })
  const presses = await Promise.all(['e1', 'e2', 'e3', 'e4', 'e5', 'e6', 'e2', 'e3'].map((line) => api.post(`${url}/invoices`, { basis: 'time and material', lines: [line] })))
  t.same(presses.map(({ statusCode }) => statusCode).sort(), [201, 201, 201, 201, 201, 201, 409, 409], 'each thing is charged once')
  await credit(first, { what: 'whole' })
  const rows = await shop.database.reads.invoice.findMany({ orderBy: { number: 'asc' }, select: { number: true } })
  t.same(rows.map(({ number }) => number), [1, 2, 3, 4, 5, 6, 7, 8])
  for (const method of ['PATCH', 'PUT', 'DELETE'] as const) {
    const answer = await shop.app.inject({ method, url: `/api/invoices/${first.id}`, headers: { authorization: `Bearer ${shop.as('owner').token}` }, payload: { netMinor: 1 } })
    t.match(answer.json(), { status: 405, title: 'It is issued', detail: /I-0001 stays as it was issued.*credit note/ }, method)
  }
  await shop.database.write(async (write) => write.invoice.update({ where: { id: first.id }, data: { content: (await write.invoice.findUniqueOrThrow({ where: { id: first.id } })).content.replace('95', '59') } }))
  t.equal((await api.get(`/api/invoices/${first.id}`)).statusCode, 500, 'what is not what was issued is not shown as if it were')
})

t.test('a credit note takes back amounts of lines with their tax, never more than is left, and the whole to the last minor unit', async (t) => {
  const shop = await openShop(t, { clock })
  const { log, issue, credit, account, api, url } = await anAccount(shop)
  await log('3:30')
  const invoice = await issue()
  const [hours, amplifier] = [invoice.lines[0]!.key, invoice.lines[1]!.key]
  const first = await credit(invoice, { what: 'chosen', amounts: { [amplifier]: '149.95', [hours]: 100 }, note: 'One came back' })
  t.equal(first.statusCode, 201, first.body)
  // 7.25 % of 149.95 = 10.871; 5 % of 1.00 = 0.05.
  t.match(first.json(), { number: 'I-0002', kind: 'credit note', total: { netMinor: -15_095, taxMinor: -1_092, totalMinor: -16_187 } })
  const more = await credit(invoice, { what: 'chosen', amounts: { [amplifier]: '149.96' } })
  t.match(more.json(), { status: 422, fields: [{ field: amplifier, message: /at most 149\.95 USD net is left/ }] })
  t.equal((await credit(invoice, { what: 'chosen', amounts: { L9: 5 } })).statusCode, 422)
  t.equal((await credit(invoice, { what: 'chosen', amounts: { [hours]: -5 } })).statusCode, 422)
  t.equal((await credit(invoice, { what: 'chosen' })).statusCode, 422)
  const both = await Promise.all([credit(invoice, { what: 'whole' }), credit(invoice, { what: 'whole' })])
  t.same(both.map(({ statusCode }) => statusCode).sort(), [201, 409])
  t.match(await account(), { invoicedMinor: 76_944, creditedMinor: 76_944, balanceMinor: 0 })
  t.equal((await credit(both.find(({ statusCode }) => statusCode === 201)!.json<Invoice>(), { what: 'whole' })).statusCode, 409, 'a credit note is not credited')
  const anew = await api.create(`${url}/invoices`, { basis: 'time and material' }) as unknown as Invoice
  t.match(anew, { number: 'I-0004', total: { totalMinor: 76_944 } }, 'what was credited whole can be invoiced again')
})

t.test('more than is open on an invoice is asked about, and the rest counts as paid ahead', async (t) => {
  const shop = await openShop(t, { clock })
  const { log, issue, pay, account } = await anAccount(shop)
  await log('1 h')
  const invoice = await issue({ lines: ['h1'] })
  t.equal(invoice.total.totalMinor, 9_975)
  const over = await pay('100.00', { invoiceId: invoice.id })
  t.match(over.json(), { status: 422, fields: [{ field: 'confirmed', message: /100\.00 USD is more than the 99\.75 USD still open on I-0001/ }] })
  t.equal((await pay('60.00', { invoiceId: invoice.id })).statusCode, 201)
  t.equal((await pay('40.00', { invoiceId: invoice.id, confirmed: true })).statusCode, 201)
  t.match(await account(), { balanceMinor: -25, aheadMinor: 25, invoices: [{ number: 'I-0001', openMinor: 0 }] })
  t.equal((await pay('0.26', { direction: 'paid back' })).statusCode, 422, 'more back than was paid too much is asked about too')
  t.equal((await pay('0.25', { direction: 'paid back' })).statusCode, 201)
  t.match(await account(), { balanceMinor: 0, aheadMinor: 0, invoices: [{ openMinor: 0 }] })
})

t.test('a million hours are more than an invoice can keep, and that is said', async (t) => {
  const shop = await openShop(t, { clock })
  const { department, build, part, operation, api, url } = await anAccount(shop)
  await shop.database.write(async (write) => {
    await write.department.update({ where: { id: department.id }, data: { sellRate: 1_000_000_000 } })
    const entry = { buildId: build.id, operationId: operation.id, personId: shop.people.technician, kind: 'work', seconds: 1_000_000 * 3_600 / 2, enteredById: shop.people.technician, startedAt: clock() }
    await write.timeEntry.create({ data: entry })
    await write.timeEntry.create({ data: entry })
  })
  t.ok(part.id)
  const answer = await api.post(`${url}/invoices`, { basis: 'time and material' })
  t.equal(answer.statusCode, 409)
  t.match(answer.json().title, /More than can be kept|cannot be made/)
  t.equal((await shop.as('manager').get(`/builds/${build.id}/invoices/new`)).statusCode, 409)
  t.equal(await shop.database.reads.invoice.count(), 0)
})

t.test('after the build the margin is of what was invoiced less credited, before that of what was accepted, before that of the estimate, and says which', async (t) => {
  const shop = await openShop(t, { clock })
  const { build, log, issue, credit, api, url } = await anAccount(shop)
  const after = async () => (await api.get(`${url}/after`)).json().money
  // By hand: 10 h at 38.00, 2 × 90.00 and a sheet of 58.00 cost 618.00; the estimate is 950.00 + 299.90 + 92.00.
  t.match(await after(), { basis: 'estimate', price: 134_190, cost: 61_800, margin: 72_390, estimatePrice: 134_190, accepted: null, invoiced: null })
  const lines = [{ key: 'all', text: 'All of it', quantity: 1000, eachMinor: 120_000, amountMinor: 120_000, taxCode: { code: 'LABOR', name: 'Labor', rateThousandthsOfPercent: 5_000 }, option: null }]
  await acceptedQuote(shop, build.id, clock(), { lines, supplies: null, totals: { netMinor: 120_000, taxMinor: 6_000, totalMinor: 126_000, taxes: [] } })
  t.match(await after(), { basis: 'accepted', price: 120_000, margin: 58_200, marginShare: 485, estimatePrice: 134_190, accepted: 120_000 }, 'without tax')
  await log('3:30')
  const invoice = await issue()
  t.match(await after(), { basis: 'invoiced', price: 72_440, margin: 10_640, accepted: 120_000, invoiced: 72_440, credited: 0 })
  await credit(invoice, { what: 'chosen', amounts: { [invoice.lines[1]!.key]: '149.95' } })
  t.match(await after(), { basis: 'invoiced', price: 57_445, margin: -4_355, invoiced: 72_440, credited: 14_995 }, '724.40 less one amplifier of 149.95')
  const manager = shop.as('manager')
  const page = words(await manager.page(`/builds/${build.id}/after`))
  t.match(page, /Price of the estimate 1,341\.90 USD .* Accepted 1,200\.00 USD .* Invoiced less credited 574\.45 USD .* Cost 618\.00 USD .* Margin, as invoiced −43\.55 USD/)
  t.match(page, /Less is invoiced so far than was accepted/)
  t.match(words(await manager.page(`/builds/${build.id}/after?how=mp`)), /Invoiced .* 724\.40 USD Credited .* −149\.95 USD .* 574\.45 USD/)

  await shop.database.write((write) => write.build.update({ where: { id: build.id }, data: { stage: 'delivered', deliveredOn: '2031-03-04' } }))
  t.match((await api.get('/api/after')).json(), { money: { price: 57_445, cost: 61_800, margin: -4_355, estimatePrice: 134_190 } })
  const all = words(await manager.page('/after'))
  t.match(all, /price as invoiced .* 1,341\.90 574\.45 618\.00 −43\.55 −7\.6 %/)
  t.match(all, /The price of 1 as invoiced\./)
  await shop.database.write(async (write) => {
    await write.operation.updateMany({ where: { buildId: build.id }, data: { run: 7_200_000 } })
    await write.fabricatedPart.updateMany({ where: { buildId: build.id }, data: { quantity: 1000 } })
  })
  t.match((await api.get('/api/after')).json(), { builds: [], leftOut: [/^B-0001 /] }, 'a build whose figures cannot be made takes no other away')
  t.match(words(await manager.page('/after')), /B-0001 Two-way front and a false floor is left out/)
})

t.test('a payment before its invoice, lines that are gone, and more than was accepted are told in words, and the draft comes again with what was typed', async (t) => {
  const shop = await openShop(t, { clock })
  const { build, log, issue, pay, api, url } = await anAccount(shop)
  const lines = [{ key: 'all', text: 'All of it', quantity: 1000, eachMinor: 30_000, amountMinor: 30_000, taxCode: null, option: null }]
  await acceptedQuote(shop, build.id, clock(), { lines, supplies: null, totals: { netMinor: 30_000, taxMinor: 0, totalMinor: 30_000, taxes: [] } })
  await log('1 h')
  const first = await issue({ lines: ['h1'] })
  const early = await pay('10.00', { invoiceId: first.id, paidOn: '2031-03-03' })
  t.match(early.json(), { status: 422, fields: [{ field: 'paidOn', message: /before I-0001 was issued, 2031-03-04.* entered for no invoice/ }] })
  t.equal((await pay('10.00', { paidOn: '2031-03-03' })).statusCode, 201)
  t.match((await pay('10.00', { paidOn: '1931-03-03' })).json().detail, /check the year/)

  t.match((await api.post(`${url}/invoices`, { basis: 'time and material', lines: ['h1', 'e1'] })).json(), { status: 409, detail: /h1: no such line can be invoiced now/ }, 'charged once, and nothing is left out unsaid')
  // 99.75 are invoiced; two amplifiers with tax are 321.64.
  const over = await api.post(`${url}/invoices`, { basis: 'time and material', lines: ['e1'] })
  t.match(over.json(), { status: 422, fields: [{ field: 'confirmed', message: /121\.39 USD more is charged than the customer has accepted/ }] })
  const manager = shop.as('manager')
  const page = await manager.page(`/builds/${build.id}/invoices/new?basis=time+and+material&chosen=yes&line=e1`)
  const hidden = (name: string): string => new RegExp(`name="${name}" value="([^"]*)"`).exec(page)![1]!
  const form = { basis: 'time and material', line: 'e1', fingerprint: hidden('fingerprint'), _key: hidden('_key'), note: 'Kept by hand' }
  const again = await manager.post(`/builds/${build.id}/invoices`, form)
  t.equal(again.statusCode, 422)
  t.match(again.body, /name="confirmed"[^]*Tick that it is meant|Tick that it is meant[^]*name="confirmed"/)
  t.match(again.body, 'Kept by hand')
  const stale = await manager.post(`/builds/${build.id}/invoices`, { ...form, fingerprint: 'other' })
  t.equal(stale.statusCode, 409)
  t.match(words(stale.body), /The draft has changed .*look at the draft again/)
  t.match(stale.body, 'Kept by hand')
  t.equal(await shop.database.reads.invoice.count(), 1)
  for (let time = 0; time < 2; time += 1) t.equal((await manager.post(`/builds/${build.id}/invoices`, { ...form, confirmed: 'true' })).statusCode, 303)
  t.equal(await shop.database.reads.invoice.count(), 2, 'pressed twice, issued once')
})

t.test('once a build is invoiced the account offers that basis alone, and what a credit note took back is not charged again unsaid', async (t) => {
  const shop = await openShop(t, { clock })
  const { build, credit, issue } = await anAccount(shop)
  await acceptedQuote(shop, build.id, clock())
  const manager = shop.as('manager')
  const account = async () => words(await manager.page(`/builds/${build.id}/account`))
  t.match(await account(), /Invoice what was accepted Invoice time and material/)
  const invoice = await issue({ basis: 'accepted' })
  t.match(await account(), /Invoice what was accepted/)
  t.notMatch(await account(), /Invoice time and material/)
  await credit(invoice, { what: 'chosen', amounts: { [invoice.lines[0]!.key]: '100.00' } })
  const draft = words(await manager.page(`/builds/${build.id}/invoices/new?basis=accepted`))
  t.match(draft, /I-0002 took back a part of what was invoiced\. This invoice charges it again/)
  t.match(draft, /Total with tax 106\.25/)
  await credit(invoice, { what: 'whole' })
  t.match(await account(), /Invoice what was accepted Invoice time and material/, 'credited whole, both ways are open')
})
