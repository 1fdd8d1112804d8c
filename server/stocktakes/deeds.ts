import { moveBetween, whereaboutsOf } from '../calc/removal/custody.ts'
import { movePart } from '../custody/moveStore.ts'
import { audit, type Actor } from '../shared/audit.ts'
import type { Write } from '../shared/database/database.ts'
import { invalid, Problem } from '../shared/problems.ts'
import { label } from '../shared/records/kind.ts'
import { isToMiss, isToMove, outcomesOf } from './outcome.ts'
import { spotKey, type Spot } from './spots.ts'
import { addSightings, closeTake, createTake, findOpenTake, findPart, getTake, nextTakeNumber, type Take } from './store.ts'

const tell = (write: Write, actor: Actor, id: string, action: string): Promise<void> => audit(write, actor, { action, recordKind: 'stock-take', recordId: id })

/** Begins a stock-take of the whole shop; one at a time. Returns its number. */
export async function beginTake(write: Write, actor: Actor, today: string, note: string): Promise<number> {
  const open = await findOpenTake(write)
  if (open) throw new Problem(409, 'One at a time', `Stock-take ${open.number} is still open. Close it first, or go on with it.`)
  const number = await nextTakeNumber(write)
  const { id } = await createTake(write, number, today, note, actor.now)
  await tell(write, actor, id, 'created')
  return number
}

export interface SeenPart {
  /** The number of its build; the spot's own where it is left out. */
  readonly build?: number | undefined
  readonly part: number
  readonly isHere: boolean
}

/** Writes down what somebody saw at a spot: never instead of what another saw, always beside it. */
export async function recordSightings(write: Write, actor: Actor, number: number, spot: Spot, seen: readonly SeenPart[]): Promise<void> {
  const take = await getOpen(write, number)
  const rows = []
  for (const { build = spot.build.number, part: partNumber, isHere } of seen) {
    const part = await findPart(write, build, partNumber)
    if (!part) throw invalid('part', `${label('B', build)} has no ${label('F', partNumber)}. Look at the label again.`)
    const isOwn = part.buildId === spot.build.id
    const place = isOwn ? { binId: spot.binId, place: spot.place } : { binId: null, place: `${label('B', spot.build.number)}, ${spot.name}` }
    const isExpected = whereaboutsOf(part) === 'stored' && isOwn && spotKey(part) === spot.key
    rows.push({ factoryPartId: part.id, ...place, finding: !isHere ? 'not found' : isExpected ? 'here' : 'elsewhere' })
  }
  await addSightings(write, take.id, rows, actor.personId ?? '', actor.now)
}

/** Closes it: what nobody looked at is written down as that, and stays so. */
export async function closeByNumber(write: Write, actor: Actor, number: number, today: string): Promise<void> {
  const take = await getOpen(write, number)
  const unseen = (await outcomesOf(write, take)).filter(({ finding }) => finding === 'not looked at')
  await addSightings(write, take.id, unseen.map(({ part }) => ({ factoryPartId: part.id, binId: part.binId, place: part.place, finding: 'not looked at' })), actor.personId ?? '', actor.now)
  await closeTake(write, take.id, today)
  await tell(write, actor, take.id, 'closed')
}

async function getOpen(write: Write, number: number): Promise<Take> {
  const take = await getTake(write, number)
  if (take.closedOn !== null) throw new Problem(409, 'Closed', `Stock-take ${number} is closed, and its history stays as it is. Begin another.`)
  return take
}

/** Moves every part that was seen elsewhere to where it was seen. Returns how many. */
export async function moveToSeen(write: Write, actor: Actor, number: number): Promise<number> {
  const take = await getTake(write, number)
  const found = (await outcomesOf(write, take)).filter(isToMove)
  for (const { part, sighting } of found) {
    await movePart(write, actor, part.id, { kind: moveBetween(whereaboutsOf(part), 'stored'), binId: sighting?.binId ?? null, place: sighting?.binId ? '' : sighting?.place ?? '', stockTakeId: take.id }, keptState(part.state))
  }
  return found.length
}

// What is altered or damaged does not become whole by lying elsewhere.
const keptState = (state: string): { state?: string } => (state === 'altered' || state === 'damaged' ? { state } : {})

/** Marks as missing those of the parts not found that somebody confirmed. Returns how many. */
export async function markMissing(write: Write, actor: Actor, number: number, confirmedIds: readonly string[]): Promise<number> {
  const take = await getTake(write, number)
  const lost = (await outcomesOf(write, take)).filter((outcome) => isToMiss(outcome) && confirmedIds.includes(outcome.part.id))
  if (lost.length === 0) throw invalid('parts', 'Tick the parts that are missing. Nothing is marked without that.')
  for (const { part } of lost) await movePart(write, actor, part.id, { kind: 'missing', stockTakeId: take.id })
  return lost.length
}
