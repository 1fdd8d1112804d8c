import type { OrderGraph } from '../../web/restoration/removal.tsx'
import type { Working } from '../calc/amounts.ts'
import type { RestorationInput } from '../calc/restoration/restorationInput.ts'
import { looseningWorkings } from '../restoration/stepWorkings.ts'
import type { Workings } from '../shared/workings.ts'

interface Orders { readonly title: string, readonly asFound: OrderGraph, readonly asBuilt: OrderGraph }

/** What the times of an order of removal open: found and built for its sums, a number for what is only loosened. */
export function removalWorkings(input: Pick<RestorationInput, 'factoryParts' | 'installedItems'>, { title, asFound, asBuilt }: Orders): Workings {
  return new Map([
    ...looseningWorkings(input),
    ['found', takeOutWorking(`${title}: to take out, as found`, asFound)], ['built', takeOutWorking(`${title}: to take out, as built`, asBuilt)],
  ])
}

function takeOutWorking(title: string, { steps, seconds }: OrderGraph): Working {
  return {
    title,
    inputs: steps.map(({ number, name, depth, seconds: own }) => ({
      label: `${number} ${name}`, source: depth === 'out' ? 'time noted' : 'time noted, only loosened', amount: { kind: 'time', value: own },
    })),
    result: { kind: 'time', value: seconds }, formula: 'sum over all that comes out or loose',
    assumed: 'Loosening takes half the time of taking out.', source: 'times noted on the parts; the half is ours, no source',
  }
}
