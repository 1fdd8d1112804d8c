import t from 'tap'
import { toChecklist } from '../../server/calc/restoration/checklist.ts'
import { edge, getPlan, item, part, restorationOf } from '../support/restorationWorld.ts'

// Common practice, no source: cables come out while they can be reached, and high voltage is released before the ignition goes on.
t.test('feeds come off before anything goes back over them, and high voltage is back before the ignition goes on', async t => {
  const input = restorationOf({
    factoryParts: [part(1, 'trim', { state: 'out and stored', place: 'rack B' }), part(2, 'cover', { state: 'out with the customer', place: 'at the farm office' })],
    installedItems: [item('E-01', 'amplifier', { replacesFactoryPartIds: ['F-001'] }), item('P-101', 'ring', { replacesFactoryPartIds: ['F-001'] })],
    edges: [edge('built', 'E-01', 'F-001'), edge('built', 'P-101', 'F-001')],
  })
  const { steps } = toChecklist(input, getPlan(input), { energy: 'hybrid', batteryWaitS: null })
  const at = (pattern: RegExp): number => steps.findIndex(step => pattern.test(step.text))
  t.match(steps[at(/every feed/)]?.text, /\(E-01\)/, 'only equipment has feeds')
  t.ok(at(/every feed/) >= 0 && at(/every feed/) < at(/Refit F-001/), 'feeds before trim')
  t.ok(at(/High voltage: put back/) > at(/Refit F-001/) && at(/High voltage: put back/) < at(/Ignition on/), 'high voltage before ignition')
  t.equal(steps.filter(step => /High voltage: put back/.test(step.text)).length, 1)
  t.equal(steps[at(/Refit F-002/)]?.place, 'with the customer: at the farm office')
})
