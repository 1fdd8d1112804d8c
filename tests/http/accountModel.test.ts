import t from 'tap'
import fc from 'fast-check'
import { randomUUID } from 'node:crypto'
import type { Account, Invoice } from '../support/anAccount.ts'
import { aPaper } from '../support/aPaper.ts'
import { storeRevision } from '../../server/quotes/revisionStore.ts'
import { openShop, type Answer } from '../support/shop.ts'

let minutes = 0
const shop = await openShop(t, { clock: () => new Date(Date.UTC(2031, 2, 4, 9, minutes)) })
const { api } = shop.as('manager')
const customer = await api.create('/api/customers', { name: 'Harrow Lane Bakery' })
const vehicle = await api.create('/api/vehicles', { customerId: customer.id, make: 'Corvane', model: 'Tern', year: 2031, body: 'hatchback', energy: 'fuel' })
const codes = await Promise.all([['LABOR', '6.25 %'], ['GOODS', '7.25 %']].map(([code, rate]) => api.create('/api/tax-codes', { code, name: code, rate })))

interface Paper { readonly id: string; totalMinor: number; leftMinor: number; readonly creditsId: string | null }
interface Entry { readonly id: string; readonly amountMinor: number; takenBack: boolean; readonly takesBack: boolean }

/** The books as somebody with a pencil keeps them, with tax. */
interface Pencil {
  buildId: string
  /** Each paper that was said yes to. */
  accepted: number[]
  papers: Paper[]
  entries: Entry[]
  /** Invoices and credit notes of the whole shop so far. */
  numbers: number
}
type Real = { readonly press: (times: number, url: string, json: unknown) => Promise<Answer[]> }

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0)
const invoicedLess = ({ papers }: Pencil): number => sum(papers.map(({ totalMinor }) => totalMinor))

/** The same request as often as somebody presses, under one key. */
async function press(times: number, url: string, json: unknown): Promise<Answer[]> {
  minutes += 1
  const headers = { 'idempotency-key': randomUUID() }
  const answers: Answer[] = []
  for (let time = 0; time < times; time += 1) answers.push(await api.post(url, json, headers))
  return answers
}

function expectAll(answers: readonly Answer[], wanted: number): void {
  for (const answer of answers) if (answer.statusCode !== wanted) throw new Error(`wanted ${wanted}, got ${answer.statusCode}: ${answer.body}`)
}

/** What the service says must be what the pencil says, to the last minor unit. */
async function reconcile(pencil: Pencil): Promise<void> {
  const account = (await api.get(`/api/builds/${pencil.buildId}/account`)).json<Account>()
  const is = [account.acceptedMinor ?? 0, account.invoicedMinor - account.creditedMinor, account.paidMinor, account.balanceMinor]
  const should = [sum(pencil.accepted), invoicedLess(pencil), sum(pencil.entries.map(({ amountMinor }) => amountMinor))]
  if (JSON.stringify(is) !== JSON.stringify([...should, should[1]! - should[2]!])) throw new Error(`the account is ${JSON.stringify(is)}, and should be ${JSON.stringify(should)}`)
  const open = sum(account.invoices.map(({ openMinor }) => openMinor ?? 0))
  if (open - account.aheadMinor !== account.balanceMinor) throw new Error(`open ${open}, ahead ${account.aheadMinor}, balance ${account.balanceMinor}`)
  if (account.invoices.some(({ openMinor }) => (openMinor ?? 0) < 0)) throw new Error('an invoice is open below zero')
  const { consent } = await shop.database.reads.build.findUniqueOrThrow({ where: { id: pencil.buildId } })
  const consents = await shop.database.reads.consent.findMany({ where: { buildId: pencil.buildId, decision: 'accepted' } })
  if ((consent ?? 0) !== sum(consents.map(({ netMinor }) => netMinor))) throw new Error('the build’s consent is not what was accepted')
  const numbers = (await shop.database.reads.invoice.findMany({ orderBy: { number: 'asc' }, select: { number: true } })).map(({ number }) => number)
  if (numbers.length !== pencil.numbers || numbers.some((number, index) => number !== index + 1)) throw new Error(`the numbers are ${numbers.join(', ')}, and should be ${pencil.numbers}`)
}

