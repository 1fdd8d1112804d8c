import assert from 'node:assert/strict'
import fc from 'fast-check'
import t from 'tap'
import { countCrossings, reduceCrossings, type Layered } from '../../server/calc/drawing/crossings.ts'
import { nearest } from '../../server/calc/drawing/drawingColumns.ts'
import { assignLanes } from '../../server/calc/drawing/drawingLanes.ts'
import type { Edge } from '../../server/calc/graph.ts'
import { assignLayers } from '../../server/calc/drawing/layering.ts'
import { shortenEdges } from '../../server/calc/drawing/shorterEdges.ts'
import { dags, fewestLayers, permutations, type Dag } from '../support/randomDags.ts'

const RUNS = { numRuns: 100, seed: 20_310_512 }
const layerOf = (layers: readonly (readonly string[])[], id: string): number => layers.findIndex((layer) => layer.includes(id))

function isLayering({ ids, edges }: Dag, layers: readonly (readonly string[])[], across: number): void {
  assert.deepEqual(layers.flat().toSorted(), ids.toSorted(), 'each thing once')
  assert.ok(layers.every((layer) => layer.length > 0 && layer.length <= across))
  for (const { before, after } of edges) assert.ok(layerOf(layers, before) < layerOf(layers, after), `${before} over ${after}`)
}

t.test('every rule leads downwards, no layer is too wide, and two across take as few layers as can be, as Coffman and Graham 1972 proved', async () => {
  fc.assert(fc.property(dags(9, 14), (dag) => {
    const layers = assignLayers(dag.ids, dag.edges, 2)
    isLayering(dag, layers, 2)
    assert.equal(layers.length, fewestLayers(dag, 2))
  }), RUNS)
})

t.test('wider drawings keep the bound of Lam and Sethi 1977, without a limit the layers are as many as the longest chain (Mirsky 1971)', async () => {
  fc.assert(fc.property(dags(9, 14), fc.integer({ min: 3, max: 4 }), (dag, across) => {
    const layers = assignLayers(dag.ids, dag.edges, across)
    isLayering(dag, layers, across)
    assert.ok(layers.length <= (2 - 2 / across) * fewestLayers(dag, across))
    const longest = (id: string): number => 1 + Math.max(0, ...dag.edges.filter(({ before }) => before === id).map(({ after }) => longest(after)))
    assert.equal(assignLayers(dag.ids, dag.edges, Infinity).length, Math.max(...dag.ids.map(longest)))
  }), RUNS)
})

t.test('moving things nearer to each other never makes a rule longer in all, a layer too wide or a rule turn around', async (t) => {
  let shorter = 0
  fc.assert(fc.property(dags(14, 12), fc.integer({ min: 4, max: 8 }), (dag, across) => {
    const layers = assignLayers(dag.ids, dag.edges, across)
    const moved = shortenEdges(layers, dag.edges, across)
    isLayering(dag, moved, across)
    assert.ok(moved.length <= layers.length)
    const lengthOf = (all: readonly (readonly string[])[]): number => dag.edges.reduce((sum, { before, after }) => sum + layerOf(all, after) - layerOf(all, before), 0)
    assert.ok(lengthOf(moved) <= lengthOf(layers))
    if (lengthOf(moved) < lengthOf(layers)) shorter += 1
  }), RUNS)
  t.ok(shorter > 2, `${shorter} got shorter`)
})

t.test('what runs in a ring has no layers', async (t) => {
  t.throws(() => assignLayers(['a', 'b'], [{ before: 'a', after: 'b' }, { before: 'b', after: 'a' }], 4), /ring/)
})

/** Two or three rows of up to four with many edges between them. */
const rows: fc.Arbitrary<Layered> = fc.array(fc.integer({ min: 2, max: 4 }), { minLength: 2, maxLength: 3 }).chain((sizes) => {
  const layers = sizes.map((size, row) => Array.from({ length: size }, (_, index) => `r${row}${index}`))
  const pairs = layers.slice(1).flatMap((layer, row) => layers[row]!.flatMap((before) => layer.map((after): Edge => ({ before, after }))))
  return fc.shuffledSubarray(pairs, { minLength: Math.floor(pairs.length / 2) }).map((edges) => ({ layers, edges }))
})

