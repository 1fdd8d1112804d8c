import t from 'tap'
import fc from 'fast-check'
import { randomUUID } from 'node:crypto'
import { aBuild } from '../support/aBuild.ts'
import { openShop, type Answer, type Json } from '../support/shop.ts'

let day = 3
const shop = await openShop(t, { clock: () => new Date(Date.UTC(2031, 2, day, 9)) })
const { api } = shop.as('manager')
const tax = await api.create('/api/tax-codes', { code: 'GOODS', name: 'Goods sold', rate: '10 %' })

type End = 'accepted' | 'declined' | 'withdrawn'

/** What somebody with a pencil would keep of one paper. */
interface Paper { id: string, hash: string, net: number, until: number, end: End | null, agreed: number }

/** A build with a quote of one line and one option, and one change order; amounts in minor units. */
interface Pencil { build: string, line: string, order: string, orderLine: string, price: number, orderPrice: number, quotes: Paper[], orders: Paper[] }

const OPTION = 5_000
const WORDS = { quote: '/api/builds', order: '/api/change-orders' } as const
type Kind = keyof typeof WORDS

const papersOf = (pencil: Pencil, kind: Kind): Paper[] => (kind === 'quote' ? pencil.quotes : pencil.orders)
const acceptedIn = (papers: readonly Paper[]): Paper | undefined => papers.find(({ end }) => end === 'accepted')
const isOpen = (papers: readonly Paper[], paper: Paper): boolean => paper.end === null && paper === papers.at(-1) && day <= paper.until

async function press(url: string, json: unknown, times: number): Promise<Answer> {
  const headers = { 'idempotency-key': randomUUID() }
  const answers = [await api.post(url, json, headers)]
  while (answers.length < times) answers.push(await api.post(url, json, headers))
  const [first] = answers
  if (!first || answers.some(({ statusCode }) => statusCode !== first.statusCode)) throw new Error(`pressed again, ${url} answered otherwise`)
  return first
}

/** Everything that must hold whatever was pressed. */
async function check(pencil: Pencil): Promise<void> {
  const build = (await api.get(`/api/builds/${pencil.build}`)).json<{ consent: number | null }>()
  const all = [...pencil.quotes, ...pencil.orders]
  const agreed = all.filter(({ end }) => end === 'accepted')
  const wanted = agreed.length === 0 ? null : agreed.reduce((sum, paper) => sum + paper.agreed, 0)
  if (build.consent !== wanted) throw new Error(`the build says ${build.consent}, agreed is ${wanted}`)
  const { items } = (await api.get(`/api/builds/${pencil.build}/consents`)).json<{ items: { decision: string, net: number, tax: number }[] }>()
  const answered = all.filter(({ end }) => end === 'accepted' || end === 'declined')
  if (items.length !== answered.length) throw new Error(`${items.length} consents, ${answered.length} answers`)
  for (const { net, tax: own } of items) if (own !== Math.round(net / 10)) throw new Error(`tax of ${net} is ${own}`)
  const { items: revisions } = (await api.get(`/api/builds/${pencil.build}/revisions`)).json<{ items: { id: string, contentHash: string, content: { totals: { netMinor: number } } }[] }>()
  for (const { id, hash, net } of all) {
    const frozen = revisions.find((one) => one.id === id)
    if (frozen?.contentHash !== hash || frozen.content.totals.netMinor !== net) throw new Error('a frozen paper is another than it was')
  }
}

interface Step { readonly name: string, run(pencil: Pencil): Promise<void> }
const expect = (answer: Answer, status: number, what: string): void => {
  if (answer.statusCode !== status) throw new Error(`${what}: wanted ${status}, got ${answer.statusCode}: ${answer.body.slice(0, 300)}`)
}

const freeze = (kind: Kind, times: number): Step => ({
  name: `freeze ${kind} × ${times}`,
  run: async (pencil) => {
    const papers = papersOf(pencil, kind)
    const isLate = acceptedIn(papers) !== undefined || (kind === 'order' && acceptedIn(pencil.quotes) === undefined)
    const answer = await press(`${WORDS[kind]}/${kind === 'quote' ? pencil.build : pencil.order}/revisions`, {}, times)
    if (isLate) return expect(answer, 409, 'freezing')
    expect(answer, 201, 'freezing')
    const { id, contentHash } = answer.json<{ id: string, contentHash: string }>()
    papers.push({ id, hash: contentHash, net: kind === 'quote' ? pencil.price : pencil.orderPrice, until: day + 2, end: null, agreed: 0 })
  },
})

const reprice = (kind: Kind, price: number): Step => ({
  name: `reprice ${kind} ${price}`,
  run: async (pencil) => {
    const url = `/api/quote-lines/${kind === 'quote' ? pencil.line : pencil.orderLine}`
    const { version } = (await api.get(url)).json<{ version: number }>()
    const answer = await api.patch(url, { price }, { 'if-match': `"${version}"` })
    if (kind === 'order' && acceptedIn(pencil.orders)) return expect(answer, 409, 'repricing what was accepted')
    expect(answer, 200, 'repricing')
    if (kind === 'quote') pencil.price = price
    else pencil.orderPrice = price
  },
})

