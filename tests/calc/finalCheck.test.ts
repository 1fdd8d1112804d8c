import t from 'tap'
import { addedMass, remainingLoad } from '../../server/calc/addedMass.ts'
import { arrivalOffset, speedOfSound } from '../../server/calc/parts/arrival.ts'
import type { CheckBuild, CheckLine } from '../../server/calc/checks/checkBuild.ts'
import { limitsOf, USUAL_LIMITS } from '../../server/calc/checks/checkLimits.ts'
import { listCheckPoints } from '../../server/calc/checks/checkPoints.ts'
import { newCodes, refuseAnswer, settlePoints, type CheckAnswer, type Outcome } from '../../server/calc/checks/checkState.ts'
import { gainTarget } from '../../server/calc/gainTarget.ts'
import { Refusal } from '../../server/calc/refusal.ts'

const near = (t: { ok(value: boolean, words: string): unknown }, found: number, wanted: number, share: number, words = ''): void => {
  t.ok(Math.abs(found / wanted - 1) <= share, `${found} against ${wanted} ${words}`)
}

// Ohm's law, run independently: 100 W 4 Ω → 20 V; 500 W 2 Ω → 31.6228; 75 W 4 Ω → 17.3205; 1000 W 1 Ω → 31.6228.
t.test('the target voltage of a gain is the root of power times load', async (t) => {
  for (const [w, ohm, volts] of [[100, 4, 20_000], [500, 2, 31_623], [75, 4, 17_321], [1000, 1, 31_623]] as const) {
    t.equal(gainTarget(w * 1000, ohm * 1000), volts, `${w} W into ${ohm} Ω, in mV`)
  }
  for (const [mw, mohm] of [[0, 4_000], [-1, 4_000], [100_000, 0], [NaN, 4_000], [100_000, 65_000], [30_000_000, 4_000]] as const) t.throws(() => gainTarget(mw, mohm), Refusal)
})

t.test('sound is as fast as published, and the farthest speaker has no offset', async (t) => {
  // A published calculator's history, c = 20.04503702·√K: 68 °F 343.20358, 35 °C 351.87462 m/s. Tolerance 0.01 %.
  near(t, speedOfSound(20), 343.20358, 1e-4)
  near(t, speedOfSound(35), 351.87462, 1e-4)
  near(t, speedOfSound(280 - 273.15), 335.41762, 1e-4)
  // Stanford CCRMA: 1085.1 ft/s at 0 °C, 1124.1 at 20 °C; other gas constants, 0.2 %.
  near(t, speedOfSound(0) / 0.3048, 1085.1, 2e-3)
  near(t, speedOfSound(20) / 0.3048, 1124.1, 2e-3)
  // Run independently: 1.5 m and 0.9 m at 20 °C → 1.74818 ms; 1 ft → 0.88807 ms.
  t.equal(arrivalOffset(900_000, 1_500_000, 20), 1_748)
  t.equal(arrivalOffset(0, 304_800, 20), 888)
  t.equal(arrivalOffset(1_500_000, 1_500_000, 20), 0)
  for (const celsius of [-61, 81, NaN]) t.throws(() => speedOfSound(celsius), /temperature is from −?-?60 to 80/)
})

t.test('what was added is taken off the placard’s load, and what nobody weighed is named', async (t) => {
  // The steps owner's manuals print by 49 CFR 575.6: 1400 lb less five times 150 lb leaves 650 lb; in whole grams of 0.45359237 kg.
  const passengers = addedMass([{ label: 'passenger of 150 lb', quantity: 5, massG: 68_039, source: 'manual' }])
  near(t, remainingLoad(635_029, passengers).result.value / 453.59237, 650, 1e-5)
  const sum = addedMass([{ label: 'E-01 Amplifier', quantity: 2, massG: 3_800, source: 'catalog' }, { label: 'P-110 Drawer', quantity: 1, massG: null, source: 'made part' }])
  t.equal(sum.working.result.value, 7_600)
  t.match(sum.working.assumed, /Without P-110 Drawer: no mass is recorded/)
  t.match(remainingLoad(5_000, sum), { result: { value: -2_600 }, assumed: /true figure is lower/ }, 'overloaded before anybody gets in')
})

