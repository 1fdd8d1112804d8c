import t from 'tap'
import { asPlanned, isAsItCame, withTakenPlaces } from '../../server/calc/restoration/asPlanned.ts'
import { planRestoration } from '../../server/calc/restoration/restoration.ts'
import { DOOR, edge, getPlan, ids, item, part, restorationOf } from '../support/restorationWorld.ts'

// The door of the other tests before anybody touched it, with what is meant to be done to it.
const PLANNED = restorationOf({
  factoryParts: DOOR.factoryParts.map(one => ({ ...one, state: 'fitted' as const, place: '' })),
  installedItems: DOOR.installedItems.map(one => ({ ...one, isFitted: false, replacesFactoryPartIds: [] })),
  edges: [...DOOR.edges, edge('built', 'P-420', 'F-022')],
})

t.test('before the work begins the way back is that of the door as it is meant to be left', async t => {
  t.ok(isAsItCame(PLANNED))
  t.same(ids(getPlan(PLANNED).takeOut), [], 'as it stands there is nothing to do')
  const planned = restorationOf(asPlanned(PLANNED))
  t.notOk(isAsItCame(planned))
  const plan = getPlan(planned)
  t.same(ids(plan.takeOut), ['F-020', 'F-021', 'E-05', 'P-420'], 'the panel is in front of what was built, so it is on again, and the switch with it')
  t.same(ids(plan.putBack), ['F-022', 'F-021', 'F-020'])
  t.same(plan.staysOutIds, ['E-05', 'P-420'])
})

t.test('what stands before the empty place of a factory part takes that place, and gives it up when the part returns', async t => {
  const input = withTakenPlaces({ ...PLANNED, factoryParts: DOOR.factoryParts, installedItems: PLANNED.installedItems.map(one => ({ ...one, isFitted: true })) })
  t.same(input.installedItems.map(({ id, replacesFactoryPartIds }) => [id, replacesFactoryPartIds]), [['E-05', []], ['P-420', ['F-022']]])
  const plan = planRestoration({ ...input, choice: { factoryPartIds: ['F-022'], alterationIds: [] } })
  t.same(plan.kind === 'plan' && plan.staysOutIds, ['P-420'])
})

t.test('a part in the vehicle has no empty place, and an altered one keeps its state', async t => {
  const fitted = { ...PLANNED, installedItems: [item('P-420', 'baffle')], edges: [edge('built', 'P-420', 'F-022')] }
  t.same(withTakenPlaces(fitted).installedItems[0]?.replacesFactoryPartIds, [])
  t.same(asPlanned({ ...PLANNED, factoryParts: [part(30, 'shelf', { state: 'altered' }), part(31, 'hat')], edges: [] }).factoryParts.map(({ state }) => state), ['altered', 'out and stored'])
})
