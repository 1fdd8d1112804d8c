import type { NumberedCaution, Trigger } from '../removal/cautions.ts'
import type { ChecklistDraft, ChecklistPhase } from './checklist.ts'
import { listFunctionTests } from './functionTests.ts'
import type { Touched } from './functionTests.ts'
import type { RestorationPlan } from './restoration.ts'
import type { RestorationInput } from './restorationInput.ts'
import { listThings } from './things.ts'

/** What asks for the battery or the whole vehicle to be made safe before work. */
const MAKE_SAFE: readonly Trigger[] = ['high voltage', 'airbag', 'hot work', 'power wiring', 'second battery']

/** What comes before the first part is touched. */
export function openingSteps(cautions: readonly NumberedCaution[]): ChecklistDraft[] {
  const numbers = cautions.map(caution => caution.number)
  const span = numbers.length < 3 ? numbers.join(' and ') : `C1 to C${numbers.length}`
  const safe = listSafeguards(cautions)
  return [
    ...(numbers.length > 0 ? [toDraft('cautions', `Read the cautions ${span} with everybody who works on the vehicle.`)] : []),
    toDraft('take out', 'Note odometer, warning lights, fault codes and what does not work before anything is disconnected.'),
    ...(safe.length > 0 ? [toDraft('take out', 'Make the vehicle safe as its cautions say, and keep the waiting time.', safe)] : []),
  ]
}

/** Reconnecting, relearning, trying everything, signing. */
export function closingSteps(
  input: RestorationInput, plan: RestorationPlan, cautions: readonly NumberedCaution[],
): ChecklistDraft[] {
  const triggers = new Set(cautions.map(caution => caution.trigger))
  return [
    ...listReconnecting(cautions),
    ...listFunctionTests(listTouched(input, plan), triggers).map(text => toDraft('function test', text)),
    toDraft('signature', 'Work done by: name, date, signature.'),
    toDraft('signature', 'Function tests by: name, date, signature.'),
    toDraft('signature', 'Received by: name, date, odometer, signature. Parts left over and open points explained.'),
  ]
}

const HIGH_VOLTAGE_BACK = 'High voltage: put back into service and released by the qualified person, by the maker\'s procedure, before the ignition goes on. '
  + 'What covers its service plug comes off again for this if it is on.'

/** What stays out loses its feeds while the cables can still be reached: before anything goes back over them. */
export function listFeeds(input: RestorationInput, plan: RestorationPlan): ChecklistDraft[] {
  const gone = input.installedItems.filter(item => item.kind === 'equipment' && plan.staysOutIds.includes(item.id)).map(item => item.number)
  if (gone.length === 0) return []
  return [toDraft('repair', `Take every feed of what stays out (${gone.join(', ')}) off at its source, take out its cables, and close the harness as the factory had it.`, ['power wiring'])]
}

function listReconnecting(cautions: readonly NumberedCaution[]): ChecklistDraft[] {
  const safe = listSafeguards(cautions)
  const phase = 'reconnect and relearn'
  return [
    ...(safe.includes('high voltage') ? [toDraft(phase, HIGH_VOLTAGE_BACK, ['high voltage'])] : []),
    ...(safe.length > 0 ? [toDraft(phase, 'Reconnect in the maker\'s order, the battery last; nobody sits in front of an airbag when the ignition goes on.', safe)] : []),
    toDraft(phase, 'Relearn by the maker\'s procedure what has lost its memory: windows, steering angle, clock, codes.'),
  ]
}

function listTouched(input: RestorationInput, plan: RestorationPlan): Touched[] {
  const back = new Set(plan.putBack.map(step => step.id))
  return listThings(input).filter(thing => back.has(thing.id)).map(({ id, label, zoneName }) => ({
    label, zoneName, connectors: input.factoryParts.find(part => part.id === id)?.connectors ?? '',
  }))
}

function listSafeguards(cautions: readonly NumberedCaution[]): Trigger[] {
  return cautions.map(caution => caution.trigger).filter(trigger => MAKE_SAFE.includes(trigger))
}

function toDraft(phase: ChecklistPhase, text: string, triggers: readonly Trigger[] = []): ChecklistDraft {
  return { phase, zoneName: '', itemNumber: '', text, fasteners: [], place: '', notes: [], triggers }
}
