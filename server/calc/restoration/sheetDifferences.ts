import type { Checklist, ChecklistStep } from './checklist.ts'
import { formatBothTorques } from '../figures.ts'
import type { SheetFastener } from '../removal/fastenerText.ts'

/** What two sheets for the same parts are compared by. */
export interface ComparedSheet {
  readonly checklist: Checklist
  readonly partsToBuy: readonly { readonly name: string, readonly count: number }[]
  readonly factoryOptions: string
  readonly verdict: string
}

/** What differs between a sheet as it was frozen and as it would be drawn now, in sentences; none where nothing does. */
export function listDifferences(frozen: ComparedSheet, now: ComparedSheet): string[] {
  return [
    ...(frozen.verdict === now.verdict ? [] : [`The verdict is now: ${now.verdict}.`]),
    ...listSteps(frozen.checklist.steps, now.checklist.steps),
    ...compared(frozen.checklist.cautions, now.checklist.cautions, ({ title }) => title, ({ text }) => text, 'Caution'),
    ...compared(frozen.partsToBuy, now.partsToBuy, ({ name }) => name, ({ count }) => String(count), 'Part to buy'),
    ...(frozen.factoryOptions === now.factoryOptions ? [] : ['What is recorded of the vehicle’s factory options has changed.']),
  ]
}

function compared<T>(frozen: readonly T[], now: readonly T[], nameOf: (one: T) => string, wordsOf: (one: T) => string, what: string): string[] {
  const before = new Map(frozen.map(one => [nameOf(one), wordsOf(one)]))
  const after = new Map(now.map(one => [nameOf(one), wordsOf(one)]))
  return [
    ...[...after].filter(([name]) => !before.has(name)).map(([name]) => `${what}, new: ${name}.`),
    ...[...before].filter(([name]) => !after.has(name)).map(([name]) => `${what}, no longer: ${name}.`),
    ...[...after].filter(([name, words]) => before.has(name) && before.get(name) !== words).map(([name, words]) => `${what}, changed: ${name}, now ${words}${words.endsWith('.') ? '' : '.'}`),
  ]
}

function listSteps(frozen: readonly ChecklistStep[], now: readonly ChecklistStep[]): string[] {
  const orderBefore = frozen.map(wordsOfStep)
  const orderAfter = now.map(wordsOfStep)
  const isSameSet = orderBefore.toSorted().join('\n') === orderAfter.toSorted().join('\n')
  return [
    ...compared(frozen, now, wordsOfStep, detailOf, 'Step'),
    ...(isSameSet && orderBefore.join('\n') !== orderAfter.join('\n') ? ['The steps now come in another order.'] : []),
  ]
}

const wordsOfStep = ({ text, phase }: ChecklistStep): string => (phase === 'cautions' ? 'Read the cautions' : text.replace(/\.$/, ''))

function detailOf({ fasteners, place, notes }: ChecklistStep): string {
  return [place, ...notes, ...fasteners.map(wordsOfFastener)].filter(words => words !== '').join('; ') || 'without fasteners and place'
}

function wordsOfFastener({ text, torque }: SheetFastener): string {
  return `${text}, ${typeof torque === 'string' ? torque : `${formatBothTorques(torque.mNm).nm} N·m, ${torque.source}`}`
}