t.test('crossings come near the least there is: at most one more, and none more in nine of ten, of all orders of small graphs', async (t) => {
  let least = 0
  let crossed = 0
  let tried = 0
  fc.assert(fc.property(rows, (start) => {
    let best = Infinity
    const choose = (index: number, chosen: readonly (readonly string[])[]): void => {
      const layer = start.layers[index]
      if (!layer) best = Math.min(best, countCrossings({ layers: chosen, edges: start.edges }))
      else for (const order of permutations(layer)) if (best > 0) choose(index + 1, [...chosen, order])
    }
    choose(0, [])
    const layers = reduceCrossings(start)
    assert.deepEqual(layers.map((layer) => layer.toSorted()), start.layers.map((layer) => layer.toSorted()), 'nothing changes its layer')
    const found = countCrossings({ layers, edges: start.edges })
    assert.ok(found <= best + 1, `${found} crossings where ${best} would do`)
    tried += 1
    if (best > 0) crossed += 1
    if (found === best) least += 1
  }), RUNS)
  t.ok(crossed > tried / 3, 'many of them cannot be drawn without any')
  t.ok(least >= tried * 0.9, `${least} of ${tried} have the least number`)
})

t.test('two rows are drawn without a crossing where that can be: caterpillars can, a claw with long legs cannot (Harary and Schwenk 1972, from memory)', async (t) => {
  const between = (top: string, bottom: string, pairs: string) => ({
    layers: [[...top], [...bottom]], edges: pairs.split(' ').map(([before = '', after = '']) => ({ before, after })),
  })
  const crossingsOf = (graph: ReturnType<typeof between>): number => countCrossings({ layers: reduceCrossings(graph), edges: graph.edges })
  t.equal(crossingsOf(between('abcd', 'wxyz', 'cz cw az dw bx dx')), 0)
  t.equal(crossingsOf(between('cpqr', 'xyz', 'cx cy cz px qy rz')), 1)
  // Every two of three and every two of four cross once, whatever their order: 3 × 6.
  t.equal(crossingsOf(between('abc', 'wxyz', 'aw ax ay az bw bx by bz cw cx cy cz')), 18)
})

t.test('columns are as near to what is wished for as their order allows: the max-min formula of isotonic regression (Robertson, Wright and Dykstra 1988, from memory)', async () => {
  const wishes = fc.array(fc.record({ value: fc.integer({ min: -50, max: 50 }), weight: fc.integer({ min: 1, max: 9 }) }), { minLength: 1, maxLength: 9 })
  fc.assert(fc.property(wishes, (list) => {
    const mean = (from: number, to: number): number => {
      const part = list.slice(from, to + 1)
      return part.reduce((sum, { value, weight }) => sum + value * weight, 0) / part.reduce((sum, { weight }) => sum + weight, 0)
    }
    const expected = list.map((_, at) => Math.max(...list.slice(0, at + 1).map((__, from) => Math.min(...list.slice(at).map((___, more) => mean(from, at + more))))))
    nearest(list).forEach((value, index) => assert.ok(Math.abs(value - expected[index]!) < 1e-9))
  }), RUNS)
})

t.test('lines that overlap run in lanes of their own, and one that comes down beside another’s end stays above it', async () => {
  const crossings = fc.uniqueArray(fc.tuple(fc.nat(40), fc.nat(40)), { selector: ([from]) => from, maxLength: 8 })
  fc.assert(fc.property(crossings, (pairs) => {
    const list = pairs.map(([from, to], index) => ({ id: `c${index}`, from: from * 10, to: to * 10 + 5 }))
    const lanes = assignLanes(list)
    assert.equal(lanes.size, list.length)
    for (const a of list) for (const b of list) {
      const isApart = Math.max(a.from, a.to) < Math.min(b.from, b.to) || Math.max(b.from, b.to) < Math.min(a.from, a.to)
      if (a !== b && !isApart) assert.notEqual(lanes.get(a.id), lanes.get(b.id))
    }
  }), RUNS)
  const stacked = assignLanes([{ id: 'low', from: 0, to: 50 }, { id: 'high', from: 50, to: 90 }])
  assert.ok(stacked.get('high')! < stacked.get('low')!)
})