async function sayYes(pencil: Pencil, revisionId: string, contentHash: string, times: number): Promise<Answer[]> {
  const answers = await press(times, `/api/revisions/${revisionId}/consents`, { decision: 'accepted', typedName: 'Imre', hasRead: true, contentHash })
  if (answers[0]?.statusCode === 201) {
    const { consent } = answers[0].json<{ consent: { net: number; tax: number } }>()
    pencil.accepted.push(consent.net + consent.tax)
  }
  return answers
}

type Run = (pencil: Pencil, real: Real) => Promise<void>

/** One step; what it does is told where it fails. */
class Step implements fc.AsyncCommand<Pencil, Real> {
  readonly name: string
  readonly step: Run
  constructor(name: string, step: Run) {
    this.name = name
    this.step = step
  }
  check = (): boolean => true
  async run(pencil: Pencil, real: Real): Promise<void> {
    await this.step(pencil, real)
    await reconcile(pencil)
  }
  toString = (): string => this.name
}

const acceptsQuote = (times: number): Step => new Step(`the quote is accepted × ${times}`, async (pencil) => {
  const isFirst = pencil.accepted.length === 0
  const lines = aPaper().lines.filter(({ option }) => option === null)
  const revisionId = await shop.database.write((write) => storeRevision(write, { buildId: pencil.buildId, changeOrderId: null, content: aPaper({ options: [], lines, revision: pencil.accepted.length + 1, issuedOn: '2031-03-04', validUntil: '2031-12-31' }) }, { personId: null, personName: 'Test', requestId: 'test', now: shop.clock() }))
  const { contentHash } = await shop.database.reads.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } })
  expectAll(await sayYes(pencil, revisionId, contentHash, times), isFirst ? 201 : 409)
})

const changes = (price: number, code: number, times: number): Step => new Step(`a change order of ${price} × ${times}`, async (pencil, real) => {
  const order = await api.create('/api/change-orders', { buildId: pencil.buildId, title: 'Changed' })
  await api.create('/api/quote-lines', { buildId: pencil.buildId, changeOrderId: order.id, text: 'Line', quantity: '1', price, taxCodeId: codes[code]!.id })
  const frozen = await real.press(times, `/api/change-orders/${order.id}/revisions`, {})
  if (pencil.accepted.length === 0) return expectAll(frozen, 409)
  const { netMinor } = (await shop.database.reads.consent.aggregate({ where: { buildId: pencil.buildId, decision: 'accepted' }, _sum: { netMinor: true } }))._sum
  if ((netMinor ?? 0) + price < 0) return expectAll(frozen, 409)
  if (frozen[0]!.statusCode !== 201) return expectAll(frozen, 409)
  const { id, contentHash } = frozen[0]!.json<{ id: string; contentHash: string }>()
  expectAll(await sayYes(pencil, id, contentHash, times), 201)
})

const invoices = (times: number): Step => new Step(`an invoice of what was accepted × ${times}`, async (pencil, real) => {
  const answers = await real.press(times, `/api/builds/${pencil.buildId}/invoices`, { basis: 'accepted' })
  const left = sum(pencil.accepted) - invoicedLess(pencil)
  if (left <= 0) return expectAll(answers, 409)
  expectAll(answers, 201)
  const { id, total } = answers[0]!.json<Invoice>()
  if (total.totalMinor !== left) throw new Error(`invoiced ${total.totalMinor}, left were ${left}`)
  pencil.papers.push({ id, totalMinor: left, leftMinor: left, creditsId: null })
  pencil.numbers += 1
})

const pays = (amountMinor: number, isFor: number, times: number): Step => new Step(`pays ${amountMinor} × ${times}`, async (pencil, real) => {
  const open = pencil.papers.filter(({ creditsId }) => creditsId === null)
  const invoiceId = open[isFor]?.id ?? null
  const answers = await real.press(times, `/api/builds/${pencil.buildId}/payments`, { amount: Math.abs(amountMinor), direction: amountMinor < 0 ? 'paid back' : 'received', method: 'card', invoiceId, confirmed: true })
  if (amountMinor === 0) return expectAll(answers, 422)
  expectAll(answers, 201)
  pencil.entries.push({ id: answers[0]!.json<{ id: string }>().id, amountMinor, takenBack: false, takesBack: false })
})

