import t from 'tap'
import { accept, acceptedQuote } from '../support/accepting.ts'
import { anAccount } from '../support/anAccount.ts'
import { openShop } from '../support/shop.ts'

const clock = (): Date => new Date('2031-03-04T10:00:00Z')
const words = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
t.test('a change order is drawn up line by line, frozen, and counts once it is accepted', async (t) => {
  const shop = await openShop(t, { clock })
  const { build, api, account } = await anAccount(shop)
  const order = await api.create('/api/change-orders', { buildId: build.id, title: 'A second amplifier', reason: 'Asked for at the visit', daysLater: 3 })
  const freeze = () => api.post(`/api/change-orders/${order.id}/revisions`)
  t.match((await freeze()).json().detail, /Enter a line at least/)
  const goods = (await shop.database.reads.taxCode.findFirstOrThrow({ where: { code: 'GOODS' } })).id
  const line = await api.create('/api/quote-lines', { buildId: build.id, changeOrderId: order.id, text: 'Amplifier', quantity: '2', price: '149.95', taxCodeId: goods })
  t.match((await freeze()).json().detail, /changes what the customer has accepted/)
  await acceptedQuote(shop, build.id, clock())
  // aPaper: 7420.00 at 6.25 % and 3184.50 + 222.60 at 7.25 %: tax 463.75 and 247.01475.
  const quoted = 1_082_710 + 46_375 + 24_701
  t.equal((await account()).acceptedMinor, quoted)
  const answer = await freeze()
  t.equal(answer.statusCode, 201, answer.body)
  // 7.25 % of 299.90 = 21.74275
  t.match(answer.json(), { number: `C-0001-1.1`, validUntil: '2031-03-18', netMinor: 29_990, taxMinor: 2_174 })
  t.equal((await account()).acceptedMinor, quoted, 'frozen is not accepted')
  await accept(shop, answer.json().id, clock())
  t.equal((await account()).acceptedMinor, quoted + 29_990 + 2_174)
  t.equal((await shop.database.reads.build.findUniqueOrThrow({ where: { id: build.id } })).consent, 1_082_710 + 29_990, 'what the build says of its consent follows, without tax')

  for (const refused of [await freeze(), await api.patch(`/api/quote-lines/${line.id}`, { price: '1.00' }, { 'if-match': '"1"' }), await api.patch(`/api/change-orders/${order.id}`, { title: 'Other' }, { 'if-match': '"1"' }), await api.post(`/api/quote-lines/${line.id}/removal`)]) {
    t.equal(refused.statusCode, 409)
    t.match(refused.json().detail, /Imre said yes to this change order/)
  }
  const page = words(await shop.as('manager').page(`/builds/${build.id}/change-orders/${order.id}`))
  t.match(page, /C-0001-1 .* Amplifier 2 149\.95 GOODS 299\.90 .* C-0001-1\.1 .* accepted 321\.64/)
  t.notMatch(page, /Add a line|Freeze C/)
  for (const role of ['technician', 'delivery'] as const) t.equal((await shop.as(role).get(`/builds/${build.id}/change-orders`)).statusCode, 403)
})

t.test('what is left out stands below zero, never below all that was accepted, and nothing grows beyond what can be kept', async (t) => {
  const shop = await openShop(t, { clock })
  const { build, api } = await anAccount(shop)
  await acceptedQuote(shop, build.id, clock())
  const frozen = async (...prices: readonly string[]) => {
    const order = await api.create('/api/change-orders', { buildId: build.id, title: 'Left out' })
    for (const price of prices) await api.create('/api/quote-lines', { buildId: build.id, changeOrderId: order.id, text: 'Lamps', quantity: '1', price })
    return api.post(`/api/change-orders/${order.id}/revisions`)
  }
  t.match((await frozen('-10827.11')).json(), { status: 409, title: 'Less than nothing' })
  const [one, other] = [await frozen('-10827.10'), await frozen('-0.01')]
  t.same([one.statusCode, other.statusCode], [201, 201], 'each is possible by itself')
  const agree = (answer: typeof one) => api.post(`/api/revisions/${answer.json().id}/consents`, { decision: 'accepted', typedName: 'Imre', hasRead: true, contentHash: answer.json().contentHash })
  t.equal((await agree(one)).statusCode, 201)
  t.match((await agree(other)).json(), { status: 409, title: 'Less than nothing' }, 'but not both')
  t.equal(await shop.database.reads.consent.count(), 2)
  t.match((await frozen('10000000.00', '10000000.00', '10000000.00')).json(), { status: 409, title: 'More than can be kept' })
  const option = await api.create('/api/quote-options', { buildId: build.id, name: 'Leather' })
  const order = await api.create('/api/change-orders', { buildId: build.id, title: 'With an option' })
  t.equal((await api.post('/api/quote-lines', { buildId: build.id, changeOrderId: order.id, optionId: option.id, text: 'x', quantity: '1', price: '1.00' })).statusCode, 422)
})

