import fc from 'fast-check'
import t from 'tap'
import type { RemovalEdge } from '../../server/calc/removal/removalEdges.ts'
import { withRemovalOrder } from '../../server/calc/schedule/removalLinks.ts'
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

const on = (ownerId: string, ...kinds: readonly string[]) => kinds.map((kind) => ({ id: `${ownerId} ${kind}`, ownerId, kind }))
const edge = (graph: 'found' | 'built', beforeId: string, afterId: string, more: Partial<RemovalEdge> = {}): RemovalEdge => ({ graph, kind: 'out', beforeId, afterId, ...more })
/** What each waits for, of work that waits for nothing else but what is entered. */
function orderOf(work: readonly { readonly id: string, readonly ownerId: string, readonly kind: string }[], edges: readonly RemovalEdge[], entered: Readonly<Record<string, readonly string[]>> = {}): Record<string, readonly string[]> {
  const waiting = withRemovalOrder(new Map(work.map(({ id }) => [id, entered[id] ?? []])), edges, work)
  return Object.fromEntries([...waiting].filter(([, earlier]) => earlier.length > 0))
}

// Common practice, no source: a panel hides what is behind it.
t.test('what stands in front comes out first and goes back last, and what is new goes in behind it meanwhile', async (t) => {
  const work = [...on('panel', 'take out', 'put back'), ...on('speaker', 'take out'), ...on('new speaker', 'fit', 'wire', 'tune')]
  t.same(orderOf(work, [edge('found', 'panel', 'speaker'), edge('built', 'panel', 'new speaker')]), {
    'speaker take out': ['panel take out'], 'new speaker fit': ['panel take out'], 'new speaker wire': ['panel take out'],
    'panel put back': ['new speaker fit', 'new speaker wire'],
  }, 'it is tuned whenever it is')
  const trims = [...on('sill', 'take out', 'put back'), ...on('pillar', 'take out', 'put back')]
  t.same(orderOf(trims, [edge('found', 'sill', 'pillar')]), { 'pillar take out': ['sill take out'], 'sill put back': ['pillar put back'] })
})

t.test('what is entered holds; loosening, one of several ways, and what is out already bind nothing', async (t) => {
  const work = [...on('sill', 'take out'), ...on('pillar', 'take out')]
  t.same(orderOf(work, [edge('found', 'sill', 'pillar')], { 'sill take out': ['pillar take out'] }), { 'sill take out': ['pillar take out'] }, 'no ring')
  t.same(orderOf(work, [edge('built', 'sill', 'pillar'), edge('found', 'pillar', 'sill')]), { 'pillar take out': ['sill take out'] }, 'as built before as found')
  t.same(orderOf(work, [edge('found', 'sill', 'pillar', { kind: 'loosened' }), edge('found', 'sill', 'pillar', { way: 'from above' })]), {})
  t.same(orderOf(on('pillar', 'take out'), [edge('found', 'sill', 'pillar')]), {})
})
