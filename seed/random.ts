/** The same numbers from 0 to 1 at every run, so that the demo is always the same shop. */
export type Random = () => number

/** A 32-bit mixing generator (mulberry32, public domain, from memory). */
export function randomFrom(seed: number): Random {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
}

export function pick<Item>(random: Random, items: readonly [Item, ...Item[]]): Item {
  return items[Math.floor(random() * items.length)] ?? items[0]
}
