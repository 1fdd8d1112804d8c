import { whereaboutsOf } from '../calc/removal/custody.ts'
import { settleSightings, type Outcome } from '../calc/parts/stockTake.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { spotKey } from './spots.ts'
import { listExpected, listParts, listSightings, type ExpectedPart, type StoredSighting, type Take } from './store.ts'

/** What a stock-take found of one part. */
export interface PartOutcome {
  readonly part: ExpectedPart
  readonly finding: Outcome['finding']
  /** The sighting that counts. */
  readonly sighting: StoredSighting | null
  /** Where it was seen, in words. */
  readonly seenAt: string
  /** Somebody has moved it since it was seen: then the records know better. */
  readonly isMovedSince: boolean
}

/** All outcomes of a stock-take: as long as it is open also of the parts nobody has looked at; once closed, as it was then. */
export async function outcomesOf(client: Reads | Write, take: Take): Promise<PartOutcome[]> {
  const sightings = await listSightings(client, take.id)
  const expected = take.closedOn === null ? await listExpected(client) : []
  const ids = new Set([...expected.map(({ id }) => id), ...sightings.map(({ factoryPartId }) => factoryPartId)])
  const others = await listParts(client, [...ids].filter((id) => !expected.some((part) => part.id === id)))
  const ofPart = new Map<string, StoredSighting[]>()
  for (const sighting of sightings) ofPart.set(sighting.factoryPartId, [...ofPart.get(sighting.factoryPartId) ?? [], sighting])
  return [...expected, ...others].map((part) => toOutcome(part, ofPart.get(part.id) ?? []))
}

function toOutcome(part: ExpectedPart, sightings: readonly StoredSighting[]): PartOutcome {
  // What was written at the closing about parts nobody had looked at is no sighting.
  const seen = sightings.filter(({ finding }) => finding !== 'not looked at')
  const settled = settleSightings(seen.map((sighting, order) => ({
    partId: part.id, order, spot: spotKey({ ...sighting, buildId: part.buildId }), finding: sighting.finding as 'here' | 'elsewhere' | 'not found',
  })))
  const sighting = settled.order === null ? null : seen[settled.order] ?? null
  return { part, finding: settled.finding, sighting, seenAt: sighting ? spotInWords(sighting) : '', isMovedSince: sighting !== null && part.moves.some(({ at }) => at > sighting.createdAt) }
}

export const spotInWords = ({ bin, place }: Pick<StoredSighting, 'bin' | 'place'>): string => (bin ? `bin ${label('A', bin.number)}, ${bin.place}` : place)

/** Seen where the records do not have it, and not moved since: where it is to be moved to. */
export const isToMove = ({ part, finding, isMovedSince }: PartOutcome): boolean => finding === 'elsewhere' && !isMovedSince && whereaboutsOf(part) !== 'in the vehicle'

/** Looked for in its place and seen nowhere: missing, if somebody says so. */
export const isToMiss = ({ part, finding, isMovedSince }: PartOutcome): boolean => finding === 'not found' && !isMovedSince && whereaboutsOf(part) === 'stored'
