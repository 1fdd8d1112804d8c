import { cautionsFor, type NumberedCaution, type Trigger } from '../calc/removal/cautions.ts'
import { label } from '../shared/records/kind.ts'
import type { Checked } from './checked.ts'
import { triggersOf } from './toBuild.ts'

// What can hurt somebody while checking; the dangers of the work before it are past.
const WHILE_CHECKING: readonly Trigger[] = ['high voltage', 'airbag', 'power wiring', 'second battery', 'seat or belt', 'driver assistance', 'moving mechanism', 'added mass', 'spare wheel']

/** The cautions of a final check, the gravest first. */
export function cautionsOf({ stored: { build }, points }: Checked): NumberedCaution[] {
  const has = (key: string): boolean => points.some((point) => point.key === key)
  const runs = build.vehicle.energy !== 'electric' && (has('charge-voltage') || has('noise'))
  const found = triggersOf(build)
  const wanted = WHILE_CHECKING.filter((trigger) => found.has(trigger))
  return cautionsFor([...wanted, ...(runs ? ['engine indoors' as const] : []), ...(has('tone-sweep') || has('gain') ? ['level test' as const] : [])], {
    batteryWaitS: build.vehicle.airbagWait, highVoltageWaitS: build.vehicle.highVoltageWait,
  })
}

const AT_POINT: Readonly<Record<string, readonly Trigger[]>> = {
  'charge-voltage': ['engine indoors', 'power wiring'], 'load-voltage': ['engine indoors', 'power wiring'], 'noise': ['engine indoors'], 'warning-lights': ['engine indoors'],
  'rest-voltage': ['power wiring', 'second battery'], 'key-off-current': ['power wiring', 'second battery'], 'voltage-drop': ['engine indoors', 'power wiring', 'second battery'],
  'relearning': ['airbag'], 'restraints': ['airbag'], 'belts': ['seat or belt', 'airbag'], 'driver-assistance': ['driver assistance'], 'mechanism': ['moving mechanism'], 'works': ['moving mechanism', 'level test'],
  'polarity': ['level test'], 'gain': ['level test', 'power wiring', 'engine indoors'], 'tone-sweep': ['level test'], 'second-battery': ['second battery'], 'spare-wheel': ['spare wheel'], 'road-test': ['added mass', 'driver assistance'],
}

/** Those of the cautions that belong to one point; high voltage stands everywhere. */
export function cautionsAt(checked: Checked, key: string): NumberedCaution[] {
  const own = AT_POINT[key.split('.')[0] ?? ''] ?? []
  return cautionsOf(checked).filter(({ trigger }) => trigger === 'high voltage' || own.includes(trigger))
}

/** The final check as data. */
export function toAnswer(checked: Checked) {
  const { stored: { build }, points, unsettled, signedAt } = checked
  return {
    buildId: build.id, signedName: build.finalCheck?.signedName ?? '', signedAt: signedAt?.toISOString() ?? null, unsettled: unsettled.length,
    cautions: cautionsOf(checked).map(({ signalWord, title, text }) => ({ signalWord, title, text })),
    points: points.map(({ answer, open, ...point }) => ({
      ...point, open: [...open],
      answer: answer && { outcome: answer.outcome, value: answer.value, entered: answer.entered, note: answer.note, at: answer.at.toISOString(), personName: answer.personName },
    })),
  }
}

export const nameOf = ({ stored: { build } }: Checked): string => `${label('B', build.number)} ${build.title}`
