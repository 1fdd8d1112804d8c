import { spawnSync } from 'node:child_process'
import fc from 'fast-check'
import t from 'tap'
import { findRemovalOrder } from '../../server/calc/removal/removalOrder.ts'
import type { RemovalEdge } from '../../server/calc/removal/removalEdges.ts'
import { planRestoration } from '../../server/calc/restoration/restoration.ts'
import { toVerdict } from '../../server/calc/restoration/verdict.ts'
import { DOOR, arbitraryRestoration, edge, getPlan, ids, item, part, restorationOf } from '../support/restorationWorld.ts'
import { bindingAsBuilt, canReach, findBestByTrial, toDemand, toEffort, toVehicle } from '../support/vehicleSimulation.ts'

const RUNS = { seed: 20270112, numRuns: 100 }

t.test('a door goes back to stock: switch and panel come off, the built speaker goes, the factory one returns', async t => {
  const plan = getPlan(DOOR)
  t.same(ids(plan.takeOut), ['F-020', 'F-021', 'E-05', 'P-420'])
  t.same(ids(plan.putBack), ['F-022', 'F-021', 'F-020'])
  t.same(plan.staysOutIds, ['E-05', 'P-420'])

  const verdict = toVerdict(DOOR, plan, 9000)
  t.equal(verdict.kind, 'restorable as is')
  // By hand: out 300 + 900 + 480 + 720 = 2400, back 500 + 1200 + 300 = 2000 s; 4400 s at 90.00 an hour = 110.00.
  t.same(verdict.hours, { outS: 2400, repairS: 0, backS: 2000, totalS: 4400 })
  // Nine clips, one in five breaks (common practice, no source): two spares at 1.20.
  t.same(verdict.partsToBuy.map(({ name, count, forNumbers }) => [name, count, forNumbers]), [['clip', 2, ['F-021']]])
  t.same(verdict.cost, { laborMinor: 11000, partsMinor: 240, outsideMinor: 0, totalMinor: 11240, unpricedCount: 0 })
  t.equal(verdict.leadDays, 3)
  t.equal(verdict.hoursWorking.result.value, 4400)
  t.equal(verdict.costWorking.result.value, 11240)
})

t.test('a teardown says what is ready next and what each part waits for', async t => {
  const question = { things: DOOR.factoryParts.map(({ id, name, takeOutS, putBackS }) => ({ id, label: `${id} ${name}`, takeOutS, putBackS })),
    edges: [...DOOR.edges, edge('built', 'F-022', 'F-020')], targetIds: ['F-022'], loosenedIds: [] }
  const fresh = findRemovalOrder({ ...question, outIds: [] })
  if (fresh.kind === 'refused') throw new Error(fresh.sentence)
  t.same(ids(fresh.steps), ['F-020', 'F-021', 'F-022'])
  t.same(fresh.readyIds, ['F-020'])
  t.same(fresh.steps[2]?.waitsForIds, ['F-021'])
  const begun = findRemovalOrder({ ...question, outIds: ['F-020'] })
  t.same(begun.kind === 'order' && begun.readyIds, ['F-021'])
})

t.test('rules that run in a ring are refused with the loop in words', async t => {
  const things = [part(21, 'door panel'), part(22, 'grille')].map(({ id, name, takeOutS, putBackS }) => ({ id, label: `${id} ${name}`, takeOutS, putBackS }))
  const edges = [edge('found', 'F-021', 'F-022'), edge('found', 'F-022', 'F-021')]
  const order = findRemovalOrder({ things, edges, targetIds: 'all', outIds: [], loosenedIds: [] })
  t.match(order, { kind: 'refused', sentence: /F-021 door panel → F-022 grille → F-021 door panel/ })

  const ring = restorationOf({ ...DOOR, edges: [...DOOR.edges, edge('built', 'P-420', 'F-021')] })
  t.match(planRestoration(ring), { kind: 'refused', phase: 'take out', sentence: /E-05 midbass → P-420 baffle → F-021 door panel/ })
  const wayBack = restorationOf({ ...DOOR, edges: [...DOOR.edges, edge('reinstall', 'F-020', 'F-022')] })
  t.match(planRestoration(wayBack), { kind: 'refused', phase: 'reinstall', sentence: /F-020 window switch → F-022 door speaker → F-021 door panel/ })
})

