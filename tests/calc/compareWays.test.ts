import assert from 'node:assert/strict'
import fc from 'fast-check'
import t from 'tap'
import { compareWays } from '../../server/calc/removal/compareWays.ts'
import type { RemovalEdge } from '../../server/calc/removal/removalEdges.ts'
import { dags } from '../support/randomDags.ts'

const thing = (id: string, takeOutS: number, putBackS: number) => ({ id, takeOutS, putBackS })
const rule = (beforeId: string, afterId: string, way = '', kind: RemovalEdge['kind'] = 'out'): RemovalEdge => ({ graph: 'built', kind, beforeId, afterId, ...(way === '' ? {} : { way }) })

t.test('ways are compared by all that comes out for them, out and back, by hand', async t => {
  const things = [thing('seat', 600, 900), thing('wall', 1800, 2400), thing('box', 3600, 3600), thing('belt', 100, 200), thing('vent', 60, 120)]
  const edges = [rule('seat', 'wall'), rule('wall', 'vent', 'through the cab'), rule('box', 'vent', 'from the bed'), rule('belt', 'vent', '', 'loosened')]
  const ways = compareWays({ things, looseIds: [], edges, afterId: 'vent' })
  // Belt loosened 150, vent 180; cab: seat 1,500 + wall 4,200; bed: box 7,200.
  t.same(ways.map(({ way, seconds, isLeast }) => ({ way, seconds, isLeast })), [
    { way: 'through the cab', seconds: 6030, isLeast: true }, { way: 'from the bed', seconds: 7530, isLeast: false },
  ])
  t.same(ways.map(({ steps }) => steps.map(({ id, depth }) => `${id} ${depth}`)), [['seat out', 'wall out', 'belt loosened', 'vent out'], ['box out', 'belt loosened', 'vent out']])
  const loose = compareWays({ things, looseIds: ['belt'], edges, afterId: 'vent' })
  t.same(loose.map(({ seconds }) => seconds), [5880, 7380], 'what is loose already need not be loosened')
  t.same(compareWays({ things, looseIds: [], edges: [...edges, rule('vent', 'box')], afterId: 'vent' })[1], { way: 'from the bed', steps: [], seconds: null, isLeast: false }, 'a way in a ring cannot be gone')
  t.same(compareWays({ things, looseIds: [], edges, afterId: 'wall' }), [], 'no named ways, nothing to compare')
  const without = things.filter(({ id }) => id !== 'vent')
  t.same(compareWays({ things: without, looseIds: [], edges, afterId: 'vent' }).map(({ seconds }) => seconds), [5850, 7350], 'the place of a part that is out is reached likewise')
})

t.test('each way takes what a walk back over its own rules takes, and the least is the least', async () => {
  fc.assert(fc.property(dags(8, 12), fc.array(fc.constantFrom('a', 'b', 'c'), { minLength: 12, maxLength: 12 }), fc.array(fc.nat(50), { minLength: 8, maxLength: 8 }), ({ ids, edges }, names, times) => {
    const target = ids.at(-1)!
    const things = ids.map((id, index) => thing(id, times[index]! * 2, times[index]!))
    const rules = edges.map(({ before, after }, index) => rule(before, after, after === target ? names[index]! : ''))
    const ways = compareWays({ things, looseIds: [], edges: rules, afterId: target })
    for (const { way, seconds } of ways) {
      const reached = new Set([target])
      for (let size = 0; size !== reached.size;) {
        size = reached.size
        for (const { beforeId, afterId, way: own } of rules) if (reached.has(afterId) && (own === undefined || own === way)) reached.add(beforeId)
      }
      assert.equal(seconds, things.filter(({ id }) => reached.has(id)).reduce((sum, { takeOutS, putBackS }) => sum + takeOutS + putBackS, 0))
    }
    const least = Math.min(...ways.map(({ seconds }) => seconds!))
    for (const { seconds, isLeast } of ways) assert.equal(isLeast, seconds === least)
  }), { numRuns: 100, seed: 20_310_515 })
})