const takesBack = (which: number, times: number): Step => new Step(`entry ${which} is taken back × ${times}`, async (pencil, real) => {
  const entry = pencil.entries[which % Math.max(pencil.entries.length, 1)]
  if (!entry) return
  const answers = await real.press(times, `/api/payments/${entry.id}/counter-entries`, {})
  if (entry.takenBack || entry.takesBack) return expectAll(answers, 409)
  expectAll(answers, 201)
  entry.takenBack = true
  pencil.entries.push({ id: answers[0]!.json<{ id: string }>().id, amountMinor: -entry.amountMinor, takenBack: false, takesBack: true })
})

const credits = (which: number, share: number | null, times: number): Step => new Step(`a credit note on ${which}, ${share ?? 'whole'} × ${times}`, async (pencil, real) => {
  const own = pencil.papers.filter(({ creditsId }) => creditsId === null)
  const paper = own[which % Math.max(own.length, 1)]
  if (!paper) return
  const { lines } = (await api.get(`/api/invoices/${paper.id}`)).json<Invoice>()
  const amounts = Object.fromEntries(lines.filter(({ amountMinor }) => amountMinor > 0).map(({ key, amountMinor }) => [key, Math.ceil(amountMinor * (share ?? 0) / 100)]))
  const answers = await real.press(times, `/api/invoices/${paper.id}/credit-notes`, share === null ? { what: 'whole' } : { what: 'chosen', amounts })
  if (paper.leftMinor === 0) return expectAll(answers, 409)
  if (share !== null && answers[0]!.statusCode === 422) return expectAll(answers, 422)
  expectAll(answers, 201)
  const { id, total } = answers[0]!.json<Invoice>()
  if (total.totalMinor >= 0 || -total.totalMinor > paper.leftMinor || (share === null && -total.totalMinor !== paper.leftMinor)) throw new Error(`credited ${total.totalMinor} of ${paper.leftMinor}`)
  paper.leftMinor += total.totalMinor
  pencil.papers.push({ id, totalMinor: total.totalMinor, leftMinor: 0, creditsId: paper.id })
  pencil.numbers += 1
})

t.test('whatever is agreed, changed, invoiced, paid, taken back and credited, however often somebody presses: the books reconcile', { timeout: 170_000 }, async (t) => {
  const times = fc.integer({ min: 1, max: 2 })
  const which = fc.integer({ min: 0, max: 5 })
  const price = fc.oneof(fc.integer({ min: 1, max: 90_000 }), fc.integer({ min: -400_000, max: -1 }))
  const steps = fc.commands([
    times.map(acceptsQuote),
    fc.tuple(price, fc.integer({ min: 0, max: 1 }), times).map(([minor, code, often]) => changes(minor, code, often)),
    times.map(invoices), times.map(invoices),
    fc.tuple(fc.integer({ min: -60_000, max: 900_000 }), which, times).map(([minor, of, often]) => pays(minor, of, often)),
    fc.tuple(which, times).map(([of, often]) => takesBack(of, often)),
    fc.tuple(which, fc.constantFrom(null, 7, 33, 100), times).map(([of, share, often]) => credits(of, share, often)),
  ], { size: '+1', maxCommands: 14 })
  let numbers = 0
  await fc.assert(fc.asyncProperty(steps, async (commands) => {
    const build = await api.create('/api/builds', { title: 'Rear wall', vehicleId: vehicle.id })
    const pencil: Pencil = { buildId: build.id, accepted: [], papers: [], entries: [], numbers }
    try {
      await fc.asyncModelRun(() => ({ model: pencil, real: { press } }), [acceptsQuote(1), ...commands])
    } finally {
      numbers = await shop.database.reads.invoice.count()
    }
  }), { seed: 1_117, numRuns: 12 })
  t.ok(numbers >= 12, `${numbers} papers were issued`)
})