const answerIt = (kind: Kind, back: number, decision: 'accepted' | 'declined', option: boolean, times: number): Step => ({
  name: `${decision} ${kind} −${back} ${option ? 'with option' : ''} × ${times}`,
  run: async (pencil) => {
    const papers = papersOf(pencil, kind)
    const paper = papers.at(-1 - back)
    if (!paper) return
    const isTaken = isOpen(papers, paper) && acceptedIn(papers) === undefined
    const options = kind === 'quote' && option && decision === 'accepted' ? [1] : []
    const body: Json = { decision, typedName: 'Imre Dall', hasRead: true, contentHash: paper.hash, options }
    expect(await press(`/api/revisions/${paper.id}/consents`, body, times), isTaken ? 201 : 409, 'answering')
    if (!isTaken) return
    paper.end = decision
    paper.agreed = decision === 'accepted' ? paper.net + options.length * OPTION : 0
  },
})

const withdraw = (kind: Kind, back: number): Step => ({
  name: `withdraw ${kind} −${back}`,
  run: async (pencil) => {
    const paper = papersOf(pencil, kind).at(-1 - back)
    if (!paper) return
    const isAnswered = paper.end === 'accepted' || paper.end === 'declined'
    expect(await press(`/api/revisions/${paper.id}/withdrawals`, { why: 'Not as meant.' }, 1), isAnswered ? 409 : 200, 'withdrawing')
    if (!isAnswered) paper.end = 'withdrawn'
  },
})

const byHand: Step = {
  name: 'consent by hand',
  run: async (pencil) => {
    const { version } = (await api.get(`/api/builds/${pencil.build}`)).json<{ version: number }>()
    if (acceptedIn(pencil.quotes)) expect(await api.patch(`/api/builds/${pencil.build}`, { consent: 1 }, { 'if-match': `"${version}"` }), 422, 'writing the consent by hand')
  },
}
const wait: Step = { name: 'two days pass', run: async () => { day += 2 } }

async function begin(): Promise<Pencil> {
  day = 3
  const { build } = await aBuild(shop)
  const add = async (text: string, price: number, more: Json = {}): Promise<string> => (await api.create('/api/quote-lines', { buildId: build.id, text, price, taxCodeId: tax.id, ...more })).id
  const line = await add('Rear wall', 40_000)
  const { id: optionId } = await api.create('/api/quote-options', { buildId: build.id, name: 'Lamps' })
  await add('Lamps', OPTION, { optionId })
  await api.create(`/api/builds/${build.id}/quotes`, { validDays: 2 })
  const { id: order } = await api.create('/api/change-orders', { buildId: build.id, title: 'Second lamp', reason: 'Asked for', validDays: 2 })
  const orderLine = await add('Second lamp', 3_000, { changeOrderId: order })
  return { build: build.id, line, order, orderLine, price: 40_000, orderPrice: 3_000, quotes: [], orders: [] }
}

t.test('whatever is frozen, priced anew, answered and withdrawn in whatever order, what is agreed is the sum of what was accepted', async (t) => {
  const kind = fc.constantFrom<Kind>('quote', 'order')
  const times = fc.constantFrom(1, 1, 2)
  const back = fc.constantFrom(0, 0, 0, 1)
  const step = fc.oneof(
    { weight: 4, arbitrary: fc.tuple(kind, times).map(([of, often]) => freeze(of, often)) },
    { weight: 4, arbitrary: fc.tuple(kind, back, fc.constantFrom<'accepted' | 'declined'>('accepted', 'accepted', 'declined'), fc.boolean(), times).map((given) => answerIt(...given)) },
    { weight: 2, arbitrary: fc.tuple(kind, fc.integer({ min: 100, max: 900_000 })).map((given) => reprice(...given)) },
    { weight: 1, arbitrary: fc.tuple(kind, back).map((given) => withdraw(...given)) },
    { weight: 1, arbitrary: fc.constantFrom(byHand, wait) },
  )
  const accepted = { quote: 0, order: 0 }
  // Half of them begin with an accepted quote, so that change orders come into it.
  const begun = fc.boolean().map((isAgreed) => (isAgreed ? [freeze('quote', 1), answerIt('quote', 0, 'accepted', true, 1)] : []))
  await fc.assert(fc.asyncProperty(begun, fc.array(step, { minLength: 6, maxLength: 16 }), async (first, rest) => {
    const steps = [...first, ...rest]
    const pencil = await begin()
    for (const { name, run } of steps) {
      try {
        await run(pencil)
      } catch (error) {
        throw new Error(`at “${name}” of ${steps.map((each) => each.name).join(', ')}: ${String(error)}`)
      }
    }
    await check(pencil)
    for (const one of ['quote', 'order'] as const) accepted[one] += papersOf(pencil, one).filter(({ end }) => end === 'accepted').length
  }), { seed: 20310303, numRuns: 25 })
  t.ok(accepted.quote > 10 && accepted.order > 2, `${accepted.quote} quotes and ${accepted.order} change orders were accepted on the way`)
})
