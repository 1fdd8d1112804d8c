import assert from 'node:assert/strict'
import fc from 'fast-check'
import t from 'tap'
import { drawInLayers, type Drawing, type DrawingSizes } from '../../server/calc/drawing/layeredDrawing.ts'
import { dags, type Dag } from '../support/randomDags.ts'

const RUNS = { numRuns: 100, seed: 20_310_513 }
const SIZES: DrawingSizes = { boxWidth: 130, boxHeight: 44, gap: 14, lane: 9, headroom: 14, mostAcross: 6, mostWide: 980 }

interface Area { readonly left: number, readonly right: number, readonly top: number, readonly bottom: number }

const areaOf = ({ x, y }: { x: number, y: number }): Area => ({ left: x, right: x + SIZES.boxWidth, top: y, bottom: y + SIZES.boxHeight })
const meet = (a: Area, b: Area): boolean => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom

function check({ ids, edges }: Dag, drawing: Drawing): void {
  const boxes = new Map(drawing.boxes.map((box) => [box.id, areaOf(box)]))
  assert.deepEqual([...boxes.keys()].toSorted(), ids.toSorted(), 'each thing is drawn once')
  const areas = [...boxes.values()]
  areas.forEach((a, index) => areas.slice(index + 1).forEach((b) => assert.ok(!meet(a, b), 'no two boxes overlap')))
  assert.equal(drawing.routes.length, edges.length)
  for (const { before, after, points } of drawing.routes) {
    assert.ok(edges.some((edge) => edge.before === before && edge.after === after))
    const [from, to] = [boxes.get(before)!, boxes.get(after)!]
    assert.ok(from.bottom < to.top, 'every rule leads downwards')
    const [first, last] = [points[0]!, points.at(-1)!]
    assert.ok(first.y === from.bottom && first.x > from.left && first.x < from.right, 'it leaves the box it comes from')
    assert.ok(last.y === to.top && last.x > to.left && last.x < to.right, 'and reaches the one it leads to')
    points.slice(1).forEach((point, index) => {
      const start = points[index]!
      assert.ok((point.x === start.x && point.y > start.y) || point.y === start.y, 'level or downwards')
      const line = { left: Math.min(point.x, start.x), right: Math.max(point.x, start.x), top: start.y, bottom: point.y }
      for (const box of areas) assert.ok(!(line.left < box.right && box.left < line.right + 1e-9 && line.top < box.bottom && box.top < line.bottom + (line.top === line.bottom ? 1e-9 : 0)), 'no line runs through a box')
    })
  }
  for (const { left, right, top, bottom } of areas) assert.ok(left >= 0 && right <= drawing.width && top >= 0 && bottom <= drawing.height)
}

t.test('a drawing shows each thing once, no two overlapping, every rule downwards and around the boxes', async () => {
  fc.assert(fc.property(dags(14, 22), (dag) => check(dag, drawInLayers(dag.ids, dag.edges, SIZES))), RUNS)
})

t.test('it stays as narrow as the sheet: more things stand below each other, not beside', async () => {
  fc.assert(fc.property(dags(24, 12), fc.constantFrom(700, 980), (dag, mostWide) => {
    const drawing = drawInLayers(dag.ids, dag.edges, { ...SIZES, mostWide })
    check(dag, drawing)
    assert.ok(drawing.width <= mostWide, `${drawing.width} wide`)
  }), RUNS)
})

t.test('the same graph always gives the same drawing, and rules about things outside it or said twice change nothing', async () => {
  fc.assert(fc.property(dags(12, 18), (dag) => {
    const once = drawInLayers(dag.ids, dag.edges, SIZES)
    assert.deepEqual(drawInLayers(dag.ids, dag.edges, SIZES), once)
    assert.deepEqual(drawInLayers(dag.ids, [...dag.edges, ...dag.edges, { before: 'elsewhere', after: dag.ids[0]! }], SIZES), once)
  }), RUNS)
})

t.test('a chain stands straight in one column', async (t) => {
  const drawing = drawInLayers(['a', 'b', 'c'], [{ before: 'a', after: 'b' }, { before: 'b', after: 'c' }], SIZES)
  t.same(drawing.boxes, [{ id: 'a', x: 0, y: 0 }, { id: 'b', x: 0, y: 72 }, { id: 'c', x: 0, y: 144 }])
  t.same(drawing.routes.map(({ points }) => points), [[{ x: 65, y: 44 }, { x: 65, y: 72 }], [{ x: 65, y: 116 }, { x: 65, y: 144 }]])
  t.same([drawing.width, drawing.height, drawing.crossings], [130, 188, 0])
  t.same(drawInLayers([], [], SIZES), { width: 0, height: 0, boxes: [], routes: [], crossings: 0 })
})