const line = (number: number, itemKind: string, more: Partial<CheckLine> = {}): CheckLine =>
  ({ id: `l${number}`, number, label: `E-0${number}`, name: itemKind, quantity: 1, itemKind, currentMa: null, channels: null, ...more })
const amplifier = line(1, 'amplifier', { currentMa: 48_000, channels: 4 })
const speakers = line(2, 'speaker', { quantity: 2 })
const build = (more: Partial<CheckBuild> = {}): CheckBuild => ({
  kind: 'everyday build', energy: 'fuel', lines: [amplifier, speakers], triggers: new Set(), opened: [], hasHolesInBody: false,
  has: { operations: false, finishes: false, alterations: false, factoryParts: false }, ...more,
})
const keysOf = (of: CheckBuild): string[] => listCheckPoints(of, USUAL_LIMITS).map(({ key }) => key)

t.test('a counter job has a short list, an everyday build a longer one, a show build all of it', async (t) => {
  t.same(keysOf(build({ kind: 'counter job', lines: [speakers] })), ['equipment', 'open-points', 'warning-lights', 'fault-codes', 'polarity.2', 'works'])
  const camera = keysOf(build({ kind: 'counter job', lines: [line(3, 'other', { currentMa: 200 })] }))
  t.same(camera, ['equipment', 'open-points', 'warning-lights', 'fault-codes', 'key-off-current', 'works'])
  const everyday = keysOf(build())
  for (const key of ['rest-voltage', 'charge-voltage', 'load-voltage', 'key-off-current', 'relearning', 'voltage-drop.1', 'polarity.2', 'gain.1', 'presets', 'noise', 'tone-sweep', 'road-test']) t.ok(everyday.includes(key), key)
  t.notOk(everyday.includes('distance.2'), 'nothing here can delay a channel')
  t.ok(keysOf(build({ lines: [amplifier, speakers, line(3, 'processor')] })).includes('distance.2'))
  t.ok(keysOf(build({ kind: 'show build' })).includes('distance.2'))
})

t.test('what was opened, cut or cautioned against asks for points of its own', async (t) => {
  t.notOk(keysOf(build()).includes('water-test'))
  t.ok(keysOf(build({ opened: ['front doors'] })).includes('water-test'))
  t.ok(keysOf(build({ kind: 'counter job', hasHolesInBody: true })).includes('water-test'), 'an antenna through the roof, too')
  const cautioned = keysOf(build({ triggers: new Set(['airbag', 'seat or belt', 'driver assistance', 'moving mechanism', 'second battery']) }))
  for (const key of ['restraints', 'belts', 'driver-assistance', 'mechanism', 'second-battery']) t.ok(cautioned.includes(key), key)
  t.ok(keysOf(build({ lines: [] })).includes('road-test'))
})

t.test('an electric vehicle idles nothing: it is made ready, and somebody qualified looks at its high voltage', async (t) => {
  const points = listCheckPoints(build({ energy: 'electric' }), USUAL_LIMITS)
  t.match(points.find(({ key }) => key === 'charge-voltage'), { title: 'Battery voltage with the vehicle ready', how: /converter charges/ })
  t.match(points.find(({ key }) => key === 'key-off-current')?.how, /may wake to charge/)
  t.match(points.find(({ key }) => key === 'high-voltage')?.how, /qualified for high voltage/)
  t.notOk(points.some(({ how }) => /[Ii]dling/.test(how)))
  t.ok(keysOf(build({ energy: 'hybrid' })).includes('high-voltage'))
  t.match(listCheckPoints(build(), USUAL_LIMITS).find(({ key }) => key === 'charge-voltage')?.how, /exhaust extraction/)
})

