import fc from 'fast-check'
import t from 'tap'
import { toChecklist } from '../../server/calc/restoration/checklist.ts'
import { listOutOfUse } from '../../server/calc/restoration/outOfUse.ts'
import { toVerdict } from '../../server/calc/restoration/verdict.ts'
import { DOOR, alteration, edge, fastener, getPlan, item, part, restorationOf } from '../support/restorationWorld.ts'

t.test('the verdict names what must be brought, bought and undone, and what cannot be', async t => {
  const input = restorationOf({
    factoryParts: [
      part(1, 'shelf', { state: 'out with the customer' }),
      part(2, 'bracket', { state: 'missing', replaceCostMinor: 4500, leadDays: 12, fasteners: [fastener('nut', 2, { size: 'M6', isSingleUse: true, priceMinor: 80 })] }),
      part(3, 'duct', { state: 'disposed with consent' }),
      part(4, 'panel', { takeOutS: 100, putBackS: 100 }),
    ],
    alterations: [
      alteration('A-1', { factoryPartId: 'F-004', what: 'two holes', reverseS: 5400, leadDays: 15, partsToBuy: [{ name: 'hole plug', count: 2, priceMinor: 150, leadDays: 2 }] }),
      alteration('A-2', { what: 'spliced feed', isReversed: true }),
    ],
  })
  const verdict = toVerdict(input, getPlan(input), 10000)
  t.equal(verdict.kind, 'restorable with these parts and repairs')
  t.same(verdict.reasons, [
    'F-001 shelf is with the customer and has to be brought.',
    'F-002 bracket is missing and has to be bought.',
    'F-003 duct is disposed of with consent and has to be bought (no price known).',
    'Alteration A-1 (two holes) has to be undone.',
  ])
  // By hand: parts 45.00 + 2 × 1.50 + 2 × 0.80 = 49.60, the duct unknown; work 100 + 5400 + 3 × 600 + 100 = 7400 s at 100.00.
  t.same(verdict.cost, { laborMinor: 20556, partsMinor: 4960, outsideMinor: 0, totalMinor: 25516, unpricedCount: 1 })
  t.equal(verdict.leadDays, 15)

  const bought = restorationOf({ ...input, alterations: [alteration('A-4', { what: 'rib taken down', isReversible: false, partsToBuy: [{ name: 'vent carrier', count: 1, priceMinor: 6400, leadDays: 10 }] })] })
  const mended = toVerdict(bought, getPlan(bought), 10000)
  t.equal(mended.kind, 'restorable with these parts and repairs', 'what a bought part replaces keeps no vehicle from going back')
  t.ok(mended.reasons.includes('Alteration A-4 (rib taken down) cannot be undone: vent carrier has to be bought.'))
  t.match(mended.partsToBuy.find(({ name }) => name === 'vent carrier'), { reason: 'repair', count: 1, priceMinor: 6400 })
  const lasting = restorationOf({ ...input, alterations: [...input.alterations, alteration('A-3', { what: 'cut rear wall', isReversible: false })] })
  const worse = toVerdict(lasting, getPlan(lasting), 10000)
  t.equal(worse.kind, 'not fully, because')
  t.same(worse.reasons, ['Alteration A-3 (cut rear wall) cannot be undone.'])
  t.equal(worse.needs.length, 4)
})

t.test('what does not work meanwhile is said: what is unplugged, what is fitted again, and what is gone for good', async t => {
  const input = restorationOf({
    factoryParts: [part(1, 'door panel', { connectors: 'window switch, lamp' }), part(2, 'speaker', { state: 'out and stored', connectors: 'two-way' }), part(3, 'sill trim', { connectors: 'tailgate switch' })],
    installedItems: [item('E-01', 'midbass', { replacesFactoryPartIds: ['F-002'] }), item('E-02', 'light bar'), item('E-03', 'camera')],
    edges: [edge('found', 'F-001', 'F-002'), edge('built', 'E-02', 'F-001'), edge('built', 'F-001', 'E-01'), edge('built', 'E-01', 'F-002')],
  })
  const some = restorationOf({ ...input, choice: { factoryPartIds: ['F-002'], alterationIds: [] } })
  t.same(listOutOfUse(some, getPlan(some)), [
    'Until they are plugged in again: F-001 door panel (window switch, lamp).', 'Until they are fitted again: E-02 light bar.', 'For good: E-01 midbass.',
    'What else hangs on these by wire is not recorded: ask before the vehicle is used.',
  ], 'neither the sill trim nor the camera is in the way')
  t.same(listOutOfUse(input, getPlan(input)), ['The vehicle is not driven before all of it is back and the function tests are done.'])
})

t.test('a part altered beyond repair is bought new, and nobody is sent to repair the old one', async t => {
  const input = restorationOf({
    factoryParts: [part(1, 'pillar trim', { state: 'altered', replaceCostMinor: 9900 })],
    alterations: [alteration('A-1', { factoryPartId: 'F-001', isReversible: false }), alteration('A-2', { factoryPartId: 'F-001', reverseS: 900 })],
  })
  const plan = getPlan(input)
  t.same(plan.putBack.map(({ id, how }) => ({ id, how })), [{ id: 'F-001', how: 'fit new' }])
  t.same(plan.repairs, [{ kind: 'buy', factoryPartId: 'F-001' }])
  t.equal(toVerdict(input, plan, 0).cost.partsMinor, 9900)
})

