import type { Working } from '../calc/amounts.ts'
import { toPartNumber } from '../calc/removal/factoryParts.ts'
import { LOOSENING_SHARE_THOUSANDTHS, secondsAt } from '../calc/removal/loosening.ts'
import type { RestorationInput } from '../calc/restoration/restorationInput.ts'

/** For every thing by its number: what it takes where it is only loosened. */
export function looseningWorkings({ factoryParts, installedItems }: Pick<RestorationInput, 'factoryParts' | 'installedItems'>): [number: string, working: Working][] {
  const things = [...factoryParts.map((part) => ({ ...part, number: toPartNumber(part) })), ...installedItems]
  return things.map(({ number, name, takeOutS }) => [number, {
    title: `${number} ${name}: to loosen`,
    inputs: [
      { label: 'To take out', source: 'noted on the part', amount: { kind: 'time', value: takeOutS } },
      { label: 'Loosening takes of that', source: 'ours, for every part', amount: { kind: 'share', value: LOOSENING_SHARE_THOUSANDTHS } },
    ],
    result: { kind: 'time', value: secondsAt(takeOutS, 'loosened') },
    formula: 'time to take out × share', assumed: 'Loosening takes half the time of taking out.', source: 'ours, no source',
  }])
}
