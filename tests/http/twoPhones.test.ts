import fc from 'fast-check'
import t from 'tap'
import { randomUUID } from 'node:crypto'
import { aDoor, buildDoor } from '../support/aDoor.ts'
import { openShop } from '../support/shop.ts'

// Two phones on one sheet, each sometimes without a network. What a phone does is what the page's script does:
// keep a mark, send all it keeps one request at a time, forget only what was answered. An answer may be lost on its way.
let now = new Date('2031-03-03T09:00:00Z')
const shop = await openShop(t, { clock: () => now })
const door = await aDoor(shop)
await buildDoor(shop, door)
const holders = ['technician', 'manager'] as const
type Holder = (typeof holders)[number]
const STEPS = ['1', '2', '3', '4']

interface Kept { readonly id: string, readonly step: string, readonly kind: 'done' | 'not done', readonly putAt: number }
type Happening =
  | { readonly does: 'mark', readonly phone: Holder, readonly step: string, readonly kind: Kept['kind'] }
  | { readonly does: 'send', readonly phone: Holder, readonly isAnswerLost: boolean }

const arbitraryHappening: fc.Arbitrary<Happening> = fc.oneof(
  { weight: 3, arbitrary: fc.record({ does: fc.constant('mark' as const), phone: fc.constantFrom(...holders), step: fc.constantFrom(...STEPS), kind: fc.constantFrom('done' as const, 'done' as const, 'not done' as const) }) },
  { weight: 2, arbitrary: fc.record({ does: fc.constant('send' as const), phone: fc.constantFrom(...holders), isAnswerLost: fc.boolean() }) },
)

interface Listed { readonly id: string, readonly step: string, readonly kind: string, readonly who: string, readonly at: string }

t.test('however two phones tick, lose their network and send again, no tick is lost, none is doubled, and both see the same', async (t) => {
  let marksPut = 0
  await fc.assert(fc.asyncProperty(fc.array(arbitraryHappening, { minLength: 4, maxLength: 24 }), async (happenings) => {
    const id = (await shop.as('technician').api.post(`/api/builds/${door.build.id}/restorations`, {})).json<{ id: string }>().id
    const kept: Record<Holder, Kept[]> = { technician: [], manager: [] }
    const put: (Kept & { readonly phone: Holder })[] = []
    const send = async (phone: Holder, isAnswerLost: boolean): Promise<void> => {
      const waiting = kept[phone]
      const marks = waiting.map(({ putAt, ...mark }) => ({ ...mark, age: now.getTime() - putAt }))
      const answer = await shop.as(phone).api.post(`/api/restorations/${id}/marks`, { marks })
      if (answer.statusCode !== 200) throw new Error(answer.body)
      const settled = new Set(answer.json<{ items: { id: string, state: string }[] }>().items.filter(({ state }) => state !== 'refused').map((one) => one.id))
      if (!isAnswerLost) kept[phone] = kept[phone].filter((mark) => !settled.has(mark.id))
    }
    for (const happening of happenings) {
      now = new Date(now.getTime() + 1000)
      if (happening.does === 'send') {
        await send(happening.phone, happening.isAnswerLost)
        continue
      }
      const mark: Kept = { id: randomUUID(), step: happening.step, kind: happening.kind, putAt: now.getTime() }
      kept[happening.phone].push(mark)
      put.push({ ...mark, phone: happening.phone })
    }
    for (const phone of [...holders, ...holders]) {
      now = new Date(now.getTime() + 1000)
      await send(phone, false)
    }
    marksPut += put.length

    const listed = (await shop.as('technician').api.get(`/api/restorations/${id}/marks`)).json<{ items: Listed[] }>().items
    t.same(listed.map((mark) => mark.id).toSorted(), put.map((mark) => mark.id).toSorted(), 'every mark is there once')
    t.same(listed.map((mark) => mark.id), put.map((mark) => mark.id), 'in the order in which they were put down, whenever they arrived')
    for (const mark of put) t.match(listed.find((one) => one.id === mark.id), { step: mark.step, kind: mark.kind, who: `Test ${mark.phone}`, at: new Date(mark.putAt).toISOString() })
    const expected = STEPS.map((step) => put.findLast((mark) => mark.step === step)?.kind === 'done')
    for (const phone of holders) {
      const { steps } = (await shop.as(phone).api.get(`/api/restorations/${id}`)).json<{ steps: { key: string, isDone: boolean }[] }>()
      t.same(STEPS.map((step) => steps.find(({ key }) => key === step)?.isDone), expected, 'the newest of each step counts, for both')
    }
  }), { seed: 20310303, numRuns: 30 })
  t.ok(marksPut > 100, `${marksPut} marks were put down`)
})

t.test('both phones sending the same moment lose nothing', async (t) => {
  const id = (await shop.as('technician').api.post(`/api/builds/${door.build.id}/restorations`, {})).json<{ id: string }>().id
  const marks = Array.from({ length: 20 }, (_, index) => ({ id: randomUUID(), step: String(index % 4 + 1), kind: 'done' }))
  const answers = await Promise.all(marks.flatMap((mark, index) => [0, 1].map(() => shop.as(holders[index % 2]!).api.post(`/api/restorations/${id}/marks`, { marks: [mark] }))))
  t.ok(answers.every(({ statusCode }) => statusCode === 200))
  t.equal(await shop.database.reads.sheetMark.count({ where: { sheetId: id } }), 20)
})
