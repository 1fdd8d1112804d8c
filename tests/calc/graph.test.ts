import assert from 'node:assert/strict'
import { spawnSync } from 'node:child_process'
import fc from 'fast-check'
import t from 'tap'
import { closureOfPredecessors, findCycle, toLoopText, topologicalOrder } from '../../server/calc/graph.ts'
import type { Edge } from '../../server/calc/graph.ts'
import { shareOut } from '../../server/calc/shares.ts'

const RUNS = { numRuns: 100, seed: 20_240_611 }
const graphs = fc.array(fc.tuple(fc.nat(7), fc.nat(7)).map(([a, b]): Edge => ({ before: `n${a}`, after: `n${b}` })), { minLength: 1, maxLength: 14 })
const HAS_TSORT = { skip: spawnSync('tsort', ['--version']).error ? 'tsort is not installed' : false }
const NODES = Array.from({ length: 8 }, (_, index) => `n${index}`)

t.test('things come in an order that holds every edge, or their ring is named, as tsort finds it', HAS_TSORT, async () => {
  fc.assert(fc.property(graphs, edges => {
    const judge = spawnSync('tsort', { input: edges.map(({ before, after }) => `${before} ${after}`).join('\n'), encoding: 'utf8' })
    const result = topologicalOrder(NODES, edges)
    // To tsort a pair of equal names only says that the thing exists; to us it is a ring.
    const selfMade = edges.some(({ before, after }) => before === after)
    assert.equal('cycle' in result, judge.status === 1 || selfMade)
    if ('order' in result) {
      assert.equal(new Set(result.order).size, NODES.length)
      for (const { before, after } of edges) assert.ok(result.order.indexOf(before) < result.order.indexOf(after))
    } else {
      assert.ok(result.cycle.length >= 2)
      assert.equal(result.cycle[0], result.cycle.at(-1))
      assert.equal(new Set(result.cycle).size, result.cycle.length - 1, 'nothing but the ring')
      result.cycle.slice(1).forEach((after, index) =>
        assert.ok(edges.some(edge => edge.before === result.cycle[index] && edge.after === after), 'each step is an edge'))
    }
  }), RUNS)
})

t.test('of things that are free at once the tie-break decides, else the order they are listed in', async t => {
  t.strictSame(topologicalOrder(['c', 'b', 'a'], [{ before: 'a', after: 'b' }]), { order: ['c', 'a', 'b'] })
  t.strictSame(topologicalOrder(['c', 'b', 'a'], [], (a, b) => a.localeCompare(b)), { order: ['a', 'b', 'c'] })
  t.strictSame(topologicalOrder(['a', 'b', 'c'], [{ before: 'b', after: 'a' }]), { order: ['b', 'a', 'c'] }, 'also of things set free on the way')
  t.equal(findCycle(['a', 'b'], [{ before: 'a', after: 'b' }, { before: 'a', after: 'b' }]), null, 'an edge said twice is no ring')
})

t.test('the smallest set that holds every edge is the closure of what comes before', async () => {
  fc.assert(fc.property(graphs, fc.subarray(NODES), (edges, chosen) => {
    const closure = closureOfPredecessors(chosen, edges)
    // Brute force: of all sets of the eight that contain the chosen and hold every edge, the smallest.
    const holds = (mask: number) => chosen.every(node => mask & 1 << NODES.indexOf(node))
      && edges.every(({ before, after }) => !(mask & 1 << NODES.indexOf(after)) || mask & 1 << NODES.indexOf(before))
    const sizes = Array.from({ length: 256 }, (_, mask) => mask).filter(holds).map(mask => mask.toString(2).replaceAll('0', '').length)
    assert.ok(holds([...closure].reduce((mask, node) => mask | 1 << NODES.indexOf(node), 0)))
    assert.equal(closure.size, Math.min(...sizes))
  }), RUNS)
})

t.test('shares add up to the whole and none is a unit away from its due', async t => {
  t.strictSame(shareOut(100, [1, 1, 1]), [34, 33, 33])
  t.strictSame(shareOut(7, [0, 0]), [7, 0])
  fc.assert(fc.property(fc.nat(2_000_000_000), fc.array(fc.nat(2_000_000_000), { minLength: 1, maxLength: 6 }), (total, weights) => {
    const shares = shareOut(total, weights)
    const sum = weights.reduce((a, b) => a + b, 0)
    assert.equal(shares.reduce((a, b) => a + b, 0), total)
    if (sum > 0) shares.forEach((share, index) => assert.ok(Math.abs(share - total * (weights[index]! / sum)) < 1.000_001))
  }), RUNS)
})

t.test('a ring is told in words', async t => {
  t.equal(toLoopText(['a', 'b', 'a'], id => `F-${id}`), 'F-a → F-b → F-a')
})
