import { randomUUID } from 'node:crypto'
import type { SpotData, SpotPart } from '../../web/stocktakes/spot.tsx'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { whereaboutsOf } from '../calc/removal/custody.ts'
import { placeInWords } from '../custody/moveStore.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { outcomesOf, type PartOutcome } from './outcome.ts'
import { spotHref, spotKey, spotOf, type Spot } from './spots.ts'
import { getTake } from './store.ts'

interface Asked {
  readonly number: number
  readonly spot: Spot
  readonly saved: boolean
  readonly typed?: string
  readonly problems?: readonly FieldProblem[]
}

/** One bin or place as it stands in a stock-take, whoever counted it. */
export async function spotData(reads: Reads, { number, spot, saved, typed = '', problems = [] }: Asked): Promise<SpotData> {
  const take = await getTake(reads, number)
  const outcomes = await outcomesOf(reads, take)
  const stored = outcomes.filter(({ part }) => whereaboutsOf(part) === 'stored')
  const isOwn = ({ part }: PartOutcome): boolean => spotOf(part).key === spot.key
  const strangePlace = `${label('B', spot.build.number)}, ${spot.name}`
  const isAlso = ({ sighting, finding, part }: PartOutcome): boolean =>
    finding === 'elsewhere' && sighting !== null && (spotKey({ ...sighting, buildId: part.buildId }) === spot.key || sighting.place === strangePlace)
  return {
    take: { number, href: `/stock-takes/${number}`, isOpen: take.closedOn === null }, name: spot.name, build: `${label('B', spot.build.number)} ${spot.build.title}`,
    parts: stored.filter(isOwn).map(toPart),
    also: outcomes.filter((one) => isAlso(one) && !isOwn(one)).map(({ part }) => ({ label: `${label('B', part.build.number)} ${label('F', part.number)}`, name: part.name, more: `by the records: ${placeInWords(part)}` })),
    action: `/stock-takes/${number}/sightings`, key: randomUUID(), alsoKey: randomUUID(),
    spot: spot.binId ? [['bin', spot.binId]] : [['build', String(spot.build.number)], ['place', spot.place]],
    typed, problems, saved: saved ? 'what was seen here' : null, next: nextSpot(number, stored, spot),
  }
}

function toPart({ part, finding, seenAt }: PartOutcome): SpotPart {
  return {
    number: part.number, label: label('F', part.number), name: part.name,
    finding: finding === 'here' || finding === 'not found' ? finding : '', more: finding === 'elsewhere' ? `seen in ${seenAt}` : '',
  }
}

/** The first spot after this one that is not looked through. */
function nextSpot(number: number, stored: readonly PartOutcome[], spot: Spot): SpotData['next'] {
  const open = stored.filter(({ finding }) => finding === 'not looked at').map(({ part }) => spotOf(part)).filter(({ key }) => key !== spot.key)
  const own = open.filter(({ build }) => build.id === spot.build.id).toSorted((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true }))
  const next = own.find(({ name }) => name.localeCompare(spot.name, 'en', { numeric: true }) > 0) ?? own[0] ?? open[0]
  return next ? { href: spotHref(number, next), name: `Next: ${next.name}` } : null
}
