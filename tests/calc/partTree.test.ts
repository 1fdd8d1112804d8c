import assert from 'node:assert/strict'
import fc from 'fast-check'
import t from 'tap'
import { lotSize, netRequirements } from '../../server/calc/parts/netting.ts'
import { explodeParts, findPartLoop } from '../../server/calc/parts/partTree.ts'
import type { PartUse } from '../../server/calc/parts/partTree.ts'
import { Refusal } from '../../server/calc/refusal.ts'
import { part, trees, use } from '../support/partTrees.ts'

const RUNS = { numRuns: 100, seed: 20_240_611 }

// Heizer and Render, Operations Management, ch. 14, problem 14.3; answers as in its instructor manual.
const NAMES = ['bracket', 'base', 'spring', 'clamp', 'housing', 'handle', 'casting', 'bearing', 'shaft']
const BRACKET: readonly PartUse[] = [
  use('bracket', 'base', 1), use('bracket', 'spring', 2), use('bracket', 'clamp', 4), use('base', 'clamp', 1),
  use('base', 'housing', 2), use('clamp', 'handle', 1), use('clamp', 'casting', 1), use('housing', 'bearing', 2),
  use('housing', 'shaft', 1),
]
const brackets = NAMES.map(id => part(id, id === 'bracket' ? 50 : 0))

t.test('a published tree explodes to its published counts and low-level codes', async t => {
  const required = explodeParts(brackets, BRACKET)
  t.strictSame(Object.fromEntries([...required].map(([id, { count }]) => [id, count])), {
    bracket: 50, base: 50, spring: 100, clamp: 250, housing: 100, handle: 250, casting: 250, bearing: 200, shaft: 100,
  })
  // Low-level codes follow from the definition; computed by hand, not printed in the source.
  t.strictSame(Object.fromEntries([...required].map(([id, { level }]) => [id, level])), {
    bracket: 0, base: 1, spring: 1, clamp: 2, housing: 2, handle: 3, casting: 3, bearing: 3, shaft: 3,
  })
})

t.test('stock is taken level by level, as the published answer has it', async t => {
  const onHand = (id: string) => ({ base: 25, clamp: 100 })[id] ?? 0
  const items = NAMES.map(id => ({ id, number: id, demand: id === 'bracket' ? 50 : 0, onHand: onHand(id) }))
  const net = netRequirements(items, BRACKET)
  t.strictSame(Object.fromEntries(net.map(({ id, net }) => [id, net])), {
    bracket: 50, base: 25, spring: 100, clamp: 125, housing: 50, handle: 125, casting: 125, bearing: 100, shaft: 50,
  })
  t.match(net.find(({ id }) => id === 'clamp'), { gross: 225, fromStock: 100 }, '200 directly and 25 in bases, netted once')
})

t.test('lot rules raise a need as they are defined', async t => {
  // q = net; q = m·ceil(net/m); max(net, min): textbook definitions, same chapter.
  t.equal(lotSize(7), 7)
  t.equal(lotSize(7, { kind: 'multiple', of: 5 }), 10)
  t.equal(lotSize(10, { kind: 'multiple', of: 5 }), 10)
  t.equal(lotSize(7, { kind: 'minimum', quantity: 20 }), 20)
  t.equal(lotSize(27, { kind: 'minimum', quantity: 20 }), 27)
  t.equal(lotSize(0, { kind: 'minimum', quantity: 20 }), 0, 'nothing needed, nothing planned')
  t.throws(() => lotSize(1, { kind: 'multiple', of: 0 }), Refusal)
  const [, child] = netRequirements(
    [{ id: 'a', number: 'a', demand: 7, onHand: 0, lot: { kind: 'multiple', of: 5 } }, { id: 'b', number: 'b', demand: 0, onHand: 0 }],
    [use('a', 'b', 2)],
  )
  t.equal(child?.gross, 20, 'the lot, not the need, drives the next level')
})

t.test('a part that contains itself is refused with the ring named', async t => {
  const parts = ['110', '111', '112'].map(id => part(id, 1))
  const ring = [use('110', '111', 1), use('111', '110', 2), use('111', '112', 1)]
  t.equal(findPartLoop(parts, ring), 'P-110 → P-111 → P-110')
  t.throws(() => explodeParts(parts, ring), { name: 'Refusal', message: /P-110 → P-111 → P-110/ })
  t.equal(findPartLoop(parts, [use('112', '112', 1)]), 'P-112 → P-112')
  t.equal(findPartLoop(parts, [use('110', '111', 1)]), null)
})

t.test('quantities that cannot be are refused in words', async t => {
  t.throws(() => explodeParts([part('a', -1)], []), { message: 'The quantity of P-a must be a whole number of at least 0.' })
  t.throws(() => explodeParts([part('a'), part('b')], [use('a', 'b', 0)]), { message: /P-b in P-a/ })
  t.throws(() => explodeParts([part('a', 1.5)], []), Refusal)
  t.throws(() => explodeParts([part('a', 1)], [use('a', 'gone', 1)]), Refusal)
  const huge = [part('a', 2_000_000_000), part('b')]
  t.throws(() => explodeParts(huge, [use('a', 'b', 2)]), { message: /P-b Part b would be needed more than/ })
})

t.test('a shared piece counts once per use and stands in the zone of each use', async t => {
  const parts = [part('left', 1, 'left door'), part('right', 1, 'right door'), part('ring')]
  const { count, countByZone, demands } = explodeParts(parts, [use('left', 'ring', 2), use('right', 'ring', 3)]).get('ring')!
  t.equal(count, 5)
  t.strictSame([...countByZone], [['left door', 2], ['right door', 3]])
  t.strictSame(demands.map(({ parentId, count }) => [parentId, count]), [['left', 2], ['right', 3]])
})

t.test('walking every path from the vehicle down gives the same counts', async () => {
  // Slow and obvious: each way to reach a part is walked by itself.
  const walk = (id: string, pieces: number, uses: readonly PartUse[], into: Map<string, number>) => {
    into.set(id, (into.get(id) ?? 0) + pieces)
    for (const { partId, quantity } of uses.filter(({ parentId }) => parentId === id)) walk(partId, pieces * quantity, uses, into)
  }
  fc.assert(fc.property(trees, ({ parts, uses }) => {
    const counts = new Map<string, number>()
    for (const { id, quantity } of parts) walk(id, quantity, uses, counts)
    const required = explodeParts(parts, uses)
    const net = netRequirements(parts.map(({ id, number, quantity }) => ({ id, number, demand: quantity, onHand: 0 })), uses)
    for (const [id, { count, countByZone, demands }] of required) {
      assert.equal(count, counts.get(id))
      assert.equal([...countByZone.values()].reduce((a, b) => a + b, 0), count, 'zones sum to the whole')
      assert.equal(demands.reduce((sum, demand) => sum + demand.count, 0), count, 'demands sum to the whole')
    }
    for (const { id, planned } of net) assert.equal(planned, counts.get(id), 'without stock netting is explosion')
  }), RUNS)
})
