import type { Trigger } from '../removal/triggers.ts'

/** Something that was out or loose and is in the vehicle in the end. */
export interface Touched {
  readonly label: string
  readonly zoneName: string
  readonly connectors: string
}

const BY_TRIGGER: readonly (readonly [Trigger, string])[] = [
  ['airbag', 'The airbag lamp goes out after its self-check and no fault of the restraint system is stored. If not: stop, go on by the maker\'s procedure.'],
  ['seat or belt', 'Belts latch, lock and roll up; seats travel and lock; anchorages checked by a second person against the maker\'s manual.'],
  ['driver assistance', 'Driver assistance: checked or calibrated by the maker\'s procedure, result noted.'],
  ['moving mechanism', 'Moving parts run freely, stop at their limits and stay locked while driving.'],
]

const BY_WORD: readonly (readonly [RegExp, string])[] = [
  [/\bdoors?\b/i, 'Doors: window up and down with its pinch stop, lock, latch, handles inside and out, mirror, door lamp.'],
  [/\b(speakers?|radio|tuner|amplifier|antenna|microphone|tweeters?|subwoofer)\b/i, 'Sound as the factory had it: every speaker plays at its own place; reception, hands-free and warning chimes work.'],
  [/\b(headliner|roof|lamps?|lights?)\b/i, 'Interior and exterior lamps in the zones worked on, sun visors, roof opening.'],
  [/\b(dash(board)?|console|instrument|vents?|heater|climate|steering)\b/i, 'Dash and console: instruments, switches and their lighting, horn, vents and heating at every setting.'],
  [/\b(hatch|tailgate|trunk|lid|hood|bumpers?)\b/i, 'Lids and bumpers: even gaps, latch and lock, wiring through the hinge, lamps, washer.'],
  [/\b(load floor|spare|jack)\b/i, 'Spare wheel or its substitute, jack and tools are there and held down.'],
]

/** What to try at the end, from what was touched and what was cautioned against. */
export function listFunctionTests(touched: readonly Touched[], triggers: ReadonlySet<Trigger>): string[] {
  const words = touched.map(({ label, zoneName, connectors }) => `${label} ${zoneName} ${connectors}`).join('\n')
  return [
    'Ignition on: the warning lights behave as noted before the work; fault codes read and compared.',
    ...BY_TRIGGER.filter(([trigger]) => triggers.has(trigger)).map(([, text]) => text),
    ...BY_WORD.filter(([pattern]) => pattern.test(words)).map(([, text]) => text),
    ...touched.filter(thing => thing.connectors !== '').map(thing => `${thing.label}: everything on its connectors works (${thing.connectors}).`),
    'Battery voltage, and the key-off current after the vehicle has gone to sleep, are in order.',
    'Road test: nothing rattles, whistles or leaks.',
  ]
}