t.test('a ring elsewhere in the vehicle does not stop the restoration of one part', async t => {
  const elsewhere = [part(30, 'lining'), part(31, 'rail')]
  const edges = [...DOOR.edges, edge('built', 'F-030', 'F-031'), edge('built', 'F-031', 'F-030')]
  const plan = getPlan(restorationOf({ ...DOOR, factoryParts: [...DOOR.factoryParts, ...elsewhere], edges, choice: { factoryPartIds: ['F-022'], alterationIds: [] } }))
  t.same(ids(plan.takeOut), ['F-020', 'F-021', 'E-05', 'P-420'])
})

t.test('in a partial restoration a built thing that is only in front goes back in', async t => {
  const plan = getPlan(restorationOf({
    factoryParts: [part(40, 'load floor', { state: 'out and stored' }), part(41, 'spare wheel cover', { state: 'out and stored' })],
    installedItems: [item('P-500', 'false floor', { replacesFactoryPartIds: ['F-040'] }), item('E-11', 'amplifier', { replacesFactoryPartIds: ['F-041'] })],
    edges: [edge('built', 'P-500', 'E-11')],
    choice: { factoryPartIds: ['F-041'], alterationIds: [] },
  }))
  t.same(ids(plan.takeOut), ['P-500', 'E-11'])
  t.same(plan.staysOutIds, ['E-11'])
  t.same(ids(plan.putBack).toSorted(), ['F-041', 'P-500'])
  t.match(plan.openPoints.join(), /P-500 false floor goes back although E-11 amplifier behind it stays out/)
})

t.test('where there are named ways in, the one with fewer hours is taken and the other is shown beside it', async t => {
  const way = (beforeId: string, name: string): RemovalEdge => ({ ...edge('built', beforeId, 'E-05'), way: name })
  const plan = getPlan(restorationOf({
    factoryParts: [part(1, 'seat', { takeOutS: 1800, putBackS: 1800 }), part(2, 'sill trim', { takeOutS: 300, putBackS: 300 }), part(3, 'module', { state: 'out and stored' })],
    installedItems: [item('E-05', 'amplifier', { replacesFactoryPartIds: ['F-003'], takeOutS: 600 })],
    edges: [way('F-001', 'under the seat'), way('F-002', 'from the sill')],
    choice: { factoryPartIds: ['F-003'], alterationIds: [] },
  }))
  t.same(ids(plan.takeOut), ['F-002', 'E-05'])
  t.same(plan.waysTaken, [{ afterId: 'E-05', way: 'from the sill', seconds: 1200, others: [{ way: 'under the seat', seconds: 4200 }] }])
})

t.test('of ways that take the same time the one with fewer things is taken', async t => {
  const way = (beforeId: string, name: string): RemovalEdge => ({ ...edge('found', beforeId, 'F-004'), way: name })
  const free = { takeOutS: 0, putBackS: 0 }
  const plan = getPlan(restorationOf({
    factoryParts: [part(1, 'cap', free), part(2, 'cap', free), part(3, 'cap', free), part(4, 'lamp', { state: 'missing' })],
    edges: [way('F-001', 'left'), way('F-002', 'left'), way('F-003', 'right')],
  }))
  t.same(ids(plan.takeOut), ['F-003'])
})

t.test('a way in that leaves no way back is not taken, even when it is shorter', async t => {
  const way = (beforeId: string, name: string): RemovalEdge => ({ ...edge('found', beforeId, 'F-003'), way: name })
  const plan = getPlan(restorationOf({
    factoryParts: [part(1, 'cover', { takeOutS: 60 }), part(2, 'seat', { takeOutS: 3600 }), part(3, 'module', { state: 'out and stored' })],
    edges: [way('F-001', 'cover'), way('F-002', 'seat'), edge('reinstall', 'F-001', 'F-003')],
  }))
  t.same(ids(plan.takeOut), ['F-002'])
})