t.test('limits are assumptions that say where they come from, and the shop’s own go before them', async (t) => {
  t.equal(limitsOf({}).keyOffMost, 50)
  t.equal(limitsOf({ keyOffMost: 30, restVoltageLeast: null }).keyOffMost, 30)
  const [own] = listCheckPoints(build(), limitsOf({ keyOffMost: 30 })).filter(({ key }) => key === 'key-off-current')
  t.same(own?.limit, { least: null, most: 30, source: 'common practice, no source' })
  t.match(listCheckPoints(build(), USUAL_LIMITS).find(({ key }) => key === 'voltage-drop.1')?.limit, { most: 360, source: /ABYC E-11/ })
})

const answer = (point: string, outcome: Outcome, more: Partial<CheckAnswer> = {}): CheckAnswer & { point: string } => ({ point, outcome, value: null, note: '', letPass: [], ...more })

t.test('the newest answer counts; what the records show counts more', async (t) => {
  const points = listCheckPoints(build({ lines: [speakers] }), USUAL_LIMITS)
  const stateOf = (key: string, answers: readonly (CheckAnswer & { point: string })[], open: Readonly<Record<string, string[]>> = {}): boolean | undefined =>
    settlePoints(points, answers, open).find((point) => point.key === key)?.isSettled
  t.equal(stateOf('noise', []), false)
  t.equal(stateOf('noise', [answer('noise', 'not right'), answer('noise', 'right')]), true)
  t.equal(stateOf('noise', [answer('noise', 'right'), answer('noise', 'not right')]), false)
  t.equal(stateOf('equipment', []), true, 'the records show nothing open')
  const open = { equipment: ['E-02 is not fitted'] }
  t.equal(stateOf('equipment', [answer('equipment', 'right')], open), false, 'nobody’s word stands against the records')
  const passed = answer('equipment', 'let pass', { note: 'customer fits it', letPass: ['E-02 is not fitted'] })
  t.equal(stateOf('equipment', [passed], open), true)
  t.equal(stateOf('equipment', [passed], { equipment: ['E-02 is not fitted', 'E-03 is not fitted'] }), false, 'what opened since was not let pass')
})

t.test('codes stand out that were not there at intake and are not cleared', async (t) => {
  const read = (code: string, readAt: string, clearedOn: string | null = null) => ({ code, unit: '', readAt, clearedOn })
  t.same(newCodes([read('P0420', 'intake'), read('P0420', 'final check'), read('U0100', 'final check'), read('C0750', 'final check', '2031-03-03'), read('B1000', 'service visit')]), ['U0100'])
})

t.test('an answer says why where it is not simply right, and a value outside its limit is not right', async (t) => {
  const points = listCheckPoints(build(), USUAL_LIMITS)
  const at = (key: string, outcome: Outcome, value: number | null = null, note = '', mayLetPass = false, open: string[] = []): string | null =>
    refuseAnswer(points.find((point) => point.key === key)!, { outcome, value, note, mayLetPass }, open, 'at most 50 mA')?.message ?? null
  t.equal(at('key-off-current', 'right', 50), null)
  t.match(at('key-off-current', 'right', 51), /not at most 50 mA.*a manager lets it pass/)
  t.match(at('key-off-current', 'right'), /Enter what was measured/)
  t.match(at('key-off-current', 'not right', 80), /Say what is not right/)
  t.equal(at('key-off-current', 'not right', 80, 'wakes every minute'), null)
  t.match(at('key-off-current', 'let pass', 80, 'logger of the customer'), /Only a manager/)
  t.match(at('key-off-current', 'let pass', 80, '', true), /why/)
  t.equal(at('key-off-current', 'let pass', 80, 'logger of the customer', true), null)
  t.match(at('noise', 'does not apply'), /why it does not apply/)
  t.match(at('open-points', 'right'), /settled by the records/)
  t.match(at('fault-codes', 'right', null, '', false, ['U0100 is new']), /records say otherwise: U0100/)
  t.match(at('presets', 'right'), /what was set/)
})
