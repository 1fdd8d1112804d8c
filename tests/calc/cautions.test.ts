import t from 'tap'
import { SIGNAL_WORDS, TRIGGERS, cautionsFor, triggersOfAlteration, triggersOfOperation, triggersOfVehicle, triggersOfZone } from '../../server/calc/removal/cautions.ts'
import type { Trigger } from '../../server/calc/removal/cautions.ts'

const UNKNOWN_WAIT = { batteryWaitS: null }

// The occasions the shop works by, one by one: common practice, no source.
const OCCASIONS: readonly (readonly [Trigger, RegExp])[] = [
  ['airbag', /battery.*squib.*face up/],
  ['high voltage', /qualified.*isolated.*orange/],
  ['drilling', /far side first.*fuel and brake lines/],
  ['seat or belt', /maker's manual only.*[Nn]ever/],
  ['driver assistance', /calibrated by the maker's procedure/],
  ['chemicals', /respirator.*burn by themselves/],
  ['dust', /Extraction.*Aluminum dust/],
  ['hot work', /before welding.*fire watch/],
  ['power wiring', /Disconnect the supply.*Fuse at the source/],
  ['second battery', /crash loads/],
  ['lift', /Never get under a vehicle that only a jack holds/],
  ['engine indoors', /extraction/],
  ['heavy item', /Two people or a hoist/],
  ['moving mechanism', /Pinch points.*only at rest/],
  ['spare wheel', /tell the owner/],
  ['driver view', /local law/],
  ['level test', /Hearing protection.*local noise law/],
  ['added mass', /placard.*axle ratings/],
]

t.test('every occasion of the shop has its caution, and no other exists', async t => {
  for (const [trigger, says] of OCCASIONS) {
    const [caution, ...rest] = cautionsFor([trigger], UNKNOWN_WAIT)
    t.match(caution?.text, says, trigger)
    t.ok(caution?.title)
    t.equal(rest.length, 0)
  }
  t.same(OCCASIONS.map(([trigger]) => trigger).toSorted(), TRIGGERS.toSorted())
})

t.test('cautions stand once each, the gravest first, numbered as printed', async t => {
  const cautions = cautionsFor(['level test', 'airbag', 'high voltage', 'airbag', 'dust'], UNKNOWN_WAIT)
  t.same(cautions.map(({ number, signalWord, trigger }) => [number, signalWord, trigger]), [
    ['C1', 'danger', 'high voltage'], ['C2', 'warning', 'airbag'], ['C3', 'warning', 'dust'], ['C4', 'caution', 'level test'],
  ])
  const all = cautionsFor(TRIGGERS, UNKNOWN_WAIT).map(({ signalWord }) => SIGNAL_WORDS.indexOf(signalWord))
  t.same(all, all.toSorted())
})

t.test('the waiting time is the vehicle\'s own, or a request to look it up', async t => {
  const textFor = (batteryWaitS: number | null) => cautionsFor(['airbag'], { batteryWaitS })[0]?.text
  // Emergency-response guides print 90 s for one vehicle and 2 min for another: never one constant.
  t.match(textFor(90), /keep 90 s \(recorded for this vehicle\)/)
  t.match(textFor(120), /keep 2 min \(recorded for this vehicle\)/)
  for (const missing of [null, 0]) {
    t.match(textFor(missing), /keep the maker's waiting time \(not recorded for this vehicle: look it up before you begin\)/)
  }
})

t.test('no caution leaves a blank to fill or names an amount of its own', async t => {
  for (const { text, title } of cautionsFor(TRIGGERS, UNKNOWN_WAIT)) {
    t.notMatch(text, /[{}]/)
    t.notMatch(text.replace('12 V', ''), /\d/, title)
  }
})

t.test('places, operations, vehicles and alterations bring their cautions', async t => {
  const cases: readonly (readonly [string[], string[]])[] = [
    [triggersOfZone('left A pillar'), ['airbag', 'driver view']],
    [triggersOfZone('rear seats'), ['airbag', 'seat or belt']],
    [triggersOfZone('center console'), ['airbag']],
    [triggersOfZone('headliner'), ['airbag']],
    [triggersOfZone('roof'), ['airbag']],
    [triggersOfZone('steering wheel'), ['airbag']],
    [triggersOfZone('front bumper'), ['driver assistance']],
    [triggersOfZone('rear bumper'), ['driver assistance']],
    [triggersOfZone('windshield'), ['driver assistance', 'driver view']],
    [triggersOfZone('spare wheel well'), ['spare wheel']],
    [triggersOfZone('load floor'), []],
    [triggersOfZone('rear shelf speaker grille'), []],
    [triggersOfOperation('laminate'), ['chemicals']],
    [triggersOfOperation('cure'), ['chemicals']],
    [triggersOfOperation('sand'), ['dust']],
    [triggersOfOperation('machine'), ['dust']],
    [triggersOfOperation('cut'), ['dust']],
    [triggersOfOperation('weld'), ['hot work']],
    [triggersOfOperation('paint'), ['chemicals']],
    [triggersOfOperation('wire'), ['power wiring']],
    [triggersOfOperation('tune'), ['level test']],
    [triggersOfOperation('design'), []],
    [triggersOfVehicle('plug-in hybrid'), ['high voltage']],
    [triggersOfVehicle('Electric'), ['high voltage']],
    [triggersOfVehicle('gasoline'), []],
    [triggersOfAlteration('drilled'), ['drilling']],
    [triggersOfAlteration('cut'), ['drilling', 'dust']],
    [triggersOfAlteration('spliced'), ['power wiring']],
    [triggersOfAlteration('glued'), ['chemicals']],
  ]
  cases.forEach(([actual, expected], index) => t.same(actual.toSorted(), expected, `case ${index + 1}`))
})