t.test('a way in as found stays open beside one noted as built over the same part', async t => {
  const plan = getPlan(restorationOf({
    factoryParts: [part(1, 'trim'), part(2, 'rail'), part(3, 'module', { state: 'missing' })],
    edges: [
      { ...edge('built', 'F-001', 'F-003'), way: 'from below' }, { ...edge('built', 'F-002', 'F-003'), way: 'from below' },
      { ...edge('found', 'F-001', 'F-003'), way: 'from above' },
    ],
    choice: { factoryPartIds: ['F-003'], alterationIds: [] },
  }))
  t.same(ids(plan.takeOut), ['F-001'])
})

t.test('a part that only has to be loosened stays in, costs half its times and is made fast again', async t => {
  const input = restorationOf({
    factoryParts: [part(1, 'sill trim', { takeOutS: 600, putBackS: 800 }), part(2, 'carpet', { state: 'out and stored', putBackS: 100 })],
    edges: [edge('found', 'F-001', 'F-002', 'loosened')],
  })
  const plan = getPlan(input)
  t.match(plan.takeOut, [{ id: 'F-001', depth: 'loosened' }])
  t.same(plan.putBack.map(({ id, how }) => ({ id, how })), [{ id: 'F-002', how: 'refit' }, { id: 'F-001', how: 'tighten' }])
  t.same(toVerdict(input, plan, 0).hours, { outS: 300, repairS: 0, backS: 500, totalS: 800 })
})

t.test('where the vehicle as built asks for another order than as found, the built one rules the way out and the found one the way back', async t => {
  const plan = getPlan(restorationOf({
    factoryParts: [part(1, 'strip'), part(2, 'panel')],
    installedItems: [item('P-1', 'pod')],
    edges: [edge('found', 'F-001', 'F-002'), edge('built', 'F-002', 'F-001'), edge('built', 'F-001', 'P-1')],
  }))
  t.same(ids(plan.takeOut), ['F-002', 'F-001', 'P-1'])
  t.same(ids(plan.putBack), ['F-002', 'F-001'])
})

t.test('a part that is loose already is not loosened again, only made fast in a whole restoration', async t => {
  const plan = getPlan(restorationOf({
    factoryParts: [part(1, 'sill trim', { state: 'loosened' }), part(2, 'carpet', { state: 'out and stored' }), part(3, 'cap')],
    edges: [edge('found', 'F-001', 'F-002', 'loosened'), edge('found', 'F-003', 'F-001')],
    choice: { factoryPartIds: ['F-002'], alterationIds: [] },
  }))
  t.same([ids(plan.takeOut), ids(plan.putBack)], [[], ['F-002']])
  t.same(plan.openPoints, ['F-001 sill trim is loose and not part of this restoration.'])
})

t.test('a part that as found belongs in front comes out for the part behind, though as built it stands behind', async t => {
  const plan = getPlan(restorationOf({
    factoryParts: [part(1, 'shortened panel', { state: 'altered' }), part(2, 'strip')],
    edges: [edge('found', 'F-002', 'F-001'), edge('built', 'F-001', 'F-002')],
  }))
  t.same([ids(plan.takeOut), ids(plan.putBack)], [['F-001', 'F-002'], ['F-001', 'F-002']])
})

t.test('an as-built rule between two parts counts for them instead of the as-found one', async t => {
  const input = restorationOf({
    factoryParts: [part(1, 'panel'), part(2, 'module', { state: 'out and stored' })],
    edges: [edge('found', 'F-001', 'F-002'), edge('built', 'F-001', 'F-002', 'loosened')],
    choice: { factoryPartIds: ['F-002'], alterationIds: [] },
  })
  t.match(getPlan(input).takeOut, [{ id: 'F-001', depth: 'loosened' }])
})

t.test('an as-built rule about a part that is out overrules nothing', async t => {
  const plan = getPlan(restorationOf({
    factoryParts: [part(1, 'panel'), part(2, 'module', { state: 'out and stored' })],
    edges: [edge('found', 'F-001', 'F-002'), edge('built', 'F-002', 'F-001')],
    choice: { factoryPartIds: ['F-002'], alterationIds: [] },
  }))
  t.same(ids(plan.takeOut), ['F-001'])
})

