import { traitsOf, type CheckBuild, type CheckLine, type CheckTraits } from './checkBuild.ts'
import { LIMIT_SOURCE, type CheckLimits, type Limit } from './checkLimits.ts'
import type { Trigger } from '../removal/triggers.ts'

export const CHECK_GROUPS = ['What the records say', 'Vehicle', 'Battery and power', 'Sound', 'Everything fitted', 'At the end'] as const

/** What is measured at a point, if anything: in mV, mA or µm. A gain is a voltage beside its target. */
export type Measure = 'voltage' | 'current' | 'length' | 'gain'

export interface CheckPoint {
  /** As key-off-current, or polarity.8 for line E-08. */
  readonly key: string
  readonly group: typeof CHECK_GROUPS[number]
  readonly title: string
  readonly how: string
  /** Why this build has it. */
  readonly why: string
  readonly lineId: string | null
  readonly measures: Measure | null
  readonly limit: Limit | null
  /** Settled by what is recorded, not by somebody's word. */
  readonly isOfRecords: boolean
}

interface Asked {
  readonly build: CheckBuild
  readonly traits: CheckTraits
  readonly limits: CheckLimits
}

type Draft = Pick<CheckPoint, 'key' | 'title' | 'how' | 'why'> & Partial<Pick<CheckPoint, 'lineId' | 'measures' | 'limit' | 'isOfRecords'>>
type Rule = (asked: Asked) => readonly (Draft | false)[]

/**
 * The points of a build's final check with why each is asked: few for a counter job, more for an everyday
 * build, all for a show build. Source: common practice, none published; the vehicle maker's procedures go first.
 */
export function listCheckPoints(build: CheckBuild, limits: CheckLimits): CheckPoint[] {
  const asked = { build, traits: traitsOf(build), limits }
  return RULES.flatMap(([group, rule]) => rule(asked).flatMap((draft) => (draft === false ? [] : [
    { lineId: null, measures: null, limit: null, isOfRecords: false, ...draft, group },
  ])))
}

const records: Rule = ({ build: { lines, has } }) => [
  lines.length > 0 && recorded('equipment', 'All equipment is fitted', 'there is equipment'),
  has.operations && recorded('operations', 'All operations are done', 'there are operations'),
  has.finishes && recorded('finishes', 'All finishes were approved', 'finishes are recorded'),
  has.alterations && recorded('alterations', 'Every alteration has the customer’s consent', 'alterations are recorded'),
  has.factoryParts && recorded('factory-parts', 'Every factory part that is out has its place', 'factory parts came out'),
  recorded('open-points', 'No open point stops work', 'asked of every build'),
]

const recorded = (key: string, title: string, why: string): Draft => ({ key, title, why, how: 'Read from the records; settle what is open there, or a manager lets it pass and says why.', isOfRecords: true })

const vehicle: Rule = ({ build: { triggers }, traits: { hasHighVoltage, isCounterJob } }) => [
  { key: 'warning-lights', title: 'Warning lights as at intake, or better', why: 'asked of every build', how: 'Ignition on, then running or ready: every light goes out that went out before.' },
  { key: 'fault-codes', title: 'Fault codes read and compared with intake', why: 'asked of every build', how: 'Read all control units and write each code down as read at the final check. A code that was not there at intake is found and mended, or a manager lets it pass.' },
  hasHighVoltage && (!isCounterJob || triggers.has('power wiring')) && {
    key: 'high-voltage', title: 'High voltage untouched, ready light on, no warning', why: 'a hybrid or electric vehicle',
    how: 'Looked over by a person qualified for high voltage: orange cables, their covers and the service plug are as the maker had them and within reach. This tool proves nothing about it.',
  },
  triggers.has('airbag') && { key: 'restraints', title: 'Airbag light goes out after its self-check', why: 'work near airbags', how: 'Self-check seen to its end, no code of the restraint system stored. If not: stop, and go on by the maker’s procedure.' },
  triggers.has('seat or belt') && { key: 'belts', title: 'Seats and belts', why: 'work on seats or belts', how: 'Belts latch, lock and roll up; seats travel and lock; anchorages checked by a second person against the maker’s manual. No torque is ever computed.' },
  triggers.has('driver assistance') && { key: 'driver-assistance', title: 'Driver assistance checked or calibrated', why: 'work near cameras, radar or ultrasonic sensors', how: 'By the vehicle maker’s procedure; note the result or who did it.' },
]

