import { randomUUID } from 'node:crypto'
import type { ResultData, ResultRow, TakeData } from '../../web/stocktakes/take.tsx'
import type { TakesData } from '../../web/stocktakes/takes.tsx'
import type { StateName } from '../../web/shared/marks.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { whereaboutsOf } from '../calc/removal/custody.ts'
import { placeInWords } from '../custody/moveStore.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { MANAGERS } from '../shared/roles.ts'
import { isToMiss, isToMove, outcomesOf, type PartOutcome } from './outcome.ts'
import { spotHref, spotOf } from './spots.ts'
import { getTake, listExpected, listTakes, type Take } from './store.ts'

const datesOf = ({ startedOn, closedOn }: Pick<Take, 'startedOn' | 'closedOn'>): string =>
  (closedOn === null ? `begun ${writeDay(startedOn)}, open` : startedOn === closedOn ? writeDay(startedOn) : `${writeDay(startedOn)} to ${writeDay(closedOn)}`)

export async function takesData(reads: Reads, viewer: Viewer): Promise<TakesData> {
  const [takes, expected] = await Promise.all([listTakes(reads), listExpected(reads)])
  return {
    takes: takes.map((take) => ({
      number: take.number, name: `Stock-take ${take.number}`, dates: datesOf(take), note: take.note,
      href: take.closedOn === null ? `/stock-takes/${take.number}` : `/stock-takes/${take.number}/result`,
      moves: take.moves.map(({ kind, count }) => `${count} ${kind}`).join(', ') || 'nothing',
    })),
    begin: MANAGERS.includes(viewer.role) && takes.every(({ closedOn }) => closedOn !== null) ? { key: randomUUID() } : null,
    expected: expected.length,
  }
}

const trailOf = ({ number }: Take): TakeData['trail'] => [{ name: 'Stock-takes', href: '/stock-takes' }, { name: `Stock-take ${number}`, href: `/stock-takes/${number}` }]

export async function takeData(reads: Reads, number: number, notFound: string): Promise<TakeData> {
  const take = await getTake(reads, number)
  const outcomes = await outcomesOf(reads, take)
  const stored = outcomes.filter(({ part }) => whereaboutsOf(part) === 'stored')
  const count = (finding: PartOutcome['finding']): string => String(outcomes.filter((one) => one.finding === finding).length)
  const builds = [...new Map(stored.map(({ part }) => [part.build.id, part.build])).values()]
  return {
    trail: trailOf(take), number, href: `/stock-takes/${number}`, begun: datesOf(take), note: take.note, notFound, resultHref: `/stock-takes/${number}/result`,
    counts: [{ label: 'Here', text: count('here') }, { label: 'Elsewhere', text: count('elsewhere') }, { label: 'Not found', text: count('not found') }, { label: 'Not looked at', text: count('not looked at') }],
    groups: builds.map((build) => ({ name: `${label('B', build.number)} ${build.title}`, spots: spotsOf(number, stored.filter(({ part }) => part.build.id === build.id)) })),
  }
}

function spotsOf(take: number, outcomes: readonly PartOutcome[]): TakeData['groups'][number]['spots'] {
  const spots = [...new Map(outcomes.map(({ part }) => [spotOf(part).key, spotOf(part)])).values()].toSorted((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true }))
  return spots.map((spot) => {
    const own = outcomes.filter(({ part }) => spotOf(part).key === spot.key)
    const seen = own.filter(({ finding }) => finding !== 'not looked at').length
    const state: StateName = seen === 0 ? 'not started' : seen === own.length ? 'done' : 'running'
    return { name: spot.name, href: spotHref(take, spot), state, words: state === 'not started' ? `not begun, ${own.length} to look for` : state === 'done' ? `done, ${own.length}` : `${seen} of ${own.length}` }
  })
}

export async function resultData(reads: Reads, number: number, viewer: Viewer, saved: string | null): Promise<ResultData> {
  const take = await getTake(reads, number)
  const outcomes = await outcomesOf(reads, take)
  const of = (finding: PartOutcome['finding']): PartOutcome[] => outcomes.filter((one) => one.finding === finding)
  const isManager = MANAGERS.includes(viewer.role)
  const [toMove, toMiss] = [outcomes.filter(isToMove), outcomes.filter(isToMiss)]
  const page = `/stock-takes/${number}`
  return {
    trail: [...trailOf(take), { name: 'What came of it' }], number, when: datesOf(take), isOpen: take.closedOn === null, saved,
    here: of('here').length, elsewhere: of('elsewhere').map((one) => toRow(one, take)), notFound: of('not found').map((one) => toRow(one, take)), notLookedAt: of('not looked at').map((one) => toRow(one, take)),
    move: isManager && toMove.length > 0 ? { action: `${page}/moves`, key: randomUUID(), count: toMove.length } : null,
    miss: isManager && toMiss.length > 0 ? { action: `${page}/moves`, key: randomUUID(), ids: toMiss.map(({ part }) => part.id) } : null,
    close: isManager && take.closedOn === null ? { action: `${page}/closings`, key: randomUUID() } : null,
    backHref: take.closedOn === null ? page : '/stock-takes',
  }
}

function toRow({ part, finding, seenAt, isMovedSince, sighting }: PartOutcome, take: Take): ResultRow {
  const [move] = part.moves
  const isByThis = move?.stockTakeId === take.id
  const stillIn = finding === 'elsewhere' && whereaboutsOf(part) === 'in the vehicle' ? 'by the records it is in the vehicle: record that it came out' : ''
  return {
    id: part.id, label: label('F', part.number), build: `${label('B', part.build.number)} ${part.build.title}`, name: part.name, href: `/factory-parts/${part.id}/custody`,
    seen: finding === 'not found' ? 'not there' : finding === 'not looked at' ? '' : seenAt || 'without a place', recorded: placeInWords(part),
    more: isByThis ? 'recorded with this stock-take' : isMovedSince && sighting ? 'moved since it was looked for' : stillIn,
  }
}