t.test('no restoration that hands could do takes less than the one found, tried over every set, depth and way', async t => {
  let refused = 0
  fc.assert(fc.property(arbitraryRestoration, input => {
    const result = planRestoration(input)
    const best = findBestByTrial(input)
    if (result.kind === 'refused') refused += 1
    const depths = result.kind === 'plan' ? new Map(result.takeOut.map(({ id, depth }) => [id, depth === 'out' ? 'out' as const : 'loose' as const])) : null
    return JSON.stringify(depths && toEffort(input, depths)) === JSON.stringify(best)
  }), RUNS)
  t.ok(refused > 0 && refused < 50, 'some generated vehicles have rings, most have none')
})

t.test('done step by step, every plan can be reached, moves each thing once and ends as the vehicle was found', async t => {
  fc.assert(fc.property(arbitraryRestoration, input => {
    const plan = planRestoration(input)
    if (plan.kind === 'refused') return
    const vehicle = toVehicle(input)
    const asBuilt = bindingAsBuilt(input, vehicle)
    const ways = new Map(plan.waysTaken.map(({ afterId, way }) => [afterId, way]))
    const { restored, gone } = toDemand(input)
    for (const { id, depth } of plan.takeOut) {
      if (!canReach(id, vehicle, asBuilt, ways)) throw new Error(`${id} cannot come out yet`)
      vehicle.set(id, depth === 'out' ? 'out' : 'loose')
    }
    const rules = input.choice === 'all' ? input.edges.filter(({ graph }) => graph === 'found') : asBuilt
    for (const { id } of plan.putBack) {
      if (!canReach(id, vehicle, rules, ways)) throw new Error(`${id} cannot go back any more`)
      vehicle.set(id, 'fitted')
    }
    t.equal(new Set(ids(plan.takeOut)).size, plan.takeOut.length)
    t.same(ids(plan.putBack).toSorted(), [...new Set([...restored, ...ids(plan.takeOut)])].filter(id => !gone.includes(id)).toSorted())
    if (input.choice === 'all') {
      t.ok(input.factoryParts.every(({ id }) => vehicle.get(id) === 'fitted') && input.installedItems.every(({ id }) => vehicle.get(id) === 'out'))
    }
  }), RUNS)
})

t.test('tsort finds an order where the plan does, and a ring where it is refused', async t => {
  const pairs = fc.array(fc.tuple(fc.nat(6), fc.nat(6)).filter(([a, b]) => a !== b), { minLength: 1, maxLength: 9 })
  fc.assert(fc.property(pairs, list => {
    const edges = list.map(([a, b]) => edge('found', `F-00${a + 1}`, `F-00${b + 1}`))
    const parts = Array.from({ length: 7 }, (_, index) => part(index + 1, 'part'))
    const order = findRemovalOrder({ things: parts.map(({ id, takeOutS, putBackS }) => ({ id, label: id, takeOutS, putBackS })), edges, targetIds: 'all', outIds: [], loosenedIds: [] })
    // coreutils tsort leaves with 1 when the input has a loop.
    const oracle = spawnSync('tsort', { input: edges.map(({ beforeId, afterId }) => `${beforeId} ${afterId}\n`).join(''), encoding: 'utf8' })
    t.equal(order.kind === 'order' ? 0 : 1, oracle.status)
    if (order.kind === 'refused') return
    const place = new Map(order.steps.map(({ id }, index) => [id, index]))
    t.ok(edges.every(({ beforeId, afterId }) => (place.get(beforeId) ?? 9) < (place.get(afterId) ?? -1)))
    // Turned around, the same order satisfies the turned edges: that is the way back.
    const plan = getPlan(restorationOf({ factoryParts: parts.map(one => ({ ...one, state: 'out and stored' as const })), edges }))
    const back = new Map(plan.putBack.map(({ id }, index) => [id, index]))
    t.ok(edges.every(({ beforeId, afterId }) => (back.get(afterId) ?? 9) < (back.get(beforeId) ?? -1)))
  }), { ...RUNS, numRuns: 60 })
})
