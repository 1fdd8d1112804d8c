/** What somebody saw of a part at one spot; rising order, no two alike. */
export interface Sighting {
  readonly partId: string
  /** The bin or place it was looked for or seen at. */
  readonly spot: string
  readonly finding: 'here' | 'elsewhere' | 'not found'
  readonly order: number
}

export interface Outcome {
  readonly finding: 'here' | 'elsewhere' | 'not found' | 'not looked at'
  /** Where it was seen; '' where it was not. */
  readonly spot: string
  /** Of the sighting that counts; null where nobody looked. */
  readonly order: number | null
}

/**
 * What counts of all sightings of one part, in whatever order two people sent them: at each spot the last word holds,
 * and a part that was seen anywhere is not lost because somebody missed it elsewhere.
 *
 * @example settleSightings([{ partId: 'a', spot: '1', finding: 'elsewhere', order: 1 }, { partId: 'a', spot: '2', finding: 'not found', order: 2 }]) // { finding: 'elsewhere', spot: '1', order: 1 }
 */
export function settleSightings(sightings: readonly Sighting[]): Outcome {
  const lastAt = new Map<string, Sighting>()
  for (const sighting of [...sightings].sort((a, b) => a.order - b.order)) lastAt.set(sighting.spot, sighting)
  const standing = [...lastAt.values()].sort((a, b) => b.order - a.order)
  const counts = standing.find(({ finding }) => finding !== 'not found') ?? standing[0]
  if (!counts) return { finding: 'not looked at', spot: '', order: null }
  return { finding: counts.finding, spot: counts.finding === 'not found' ? '' : counts.spot, order: counts.order }
}
