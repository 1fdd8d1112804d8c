import fc from 'fast-check'
import type { Edge } from '../../server/calc/graph.ts'

export interface Dag {
  readonly ids: readonly string[]
  readonly edges: readonly Edge[]
}

/** Graphs without rings: edges lead from earlier to later ids, said once each, the ids listed in any order. */
export function dags(most: number, mostEdges: number): fc.Arbitrary<Dag> {
  return fc.integer({ min: 1, max: most }).chain((count) => {
    const all = Array.from({ length: count }, (_, index) => `n${index}`)
    const pairs = all.flatMap((before, index) => all.slice(index + 1).map((after): Edge => ({ before, after })))
    return fc.record({
      ids: fc.shuffledSubarray(all, { minLength: count }),
      edges: pairs.length === 0 ? fc.constant([]) : fc.shuffledSubarray(pairs, { maxLength: Math.min(mostEdges, pairs.length) }),
    })
  })
}

/** The fewest layers with at most `across` in each, by trying all sets of what is free. */
export function fewestLayers({ ids, edges }: Dag, across: number): number {
  const known = new Map<number, number>()
  const bit = (id: string): number => 1 << ids.indexOf(id)
  const from = (done: number): number => {
    if (done === (1 << ids.length) - 1) return 0
    const kept = known.get(done)
    if (kept !== undefined) return kept
    const free = ids.filter((id) => !(done & bit(id)) && edges.every(({ before, after }) => after !== id || done & bit(before)))
    let least = Infinity
    for (let mask = 1; mask < 1 << free.length; mask += 1) {
      const chosen = free.filter((_, index) => mask & 1 << index)
      if (chosen.length <= across) least = Math.min(least, 1 + from(chosen.reduce((sum, id) => sum | bit(id), done)))
    }
    known.set(done, least)
    return least
  }
  return from(0)
}

export function permutations<T>(items: readonly T[]): T[][] {
  if (items.length < 2) return [[...items]]
  return items.flatMap((item, index) => permutations(items.filter((_, at) => at !== index)).map((rest) => [item, ...rest]))
}
