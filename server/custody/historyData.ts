import type { MoveShown, PartHistoryData } from '../../web/custody/partHistory.tsx'
import type { Viewer } from '../../web/shared/viewer.ts'
import { movesFrom, whereaboutsOf, type MoveKind } from '../calc/removal/custody.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { BENCH } from '../shared/roles.ts'
import { placeInWords } from './moveStore.ts'
import { loadPartMoves, namesOf, type StoredMove } from './readStore.ts'
import { toInWords, whenInWords } from './words.ts'

const DEEDS: Readonly<Record<MoveKind, string>> = {
  'stored': 'Move to a bin or place', 'handed to the customer': 'Hand to the customer', 'brought back': 'Brought back', 'disposed with consent': 'Disposed of, with consent',
  'missing': 'Missing', 'found again': 'Found again', 'back in the vehicle': 'Put back',
}

/** What can be pressed for a part as it is now. */
export function nextMoves(buildId: string, part: Parameters<typeof whereaboutsOf>[0] & { readonly id: string, readonly number: number }, viewer: Viewer): { href: string, name: string }[] {
  const to = (kind: MoveKind): string => `/builds/${buildId}/moves/new?${new URLSearchParams({ kind, parts: label('F', part.number) }).toString()}`
  const moves = movesFrom(whereaboutsOf(part)).map((kind) => ({ href: to(kind), name: DEEDS[kind] }))
  const isIn = whereaboutsOf(part) === 'in the vehicle'
  const removal = { href: `/removals/new?${new URLSearchParams({ build: buildId, factoryPartId: part.id }).toString()}`, name: isIn ? 'It came out' : 'It went back' }
  return BENCH.includes(viewer.role) ? [...moves, removal] : moves
}

export async function partHistoryData(reads: Reads, partId: string, viewer: Viewer): Promise<PartHistoryData> {
  const { part, moves } = await loadPartMoves(reads, partId)
  const { timeZone } = await shopOf(reads)
  const people = await namesOf(reads, moves.map(({ personId }) => personId))
  const { build } = part
  const number = label('F', part.number)
  return {
    trail: [
      { name: `${label('B', build.number)} ${build.title}`, href: `/builds/${build.id}` }, { name: 'Where the factory parts are', href: `/builds/${build.id}/custody` },
      { name: `${number} ${part.name}` },
    ],
    label: number, name: part.name, where: placeInWords(part), condition: part.condition,
    moves: moves.map((move) => moveShown(move, people, timeZone)),
    next: nextMoves(build.id, part, viewer),
    links: [{ name: 'The part’s own page', href: `/factory-parts/${partId}` }, { name: 'Label', href: `/builds/${build.id}/labels?${new URLSearchParams({ what: 'one part', number }).toString()}` }],
  }
}

function moveShown(move: StoredMove, people: ReadonlyMap<string, string>, timeZone: string): MoveShown {
  const when = whenInWords(timeZone, move.at)
  const counted = move.stockTake ? [`At stock-take ${move.stockTake.number}.`] : []
  return {
    when, kind: move.kind, from: move.fromWords, to: toInWords(move), who: people.get(move.personId) ?? '', note: [...counted, move.note].filter((text) => text !== '').join(' '),
    receiptHref: move.kind === 'handed to the customer' && move.signedName !== '' ? `/custody-moves/${move.id}/receipt` : null,
    signed: move.signedName === '' ? null : { name: move.signedName, when, path: move.signature },
  }
}