t.test('before the forecast passes what was accepted the shop is warned, and one press draws up what is missing from the parts that cause it', async (t) => {
  const shop = await openShop(t, { clock })
  const { build, api, url, log, operation, zone, department } = await anAccount(shop)
  // Estimated: 10 h at 95.00, 299.90 and 92.00: 1341.90. Accepted: 1300.00.
  const lines = [{ key: 'zone:1/LABOR', text: 'Doors', quantity: 1000, eachMinor: 130_000, amountMinor: 130_000, taxCode: null, option: null }]
  await acceptedQuote(shop, build.id, clock(), { lines, supplies: null, totals: { netMinor: 130_000, taxMinor: 0, totalMinor: 130_000, taxes: [] } })
  const guard = async () => (await api.get(`${url}/consent-guard`)).json()
  t.match(await guard(), { acceptedMinor: 130_000, forecastMinor: 134_190, missingMinor: 4_190, state: 'forecast over', lines: [{ label: 'Further than what was accepted', amountMinor: 4_190, isRest: true }] })
  await shop.database.write((write) => write.shop.update({ where: { id: 'shop' }, data: { allowedOverrun: 50 } }))
  t.match(await guard(), { state: 'near', missingMinor: 4_190 }, '5 % more than was accepted may be charged here: 1365.00')
  t.match((await api.get(`${url}/costing`)).json(), { consent: { state: 'near' } }, 'and the costing warns alike')

  const pod = await api.create('/api/parts', { buildId: build.id, zoneId: zone.id, name: 'Door pod', quantity: 1 })
  const mold = await api.create('/api/operations', { buildId: build.id, partId: pod.id, departmentId: department.id, kind: 'mold', run: '1 h' })
  // The pod takes 4 h instead of 1, the board 11 h instead of 10.
  await log('4 h', { operationId: mold.id })
  await log('11 h', { operationId: operation.id })
  t.match(await guard(), { forecastMinor: 134_190 + 5 * 9_500, missingMinor: 51_690, lines: [{ label: /Door pod/, amountMinor: 28_500 }, { label: /Amplifier board/, amountMinor: 9_500 }, { isRest: true, amountMinor: 13_690 }] })
  const manager = shop.as('manager')
  const page = await manager.page(`/builds/${build.id}/change-orders`)
  t.match(words(page), /Door pod 285\.00 .*Amplifier board 95\.00 .*Further than what was accepted 136\.90/)
  t.match(words(await manager.page(`/builds/${build.id}/change-orders?how=m0`)), /Door pod: missing 285\.00/)
  const [, key] = /name="_key" value="([^"]*)"[^]*?name="from"/.exec(page)!
  for (let time = 0; time < 2; time += 1) t.equal((await manager.post(`/builds/${build.id}/change-orders`, { from: 'forecast', _key: key! })).statusCode, 303)
  const orders = await shop.database.reads.changeOrder.findMany({ include: { lines: { orderBy: { number: 'asc' } } } })
  t.equal(orders.length, 1, 'pressed twice, drawn up once')
  t.same(orders[0]!.lines.map(({ price }) => price), [28_500, 9_500, 13_690])
  const frozen = await api.post(`/api/change-orders/${orders[0]!.id}/revisions`)
  await accept(shop, frozen.json().id, clock())
  t.match(await guard(), { acceptedMinor: 181_690, missingMinor: 0, lines: [] }, 'once it is accepted nothing is missing')
  t.equal((await api.post(`${url}/change-orders`, { from: 'forecast' })).statusCode, 409)
})

