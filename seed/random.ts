import type { Random } from '../server/calc/random.ts'

// The same numbers at every run, so that the demo is always the same shop.
export { randomFrom, type Random } from '../server/calc/random.ts'

export function pick<Item>(random: Random, items: readonly [Item, ...Item[]]): Item {
  return items[Math.floor(random() * items.length)] ?? items[0]
}
