/** Groups things under a key, keys and things in the order they come. (Node 20 has no Map.groupBy.) */
export function groupBy<T, K>(items: Iterable<T>, keyOf: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>()
  for (const item of items) {
    const key = keyOf(item)
    const group = groups.get(key)
    if (group) group.push(item)
    else groups.set(key, [item])
  }
  return groups
}

export function sumOf<T>(items: Iterable<T>, valueOf: (item: T) => number): number {
  let sum = 0
  for (const item of items) sum += valueOf(item)
  return sum
}