t.test('both sides carry the same: supplies and typed lines stand in the forecast as they were accepted, what was said no to is left out, and that is said', async (t) => {
  const shop = await openShop(t, { clock })
  const { build, api, url, log, zone, department, operation } = await anAccount(shop)
  const options: Record<string, string> = {}
  for (const [name, insteadOf] of [['Roof rack', ''], ['Felt', 'cover'], ['Ash', 'cover']] as const) options[name] = (await api.create('/api/quote-options', { buildId: build.id, name, insteadOf })).id
  const rack = await api.create('/api/equipment-lines', { buildId: build.id, zoneId: zone.id, name: 'Roof rack', quantity: 1, cost: '250.00', price: '400.00' })
  await api.create('/api/operations', { buildId: build.id, lineId: rack.id, departmentId: department.id, kind: 'fit', run: '2 h' })
  await shop.database.write((write) => write.equipmentLine.update({ where: { id: rack.id }, data: { optionId: options['Roof rack']! } }))
  await api.create(`${url}/quotes`, { suppliesShare: '3 %' })
  const typed = [['Collecting the vehicle', '120.00', null], ['Less, for a school', '-20.00', null], ['Felt, glued', '180.00', 'Felt'], ['Ash, oiled', '420.00', 'Ash']] as const
  for (const [text, price, option] of typed) await api.create('/api/quote-lines', { buildId: build.id, text, quantity: '1', price, ...(option === null ? {} : { optionId: options[option]! }) })
  const frozen = await api.create(`${url}/revisions`, {})
  const yes = await api.post(`/api/revisions/${frozen.id}/consents`, { decision: 'accepted', typedName: 'Imre', hasRead: true, contentHash: frozen.contentHash, options: [3] })
  t.equal(yes.statusCode, 201, yes.body)
  // By hand: 10 h at 95.00, 2 × 149.95, a sheet of 92.00, 3 % of 950.00 = 28.50, 120.00 − 20.00, ash 420.00. The rack would be 400.00 and 2 h.
  const guard = async () => (await api.get(`${url}/consent-guard`)).json()
  t.match(await guard(), { acceptedMinor: 189_040, forecastMinor: 189_040, missingMinor: 0, state: 'inside', leftOut: [{ option: 1, name: 'Roof rack', amountMinor: 59_000, loggedMinor: 0 }] })
  const manager = shop.as('manager')
  const page = await manager.page(`/builds/${build.id}/change-orders`)
  t.match(words(page), /Option 1, Roof rack, was said no to: 590\.00 USD in the estimate, not in this forecast/)
  t.match(words(page), /Labor at completion .* 1,140\.00 USD .* Shop supplies .* 28\.50 USD .* Further lines .* 520\.00 USD Option 1, Roof rack: said no to .* −590\.00 USD .* 1,890\.40 USD/)
  t.match(words(await manager.page(`/builds/${build.id}/estimate`)), /Option 1, Roof rack, was said no to\. It stands in the estimate; what the consent leaves is without it/)

  // Two hours more than estimated: 190.00, and 3 % of that; said while there is something left to decide.
  await log('4 h', { operationId: operation.id })
  await shop.database.write((write) => write.operation.update({ where: { id: operation.id }, data: { remaining: 8 * 3600 } }))
  t.match(await guard(), { forecastMinor: 208_610, missingMinor: 19_570, state: 'forecast over', lines: [{ label: /Amplifier board/, amountMinor: 19_000 }, { label: 'Shop supplies', amountMinor: 570 }] })
  t.match((await api.get(`${url}/costing`)).json(), { consent: { state: 'forecast over', left: -19_570 } }, 'the costing says the same')
  const order = (await api.post(`${url}/change-orders`, { from: 'forecast' })).json()
  const lines = await shop.database.reads.quoteLine.findMany({ where: { changeOrderId: order.id }, orderBy: { number: 'asc' } })
  const codes = new Map((await shop.database.reads.taxCode.findMany()).map(({ id, code }) => [id, code]))
  t.same(lines.map(({ price, taxCodeId }) => [price, codes.get(taxCodeId ?? '')]), [[19_000, 'LABOR'], [570, 'GOODS']])
})

