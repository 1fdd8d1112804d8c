import type { RemovalEdge } from './removalEdges.ts'

/** For each thing that has named ways in, the way taken. */
export type WayChoice = ReadonlyMap<string, string>

/** Least is best: first by `cost`, then by `count`. */
export interface Score {
  readonly cost: number
  readonly count: number
}

/** Up to this many combinations of ways every one is tried; beyond it the ways are improved one at a time. */
export const MOST_COMBINATIONS = 1024

/** The ways of each thing that has any, in the order they were noted. */
export function listWays(edges: readonly RemovalEdge[]): Map<string, string[]> {
  const ways = new Map<string, string[]>()
  for (const { afterId, way } of edges) {
    if (!way) continue
    const known = ways.get(afterId)
    if (!known) ways.set(afterId, [way])
    else if (!known.includes(way)) known.push(way)
  }
  return ways
}

/** The edges that bind once the ways are chosen; for a thing not in `choice` its first way counts. */
export function takeWays(edges: readonly RemovalEdge[], choice: WayChoice): RemovalEdge[] {
  const ways = listWays(edges)
  return edges.filter(({ afterId, way }) => !way || way === (choice.get(afterId) ?? ways.get(afterId)?.[0]))
}

export interface ChosenWays {
  readonly choice: WayChoice
  readonly isProvenLeast: boolean
}

/** Picks the ways with the least score; a choice that cannot be carried out scores null. */
export function chooseWays(
  ways: ReadonlyMap<string, readonly string[]>,
  scoreOf: (choice: WayChoice) => Score | null,
): ChosenWays {
  const combinations = [...ways.values()].reduce((product, names) => product * names.length, 1)
  if (combinations <= MOST_COMBINATIONS) return { choice: tryAll(ways, scoreOf), isProvenLeast: true }
  return { choice: improveOneByOne(ways, scoreOf), isProvenLeast: false }
}

function tryAll(ways: ReadonlyMap<string, readonly string[]>, scoreOf: (choice: WayChoice) => Score | null): WayChoice {
  let choices: WayChoice[] = [new Map()]
  for (const [id, names] of ways) {
    choices = choices.flatMap(choice => names.map(name => new Map([...choice, [id, name]])))
  }
  return best(choices, scoreOf)
}

function improveOneByOne(
  ways: ReadonlyMap<string, readonly string[]>,
  scoreOf: (choice: WayChoice) => Score | null,
): WayChoice {
  let current: WayChoice = new Map([...ways].map(([id, names]) => [id, names[0] ?? '']))
  for (let isBetter = true; isBetter;) {
    const before = current
    for (const [id, names] of ways) {
      current = best([current, ...names.map(name => new Map([...current, [id, name]]))], scoreOf)
    }
    isBetter = current !== before
  }
  return current
}

function best(choices: readonly WayChoice[], scoreOf: (choice: WayChoice) => Score | null): WayChoice {
  let [winner = new Map<string, string>()] = choices
  let least = scoreOf(winner)
  for (const choice of choices.slice(1)) {
    const score = scoreOf(choice)
    if (score && (!least || score.cost < least.cost || (score.cost === least.cost && score.count < least.count))) {
      winner = choice
      least = score
    }
  }
  return winner
}
