/** Runs each work in turn, so that a slow minute of the machine hits all alike; one round is not counted. */
export async function timesInTurn(rounds: number, works: readonly (() => Promise<void>)[]): Promise<number[][]> {
  const times: number[][] = works.map(() => [])
  for (let round = 0; round <= rounds; round += 1) {
    for (const [index, work] of works.entries()) {
      const startedAt = performance.now()
      await work()
      if (round > 0) times[index]?.push(performance.now() - startedAt)
    }
  }
  return times
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b)
  const middle = sorted.length / 2
  return sorted.length % 2 === 1 ? (sorted[Math.floor(middle)] ?? NaN) : ((sorted[middle - 1] ?? NaN) + (sorted[middle] ?? NaN)) / 2
}
