import fc from 'fast-check'
import t from 'tap'
import { findWaiting, listReady } from '../../server/calc/schedule/readyWork.ts'
import type { WorkStep } from '../../server/calc/schedule/readyWork.ts'

const step = (id: string, more: Partial<WorkStep> = {}): WorkStep =>
  ({ id, ownerId: 'pod', number: Number(id.replace(/\D/g, '')), state: 'not started', skillId: null, personId: null, ...more })
const anybody = { id: 'rook', skillIds: new Set<string>() }
const ids = (steps: readonly WorkStep[]) => steps.map(({ id }) => id)

t.test('of a pod that is molded, sanded and wrapped, only the first open operation can be taken', async t => {
  const steps = [step('mold10', { state: 'done' }), step('sand20'), step('wrap30')]
  t.same(ids(listReady(steps, [], anybody)), ['sand20'])
  t.same(findWaiting(steps, []).get('wrap30'), ['sand20'])
})

t.test('an operation on another part waits where a rule says so, and no longer once that is done', async t => {
  const wrap = step('wrap10', { ownerId: 'pillar' })
  const rules = [{ before: 'prime40', after: 'wrap10' }]
  t.same(ids(listReady([step('prime40'), wrap], rules, anybody)), ['prime40'])
  t.same(ids(listReady([step('prime40', { state: 'done' }), wrap], rules, anybody)), ['wrap10'])
})

t.test('nobody is offered work beyond their skills or named for somebody else', async t => {
  const steps = [step('a10', { ownerId: 'a', skillId: 'welding' }), step('b10', { ownerId: 'b', personId: 'tamsin' }),
    step('c10', { ownerId: 'c', personId: 'rook', skillId: 'welding' }), step('d10', { ownerId: 'd' })]
  t.same(ids(listReady(steps, [], anybody)), ['c10', 'd10'], 'whoever is named for it is trusted to do it')
  t.same(ids(listReady(steps, [], { id: 'ash', skillIds: new Set(['welding']) })), ['a10', 'd10'])
})

t.test('two operations with one number stand side by side', async t => {
  t.same(ids(listReady([step('left10'), step('right10')], [], anybody)), ['left10', 'right10'])
})

t.test('whatever is done, nothing offered has an open predecessor, and something is offered while anything is open', async () => {
  const states = fc.array(fc.constantFrom('not started', 'running', 'waiting', 'done'), { minLength: 1, maxLength: 8 })
  const pairs = fc.array(fc.tuple(fc.nat(7), fc.nat(7)), { maxLength: 8 })
  fc.assert(fc.property(states, pairs, fc.nat(3), (list, chosen, owners) => {
    const steps = list.map((state, index) => step(`s${index}`, { ownerId: `o${index % (owners + 1)}`, number: index, state: state as WorkStep['state'] }))
    // Rules only lead to later steps, so there is no ring.
    const rules = chosen.filter(([a, b]) => a < b && b < list.length).map(([a, b]) => ({ before: `s${a}`, after: `s${b}` }))
    const ready = new Set(ids(listReady(steps, rules, anybody)))
    const isOpen = (id: string) => steps.find(one => one.id === id)?.state !== 'done'
    for (const { before, after } of rules) if (ready.has(after) && isOpen(before)) return false
    return ready.size > 0 || steps.every(({ state }) => state === 'done')
  }), { seed: 20270112, numRuns: 100 })
})
