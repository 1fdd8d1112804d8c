import type { CustodyData, CustodyGroup, CustodyRow } from '../../web/custody/custody.tsx'
import { writeDay } from '../../web/shared/day.ts'
import { whereaboutsOf, WHEREABOUTS, type Whereabouts } from '../calc/removal/custody.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import { loadCustody, loadReceipt, namesOf, type StoredCustody, type StoredPart } from './readStore.ts'

/** Where the factory parts of a build are; with what was just moved. */
export async function custodyData(reads: Reads, buildId: string, moved: { readonly id?: string | undefined, readonly count?: number | undefined }): Promise<CustodyData> {
  const build = await loadCustody(reads, buildId)
  const { timeZone } = await shopOf(reads)
  const people = await namesOf(reads, build.factoryParts.flatMap(({ moves }) => moves.map(({ personId }) => personId)))
  const page = `/builds/${buildId}`
  return {
    trail: [{ name: `${label('B', build.number)} ${build.title}`, href: page }, { name: 'Where the factory parts are' }],
    number: label('B', build.number), title: build.title, counts: countsOf(build), groups: groupsOf(build, (part) => rowOf(part, people, timeZone)),
    action: `${page}/moves/new`,
    links: [
      { name: 'All that the shop keeps', href: '/custody' }, { name: 'Labels', href: `${page}/labels` }, { name: 'Order of removal', href: `${page}/removal` },
      { name: 'List of factory parts', href: `/factory-parts?build=${buildId}` }, { name: 'List of bins', href: `/bins?build=${buildId}` },
    ],
    saved: moved.count === undefined ? null : { what: moved.count === 1 ? 'the move of one part' : `the move of ${moved.count} parts`, receiptHref: await receiptOf(reads, moved.id) },
  }
}

async function receiptOf(reads: Reads, moveId: string | undefined): Promise<string | null> {
  return moveId !== undefined && await loadReceipt(reads, moveId).then(() => true, () => false) ? `/custody-moves/${moveId}/receipt` : null
}

function countsOf({ factoryParts }: StoredCustody): CustodyData['counts'] {
  return WHEREABOUTS.map((where) => ({ label: where, text: String(factoryParts.filter((part) => whereaboutsOf(part) === where).length) }))
}

const OUT: readonly Whereabouts[] = ['stored', 'with the customer', 'missing', 'disposed of']
export const isWithoutPlace = (part: Pick<StoredPart, 'state' | 'binId' | 'place'>): boolean => whereaboutsOf(part) === 'stored' && part.binId === null && part.place === ''

function groupsOf({ factoryParts, bins }: StoredCustody, toRow: (part: StoredPart) => CustodyRow): CustodyGroup[] {
  const out = factoryParts.filter((part) => OUT.includes(whereaboutsOf(part)))
  const group = (name: string, parts: readonly StoredPart[], isOpen = false): CustodyGroup[] =>
    parts.length === 0 ? [] : [{ name, isOpen, mayMove: true, rows: parts.map(toRow) }]
  const stored = out.filter((part) => whereaboutsOf(part) === 'stored')
  const places = [...new Set(stored.filter(({ binId, place }) => binId === null && place !== '').map(({ place }) => place))].toSorted()
  return [
    ...group('Out, and no place recorded', stored.filter(isWithoutPlace), true),
    ...bins.flatMap((bin) => group(`bin ${label('A', bin.number)}, ${bin.place}`, stored.filter(({ binId }) => binId === bin.id))),
    ...places.flatMap((name) => group(name, stored.filter(({ binId, place }) => binId === null && place === name))),
    ...group('With the customer', out.filter((part) => whereaboutsOf(part) === 'with the customer')),
    ...group('Missing', out.filter((part) => whereaboutsOf(part) === 'missing')),
    ...group('Disposed of', out.filter((part) => whereaboutsOf(part) === 'disposed of')),
  ]
}

function rowOf(part: StoredPart, people: ReadonlyMap<string, string>, timeZone: string): CustodyRow {
  const [move] = part.moves
  const since = move ? [writeDay(calendarDateIn(timeZone, move.at)), people.get(move.personId) ?? ''] : ['not recorded']
  const whose = move && whereaboutsOf(part) !== 'stored' ? [move.toWhom] : []
  const where = whereaboutsOf(part) === 'with the customer' ? [part.place] : []
  return {
    number: part.number, label: label('F', part.number), name: part.name, zone: part.zone.name, href: `/factory-parts/${part.id}/custody`,
    since: [...since, ...whose, ...where].filter((word) => word !== '').join(', '), condition: part.condition,
  }
}
