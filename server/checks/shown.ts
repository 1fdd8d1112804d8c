import type { NumberedCaution } from '../calc/cautions.ts'
import { cautionsFor, type Trigger } from '../calc/cautions.ts'
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
