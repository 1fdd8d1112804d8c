import type { KeptData, KeptRow } from '../../web/custody/kept.tsx'
import { writeDay } from '../../web/shared/day.ts'
import { whereaboutsOf } from '../calc/removal/custody.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import { isWithoutPlace } from './custodyData.ts'
import { placeInWords } from './moveStore.ts'
import { listKept, type StoredKept } from './readStore.ts'

export const CUTS = ['all', 'stored', 'no place', 'with the customer', 'missing', 'disposed of'] as const
export type Cut = typeof CUTS[number]

const SHOWN_AT_ONCE = 250

interface Asked { readonly find: string, readonly where: Cut, readonly page: number }

const fold = (text: string): string => text.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase()

/** Every word stands in the customer, the build, the vehicle, the part or where it is. */
function isFound(part: StoredKept, words: readonly string[]): boolean {
  const { build } = part
  const { vehicle } = build
  const text = fold([
    vehicle.customer.name, label('B', build.number), build.title, vehicle.make, vehicle.model, String(vehicle.year ?? ''), label('F', part.number), part.name, placeInWords(part),
  ].join(' '))
  return words.every((word) => text.includes(word))
}

const isIn = (part: StoredKept, where: Cut): boolean =>
  where === 'all' || (where === 'no place' ? isWithoutPlace(part) : whereaboutsOf(part) === where)

export async function findKept(reads: Reads, { find, where }: Pick<Asked, 'find' | 'where'>): Promise<StoredKept[]> {
  const words = fold(find).split(/\s+/).filter((word) => word !== '')
  return (await listKept(reads)).filter((part) => isIn(part, where) && isFound(part, words))
}

export async function keptData(reads: Reads, asked: Asked): Promise<KeptData> {
  const { find, where, page } = asked
  const { timeZone } = await shopOf(reads)
  const found = await findKept(reads, asked)
  const shown = found.slice((page - 1) * SHOWN_AT_ONCE, page * SHOWN_AT_ONCE)
  const address = (cut: Cut, next = 1): string => `/custody?${new URLSearchParams({ ...(find === '' ? {} : { find }), where: cut, ...(next === 1 ? {} : { page: String(next) }) }).toString()}`
  const builds = [...new Map(shown.map(({ build }) => [build.id, build])).values()]
  return {
    find, where, total: found.length, shown: shown.length,
    cuts: CUTS.map((cut) => ({ name: cut, href: address(cut), isCurrent: cut === where })),
    groups: builds.map((build) => ({
      name: [`${label('B', build.number)} ${build.title}`, [build.vehicle.make, build.vehicle.model, build.vehicle.year].filter(Boolean).join(' '), build.vehicle.customer.name].join(' · '),
      href: `/builds/${build.id}/custody`, rows: shown.filter((part) => part.build.id === build.id).map((part) => rowOf(part, timeZone)),
    })),
    moreHref: found.length > page * SHOWN_AT_ONCE ? address(where, page + 1) : null,
    links: [{ name: 'Stock-takes', href: '/stock-takes' }],
  }
}

function rowOf(part: StoredKept, timeZone: string): KeptRow {
  const [move] = part.moves
  return {
    label: label('F', part.number), name: part.name, href: `/factory-parts/${part.id}/custody`, where: placeInWords(part), isOpen: isWithoutPlace(part),
    since: move ? writeDay(calendarDateIn(timeZone, move.at)) : '',
  }
}