const battery: Rule = ({ build: { triggers }, traits: { isPowered, isCounterJob, isElectric, powerLines }, limits }) => {
  const isFull = isPowered && !isCounterJob
  const why = 'something here takes current'
  return [
    isFull && { key: 'rest-voltage', title: 'Battery voltage at rest', why, how: 'Vehicle asleep, charger off, surface charge gone.', measures: 'voltage', limit: between(limits.restVoltageLeast, null, LIMIT_SOURCE.restVoltageLeast) },
    isFull && {
      key: 'charge-voltage', title: isElectric ? 'Battery voltage with the vehicle ready' : 'Battery voltage idling', why,
      how: isElectric ? 'The converter charges the 12 V battery. Parked, brake on.' : 'Indoors only with the exhaust extraction connected and working.',
      measures: 'voltage', limit: between(limits.chargeVoltageLeast, limits.chargeVoltageMost, LIMIT_SOURCE.chargeVoltageLeast),
    },
    isFull && {
      key: 'load-voltage', title: 'Battery voltage under load', why,
      how: isElectric ? 'Vehicle ready, everything fitted on; a converter at its limit shows here.' : 'Idling with extraction, everything fitted on.',
      measures: 'voltage', limit: between(limits.loadVoltageLeast, null, LIMIT_SOURCE.loadVoltageLeast),
    },
    isPowered && {
      key: 'key-off-current', title: 'Key-off current after sleep', why,
      how: `Meter in line without waking the vehicle; wait until it sleeps, as the maker says.${isElectric ? ' An electric vehicle may wake to charge its 12 V battery: watch for that.' : ''}`,
      measures: 'current', limit: between(null, limits.keyOffMost, LIMIT_SOURCE.keyOffMost),
    },
    (isFull || triggers.has('airbag')) && { key: 'relearning', title: 'Relearned after the battery was off', why: 'the battery is taken off for such work', how: 'By the maker’s procedure: windows, steering angle, clock, radio code, driver’s settings.' },
    ...(isCounterJob ? [] : powerLines.map((line) => ofLine(line, {
      key: 'voltage-drop', title: 'Voltage drop', why: 'a feed of 20 A or more', how: 'Plus and ground together, at the load, under load. Does not apply where nobody can measure it: say why.',
      measures: 'voltage', limit: between(null, limits.voltageDropMost, LIMIT_SOURCE.voltageDropMost),
    }))),
  ]
}

const sound: Rule = ({ traits }) => {
  const { isCounterJob, isShow, isElectric, speakers, amplifiers, isSettable, hasProcessor, hasSound } = traits
  const full = (points: readonly Draft[]): readonly Draft[] => (isCounterJob ? [] : points)
  return [
    ...speakers.map((line) => ofLine(line, { key: 'polarity', title: 'Polarity and channel', why: 'a speaker line', how: line.quantity > 1 ? 'Each of them, one after the other: the right one plays, and it moves the right way.' : 'The right one plays, and it moves the right way.' })),
    ...full(amplifiers.map((line) => ofLine(line, {
      key: 'gain', title: 'Gain by target voltage', why: 'an amplifier', measures: 'gain',
      how: 'Speakers disconnected, steady tone, true-rms meter at the output: turn up to the target √(P·R) and no further. A bench setting.',
    }))),
    ...full(isSettable ? [{ key: 'presets', title: 'Crossover and presets noted', why: 'something here can be set', how: 'Set with the maker’s own tool, not with this one. Note what was set, or the name of the file and where it is kept.' }] : []),
    ...full(isShow || hasProcessor ? speakers.map((line) => ofLine(line, {
      key: 'distance', title: 'Distance from the listening seat', why: isShow ? 'a show build' : 'a processor can delay channels', measures: 'length',
      how: 'From the middle of the speaker to where the head is. The arrivals it implies stand below, to see whether what is set can be right.',
    })) : []),
    ...full(hasSound ? [{
      key: 'noise', title: isElectric ? 'No converter or motor noise' : 'No alternator noise', why: 'something here makes sound',
      how: isElectric ? 'Vehicle ready, lights and blower on, no music; then drive: no whine that follows speed or load.' : 'Idling and at higher revs with extraction, lights and blower on, no music: no whine that follows the revs.',
    }] : []),
    ...full(speakers.length > 0 ? [{ key: 'tone-sweep', title: 'Tone sweep for rattles', why: 'a speaker line', how: 'Hearing protection; doors closed. Slowly from the lowest tone up; a hand on every trim that was off.' }] : []),
  ]
}

const fitted: Rule = ({ build: { lines, triggers } }) => {
  const when = (trigger: Trigger, key: string, title: string, how: string): Draft | false => triggers.has(trigger) && { key, title, how, why: `cautioned against: ${trigger}` }
  return [
    lines.length > 0 && { key: 'works', title: 'Everything fitted works', why: 'there is equipment', how: 'Each function once, also those of the factory beside it: chimes, hands-free, camera, lamps.' },
    when('moving mechanism', 'mechanism', 'Moving parts', 'Run freely, stop at their limits and stay locked while driving.'),
    when('second battery', 'second-battery', 'Second battery', 'Held down against crash loads, terminals covered, fused at its pole.'),
    when('spare wheel', 'spare-wheel', 'Spare wheel or its substitute, jack and tools', 'There and held down, or the owner knows.'),
    when('driver view', 'driver-view', 'The driver’s view and reach', 'Nothing blocks the view, a switch, a vent or the path of an airbag.'),
  ]
}

const end: Rule = ({ build: { hasHolesInBody }, traits: { wasSealOpened, isCounterJob } }) => [
  (hasHolesInBody || (wasSealOpened && !isCounterJob)) && { key: 'water-test', title: 'Water test', why: hasHolesInBody ? 'the body was cut or drilled' : 'something sealed was opened', how: 'Running water over every seal, membrane and hole for some minutes; then look and feel inside.' },
  !isCounterJob && { key: 'road-test', title: 'Road test', why: 'asked of every build', how: 'Nothing rattles, whistles or pulls; brakes and steering as before; wheel nuts again after a short distance where wheels were off.' },
]

const RULES: readonly (readonly [CheckPoint['group'], Rule])[] = CHECK_GROUPS.map((group, index) => [group, [records, vehicle, battery, sound, fitted, end][index] ?? records])

const between = (least: number | null, most: number | null, source: string): Limit => ({ least, most, source })

function ofLine({ id, number, label, name, quantity }: CheckLine, draft: Draft): Draft {
  return { ...draft, key: `${draft.key}.${number}`, title: `${draft.title}: ${label} ${quantity > 1 ? `${quantity} × ` : ''}${name}`, lineId: id }
}
