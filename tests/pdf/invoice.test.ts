import t from 'tap'
import { acceptedQuote, accept } from '../support/accepting.ts'
import { anAccount, type Invoice } from '../support/anAccount.ts'
import { factsOfPdf, needsReader, textOfPdf } from '../support/pdfText.ts'
import { openShop } from '../support/shop.ts'

const clock = (): Date => new Date('2031-03-04T10:00:00Z')
const minor = (text: string): number => Math.round(Number(text.replaceAll(',', '').replace('−', '-')) * 100)

t.test('an invoice on paper: what was issued and nothing else, lines that add up, tax by code, and what is left to pay', needsReader, async (t) => {
  const shop = await openShop(t, { clock })
  const { log, issue, pay, credit } = await anAccount(shop)
  await log('3:33')
  await pay('100.00')
  const invoice = await issue({ note: 'Thank you, Imre.' })
  for (const [paper, size] of [['A4', /595\.28 x 841\.89/], ['Letter', /612 x 792/]] as const) {
    const answer = await shop.as('manager').get(`/invoices/${invoice.id}/invoice.pdf?paper=${paper}`)
    t.equal(answer.statusCode, 200)
    t.match(factsOfPdf(answer.rawPayload).get('Page size'), size)
    t.equal(factsOfPdf(answer.rawPayload).get('Title'), 'I-0001 Invoice')
    const text = textOfPdf(answer.rawPayload)
    t.match(text, /LEGAL OWNER Rivet Lane TITLE Invoice .* IDENTIFICATION NUMBER I-0001/)
    t.match(text, /Harrow Lane Bakery Imre/)
    t.match(text, /Thank you, Imre\./)
    // 3.55 h at 95.00 = 337.25; 5 % of it 16.8625; 7.25 % of 391.90 = 28.41275.
    t.match(text, /1 Wood room 3\.55 h 95\.00 LABOR 337\.25/)
    const lines = [...text.matchAll(/ (?:LABOR|GOODS) ([\d,.]+)/g)].map(([, amount]) => minor(amount!))
    const taxes = [...text.matchAll(/(?:LABOR|GOODS), [\d.]+ % ([\d,.]+) ([\d,.]+)/g)].map(([, net, tax]) => [minor(net!), minor(tax!)] as const)
    const found = (name: string): number => minor(new RegExp(`${name} (−?[\\d,.]+)`).exec(text)?.[1] ?? 'nothing')
    t.same(lines, [33_725, 29_990, 9_200])
    t.same(taxes, [[39_190, 2_841], [33_725, 1_686]])
    t.equal(found('Net'), lines.reduce((sum, amount) => sum + amount, 0), 'the lines add up to the net')
    t.equal(found('Net'), taxes.reduce((sum, [net]) => sum + net, 0), 'and so do the nets of the codes')
    t.equal(found('Total with tax'), found('Net') + taxes.reduce((sum, [, tax]) => sum + tax, 0))
    t.equal(found('Paid ahead'), -10_000)
    t.equal(found('To be paid by Fri 14 Mar 2031'), found('Total with tax') - 10_000)
    t.match(text, `Content SHA-256 ${String(invoice.contentHash)}`)
  }
  await credit(invoice, { what: 'chosen', amounts: { [invoice.lines[0]!.key]: '10.00' }, note: 'A mistake' })
  const again = await shop.as('manager').get(`/invoices/${invoice.id}/invoice.pdf`)
  t.match(textOfPdf(again.rawPayload), /Total with tax 774\.42/, 'what comes later changes nothing on it')
})

t.test('an invoice of what was accepted carries quote and change order with their own tax, and takes off what was invoiced before', needsReader, async (t) => {
  const shop = await openShop(t, { clock })
  const { build, api, account } = await anAccount(shop)
  await acceptedQuote(shop, build.id, clock())
  const issue = async (): Promise<Invoice> => await api.create(`/api/builds/${build.id}/invoices`, { basis: 'accepted' }) as unknown as Invoice
  const first = await issue()
  // 7420.00 at 6.25 % = 463.75; 3407.10 at 7.25 % = 247.01475.
  t.match(first.total, { netMinor: 1_082_710, taxMinor: 46_375 + 24_701 })
  const order = await api.create('/api/change-orders', { buildId: build.id, title: 'A second row' })
  const goods = (await shop.database.reads.taxCode.findFirstOrThrow({ where: { code: 'GOODS' } })).id
  await api.create('/api/quote-lines', { buildId: build.id, changeOrderId: order.id, text: 'Lamps', quantity: '1', price: '0.10', taxCodeId: goods })
  const frozen = await api.post(`/api/change-orders/${order.id}/revisions`)
  await accept(shop, frozen.json().id, clock())
  const second = await issue()
  // 7.25 % of 0.10 is 0.00725, 0.01 by itself; on the sum of 3407.20 it would have been 247.022: the accepted tax stands.
  t.match(second.total, { netMinor: 10, taxMinor: 1, totalMinor: 11 })
  const text = textOfPdf((await shop.as('manager').get(`/invoices/${second.id}/invoice.pdf`)).rawPayload)
  t.match(text, /C-0001-1\.1, as accepted GOODS, 7\.25 % 0\.10 0\.01 Less I-0001 of Tue 4 Mar 2031 GOODS, 7\.25 % −3,407\.10 −247\.01 LABOR, 6\.25 % −7,420\.00 −463\.75 This invoice GOODS, 7\.25 % 0\.10 0\.01/)
  const { acceptedMinor, invoicedMinor } = await account()
  t.equal(invoicedMinor, acceptedMinor, 'all that was accepted is invoiced, to the last minor unit')
  const nothing = await api.post(`/api/builds/${build.id}/invoices`, { basis: 'accepted' })
  t.match(nothing.json(), { status: 409, title: 'Nothing to invoice' })
  t.match((await api.post(`/api/builds/${build.id}/invoices`, { basis: 'time and material' })).json(), { status: 409, title: 'This build is invoiced otherwise' })
})
