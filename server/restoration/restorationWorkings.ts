import { buyKey } from '../../web/restoration/buyKey.ts'
import type { RestorationData } from '../../web/restoration/restoration.tsx'
import type { Working } from '../calc/amounts.ts'
import type { BuyLine } from '../calc/restoration/partsToBuy.ts'
import type { Workings } from '../shared/workings.ts'
import { looseningWorkings } from './stepWorkings.ts'
import type { VehicleState } from './store.ts'

const SOURCE = 'common practice, no source'

/** What the figures of a restoration open: the wait, a number for what is only loosened, and each line of the parts to buy. */
export function restorationWorkings({ input }: VehicleState, { result, showsMoney }: Pick<RestorationData, 'result' | 'showsMoney'>): Workings {
  const lines = result?.verdict.partsToBuy ?? []
  return new Map([
    ...looseningWorkings(input),
    ...(result === null ? [] : [['wait', result.verdict.leadWorking] as const]),
    ...lines.map((line) => [`${buyKey(line)}q`, quantityWorking(line)] as const),
    ...(showsMoney ? lines.flatMap((line) => priceWorking(line)) : []),
  ])
}

function quantityWorking({ name, count, from }: BuyLine): Working {
  return {
    title: `${name}: quantity to buy`,
    inputs: from.map(({ label, why, count: own }) => ({ label, source: why, amount: { kind: 'count', value: own } })),
    result: { kind: 'count', value: count }, formula: 'sum over the parts it is for',
    assumed: 'What breaks is an expectation; the share is noted on the fastener, else the shop sets it.', source: SOURCE,
  }
}

function priceWorking(line: BuyLine): (readonly [string, Working])[] {
  const { name, count, priceMinor } = line
  if (priceMinor === null) return []
  return [[`${buyKey(line)}p`, {
    title: `${name}: price`,
    inputs: [
      { label: 'Quantity', source: 'parts to buy', amount: { kind: 'count', value: count } },
      { label: 'Price of one', source: 'noted on the fastener, the part or the alteration', amount: { kind: 'money', value: priceMinor } },
    ],
    result: { kind: 'money', value: priceMinor * count }, formula: 'quantity × price of one', assumed: 'Tax is not in it.', source: SOURCE,
  }]]
}
