import type { SingleUseLine } from '../calc/parts/billOfMaterials.ts'
import { groupBy } from '../calc/grouping.ts'
import { buyKey } from '../../web/restoration/buyKey.ts'

type Item = SingleUseLine['item']

/** Equal ones are bought together, whichever factory part they hold. */
export function groupSingleUse(lines: readonly SingleUseLine[]): SingleUseLine[][] {
  return [...groupBy(lines, ({ item }) => JSON.stringify([item.name, item.costMinor, item.priceMinor])).values()]
}

/** Sets apart what is bought together. */
export function singleUseKey({ name, costMinor, priceMinor }: Item): string {
  return buyKey({ reason: 'single-use', name, priceMinor, leadDays: costMinor })
}
