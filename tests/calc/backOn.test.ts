import t from 'tap'
import { askWhatStandsInFront, type BackOn, type Fitted } from '../../server/calc/removal/backOn.ts'
import type { RemovalEdge } from '../../server/calc/removal/removalEdges.ts'
import { edge } from '../support/restorationWorld.ts'

const panel: BackOn = { partId: 'F-021', zoneId: 'door', outAt: 100, backAt: 500, answeredAt: null }
const item = (id: string, fittedAt: number | null, zoneId = 'door'): Fitted => ({ id, zoneId, fittedAt })
const ask = (backOn: readonly BackOn[], items: readonly Fitted[], edges: readonly RemovalEdge[]) =>
  askWhatStandsInFront(backOn, { items, edges, standing: edges, presentIds: new Set(['F-020', 'F-021', ...items.map(({ id }) => id)]) })

t.test('a panel that went back on is asked about with what was fitted in its zone, and what stood in front of it and is back too', async t => {
  const edges = [edge('found', 'F-020', 'F-021'), edge('found', 'F-019', 'F-021'), edge('found', 'F-021', 'F-022')]
  t.same(ask([panel], [item('E-01', 300), item('E-02', null), item('E-03', 300, 'roof')], edges), [
    { partId: 'F-021', items: [{ id: 'E-01', isNew: true }, { id: 'E-02', isNew: false }], stillIds: ['F-020'] },
  ])
  t.same(ask([panel], [], edges), [], 'nothing installed, nothing to ask')
  t.same(ask([panel], [item('E-01', 50), item('E-02', null)], edges), [], 'nothing fitted while it was out')
  t.same(ask([panel], [item('E-03', 300, 'roof')], edges), [], 'nor about another zone')
})

t.test('it is asked until it is answered, and again once it was out another time', async t => {
  t.same(ask([{ ...panel, answeredAt: 600 }], [item('E-01', 300)], []), [])
  t.equal(ask([{ ...panel, answeredAt: 400 }], [item('E-01', 300)], []).length, 1)
})

t.test('where something is known, in a rule or by a chain of them, only what was fitted meanwhile is asked about', async t => {
  const known = [edge('built', 'F-021', 'E-01'), edge('built', 'E-01', 'E-02')]
  t.same(ask([panel], [item('E-01', 50), item('E-02', 300), item('E-04', 50)], known), [], 'behind E-01 stands E-02; E-04 was there before')
  t.same(ask([panel], [item('E-01', 50), item('E-04', 300)], known), [{ partId: 'F-021', items: [{ id: 'E-04', isNew: true }], stillIds: [] }])
  t.same(ask([panel], [item('E-01', 300)], [edge('built', 'E-01', 'F-021')]), [], 'an item in front is known as well')
  const recorded = [edge('found', 'F-020', 'F-021'), edge('built', 'F-020', 'F-021')]
  t.same(ask([panel], [item('E-01', 300)], recorded)[0]?.stillIds, [], 'what is recorded as built is not suggested again')
})