t.test('the sheet runs from the cautions to the signature, with fasteners, torque, place and cautions on each step', async t => {
  const { steps, cautions } = toChecklist(DOOR, getPlan(DOOR), { energy: 'gasoline', batteryWaitS: 120 })
  t.same([...new Set(steps.map(step => step.phase))], ['cautions', 'take out', 'repair', 'reinstall', 'reconnect and relearn', 'function test', 'signature'])
  t.same(steps.map(step => step.number), steps.map((_, index) => index + 1))
  t.match(cautions[0], { number: 'C1', trigger: 'airbag', text: /2 min \(recorded for this vehicle\)/ })
  t.match(steps.find(step => step.text === 'Refit F-022 door speaker.'), {
    zoneName: 'left front door', itemNumber: 'F-022', place: 'bin A-07', cautionNumbers: ['C1'],
    fasteners: [{ text: '4 × M6 × 20 bolt, hexalobular no. 30', torque: { mNm: 9000, source: 'workshop manual, door' } }],
  })
  const panel = steps.find(step => step.text === 'Refit F-021 door panel.')
  t.same(panel?.fasteners.map(line => line.torque), ['none applies', 'maker\'s manual'])
  t.same(panel?.notes, ['2 spare clip: one in 5 breaks'])
  t.match(steps.map(step => step.text).join('\n'), /window up and down[^]*F-020 window switch: everything on its connectors works/)
})

t.test('what holds a belt, a seat or an airbag shows a torque only with its source', async t => {
  const bolt = fastener('bolt', 2, { size: 'M10 × 25', torqueMnm: 45000, isSafety: true })
  const torqueOf = (one: typeof bolt) => {
    const input = restorationOf({ factoryParts: [part(1, 'belt reel', { state: 'out and stored', fasteners: [one] })] })
    return toChecklist(input, getPlan(input), { energy: 'diesel', batteryWaitS: null }).steps.find(step => step.phase === 'reinstall')?.fasteners[0]?.torque
  }
  t.equal(torqueOf(bolt), 'maker\'s manual')
  t.same(torqueOf({ ...bolt, torqueSource: 'workshop manual 72-10' }), { mNm: 45000, source: 'workshop manual 72-10' })
  t.equal(torqueOf({ ...bolt, torqueMnm: null }), 'maker\'s manual')
})

t.test('a torque on the sheet is one that was noted, whatever the fastener', async t => {
  const kinds = fc.constantFrom('bolt', 'screw', 'nut', 'clip', 'pin')
  fc.assert(fc.property(kinds, fc.integer({ min: 3, max: 14 }), fc.option(fc.integer({ min: 1, max: 200_000 })), fc.boolean(), (kind, size, torqueMnm, isSafety) => {
    const one = fastener(kind, 4, { size: `M${size} × 20`, torqueMnm, torqueSource: torqueMnm === null ? '' : 'manual', isSafety })
    const input = restorationOf({ factoryParts: [part(1, 'rail', { state: 'out and stored', fasteners: [one] })] })
    const { steps } = toChecklist(input, getPlan(input), { energy: '', batteryWaitS: null })
    const shown = steps.flatMap(step => step.fasteners).flatMap(({ torque }) => typeof torque === 'object' ? [torque.mNm] : [])
    t.same(shown, torqueMnm === null ? [] : [torqueMnm])
  }), { seed: 20270112, numRuns: 100 })
})

t.test('what stays out is set aside for the owner, and nobody is told to tighten it', async t => {
  const input = restorationOf({
    factoryParts: [part(22, 'door speaker', { state: 'missing' })],
    installedItems: [item('E-05', 'midbass', { replacesFactoryPartIds: ['F-022'], fasteners: '6 × M5 × 16 bolt' }), item('P-1', 'cover', { fasteners: '4 × M4 × 10 screw' })],
    edges: [edge('built', 'P-1', 'E-05')],
    choice: { factoryPartIds: ['F-022'], alterationIds: [] },
  })
  const { steps } = toChecklist(input, getPlan(input), { energy: 'gasoline', batteryWaitS: null })
  t.match(steps.find(step => step.text === 'Take out E-05 midbass for good.'), { place: 'set aside for the owner', fasteners: [{ torque: 'not used again' }] })
  t.match(steps.find(step => step.text === 'Take out P-1 cover.'), { fasteners: [{ torque: 'when refitting' }], notes: ['in front of E-05'] })
  t.match(steps.find(step => step.text === 'Refit P-1 cover.'), { fasteners: [{ torque: 'maker\'s manual' }] })
  t.match(steps.find(step => step.text === 'Fit the new F-022 door speaker.'), { itemNumber: 'F-022' })
})

t.test('a high-voltage vehicle has that caution first and is released by the qualified person', async t => {
  const { cautions, steps } = toChecklist(DOOR, getPlan(DOOR), { energy: 'electric', batteryWaitS: null })
  t.match(cautions[0], { number: 'C1', signalWord: 'danger', trigger: 'high voltage' })
  t.same(steps.find(step => step.text.startsWith('Make the vehicle safe'))?.cautionNumbers, ['C1', 'C2'])
  t.match(steps.filter(step => step.phase === 'reconnect and relearn').map(step => step.text).join('\n'), /released by the qualified person/)
})

t.test('a recorded wait after high voltage is isolated stands in its caution', t => {
  const input = restorationOf({ factoryParts: [part(21, 'service plug cover', { state: 'out and stored', place: 'bin 1' })] })
  const cautionOf = (highVoltageWaitS: number | null): string =>
    toChecklist(input, getPlan(input), { energy: 'electric', batteryWaitS: null, highVoltageWaitS }).cautions.find(({ trigger }) => trigger === 'high voltage')?.text ?? ''
  t.match(cautionOf(900), /After the isolation wait 15 min \(recorded for this vehicle\)\.$/)
  t.notMatch(cautionOf(null), /After the isolation wait/)
  t.end()
})