t.test('what a change order brings counts at its price until it stands in the build, and once from then on', async (t) => {
  const shop = await openShop(t, { clock })
  const { build, api, url, zone, operation, log } = await anAccount(shop)
  // Estimated and accepted: 1341.90.
  const lines = [{ key: 'all', text: 'All of it', quantity: 1000, eachMinor: 134_190, amountMinor: 134_190, taxCode: null, option: null }]
  await acceptedQuote(shop, build.id, clock(), { lines, supplies: null, totals: { netMinor: 134_190, taxMinor: 0, totalMinor: 134_190, taxes: [] } })
  const guard = async () => {
    const { acceptedMinor, forecastMinor, missingMinor } = (await api.get(`${url}/consent-guard`)).json()
    return [acceptedMinor, forecastMinor, missingMinor]
  }
  const agreeOn = async (text: string, price: string) => {
    const order = await api.create('/api/change-orders', { buildId: build.id, title: text })
    await api.create('/api/quote-lines', { buildId: build.id, changeOrderId: order.id, text, quantity: '1', price })
    await accept(shop, (await api.create(`/api/change-orders/${order.id}/revisions`, {})).id, clock())
  }
  const lamp = (name: string, price: string) => api.create('/api/equipment-lines', { buildId: build.id, zoneId: zone.id, name, quantity: 1, cost: '1.00', price })
  await agreeOn('Two lamps, and a visit outside', '300.00')
  t.same(await guard(), [164_190, 164_190, 0], 'accepted and not in the build yet: no room for anything else')
  await log('12 h', { operationId: operation.id })
  t.same(await guard(), [164_190, 183_190, 19_000], 'so that two hours too many are seen at once')
  await lamp('Lamp', '100.00')
  await lamp('Lamp', '100.00')
  t.same(await guard(), [164_190, 183_190, 19_000], 'the lamps are now in the build, the visit never will be')
  await lamp('Amplifier fan', '50.00')
  await lamp('Feed', '80.00')
  t.same(await guard(), [164_190, 186_190, 22_000], 'of 130.00 more, 100.00 are taken for the rest of the order')
  await agreeOn('What was missing', '220.00')
  t.same(await guard(), [186_190, 186_190, 0], 'an order over what was missing brings nothing on top')
  await agreeOn('A lamp less', '-100.00')
  t.same(await guard(), [176_190, 176_190, 0])
  const [first] = await shop.database.reads.equipmentLine.findMany({ where: { buildId: build.id, name: 'Lamp' } })
  await api.post(`/api/equipment-lines/${first!.id}/removal`, {}, { 'if-match': `"${first!.version}"` })
  t.same(await guard(), [176_190, 176_190, 0], 'left out once, and not a second time when it is taken out of the build')
})

t.test('after a line is saved or the order frozen, its page says so', async (t) => {
  const shop = await openShop(t, { clock })
  const { build, api } = await anAccount(shop)
  await acceptedQuote(shop, build.id, clock())
  const order = await api.create('/api/change-orders', { buildId: build.id, title: 'A second amplifier' })
  const manager = shop.as('manager')
  const landed = async (url: string, form: Record<string, string>): Promise<string> => {
    const { statusCode, headers } = await manager.post(url, form)
    t.equal(statusCode, 303)
    return words(await manager.page(String(headers.location)))
  }
  const page = `/builds/${build.id}/change-orders/${order.id}`
  t.match(await landed('/quote-lines', { buildId: build.id, changeOrderId: order.id, text: 'Amplifier', quantity: '2', price: '149.95' }), /Saved: line “Amplifier”/)
  t.match(await landed(`${page}/revisions`, {}), /Saved: C-0001-1\.1, frozen/)
  t.notMatch(words(await manager.page(page)), /Saved:/)
})
