import { CAUTION_TABLE } from './cautionTable.ts'
import { TRIGGERS, type Trigger } from './triggers.ts'

export { TRIGGERS, isTrigger, triggersOfAlteration, triggersOfOperation, triggersOfVehicle, triggersOfZone } from './triggers.ts'
export type { Trigger } from './triggers.ts'

/** Signal words in the sense of ANSI Z535 and ISO 3864, the gravest first. */
export const SIGNAL_WORDS = ['danger', 'warning', 'caution'] as const

export type SignalWord = typeof SIGNAL_WORDS[number]

export interface Caution {
  readonly trigger: Trigger
  readonly signalWord: SignalWord
  readonly title: string
  readonly text: string
}

export interface NumberedCaution extends Caution {
  /** "C1", "C2", … in the order printed. */
  readonly number: string
}

export interface VehicleWaiting {
  /** Seconds from disconnecting the battery until work on airbag parts may begin, as noted from the maker's manual. */
  readonly batteryWaitS: number | null
  /** Seconds from the isolation of the high voltage until work may begin, as noted from the maker's manual. */
  readonly highVoltageWaitS?: number | null
}

/**
 * The cautions for the triggers, each once, the gravest first, numbered from C1.
 *
 * The waiting time after disconnecting the battery differs from vehicle to vehicle (emergency-response
 * guides print 90 s and 2 min for two of them), so it is the one stored or a request to look it up.
 *
 * @example cautionsFor(['airbag', 'airbag'], { batteryWaitS: 90 }).map(c => c.number) // ['C1']
 */
export function cautionsFor(triggers: Iterable<Trigger>, vehicle: VehicleWaiting): NumberedCaution[] {
  const wanted = new Set(triggers)
  return TRIGGERS.filter(trigger => wanted.has(trigger))
    .map(trigger => toCaution(trigger, vehicle))
    .sort((a, b) => SIGNAL_WORDS.indexOf(a.signalWord) - SIGNAL_WORDS.indexOf(b.signalWord))
    .map((caution, index) => ({ ...caution, number: `C${index + 1}` }))
}

function toCaution(trigger: Trigger, vehicle: VehicleWaiting): Caution {
  const { signalWord, title, text } = CAUTION_TABLE[trigger]
  const wait = text.replace('{wait}', toWaitingText(vehicle.batteryWaitS))
  const isTimed = trigger === 'high voltage' && (vehicle.highVoltageWaitS ?? 0) > 0
  return { trigger, signalWord, title, text: isTimed ? `${wait} After the isolation wait ${toWaitingText(vehicle.highVoltageWaitS ?? null)}.` : wait }
}

/** @example toWaitingText(180) // '3 min (recorded for this vehicle)' */
export function toWaitingText(batteryWaitS: number | null): string {
  // Nobody records "no waiting": a zero is an empty field, and reading it as 0 s would hurt.
  if (batteryWaitS === null || batteryWaitS <= 0) {
    return 'the maker\'s waiting time (not recorded for this vehicle: look it up before you begin)'
  }
  const text = batteryWaitS % 60 === 0 ? `${batteryWaitS / 60} min` : `${batteryWaitS} s`
  return `${text} (recorded for this vehicle)`
}
