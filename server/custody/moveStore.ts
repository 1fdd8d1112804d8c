import type { Prisma } from '../../prisma/client/client.ts'
import { moveBetween, stateAfterMove, whereaboutsOf, type MoveKind, type Standing } from '../calc/removal/custody.ts'
import { audit, changesBetween, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'

/** What is written down of a move, the same for all parts that move together. */
export interface Move {
  readonly kind: MoveKind
  readonly binId?: string | null
  readonly place?: string
  readonly toWhom?: string
  readonly signedName?: string
  readonly signature?: string
  readonly note?: string
  readonly stockTakeId?: string | null
}

/** What a part is after a move where that does not follow from the move alone. */
export interface Left {
  readonly state?: string
  readonly condition?: string
  readonly stays?: boolean
}

const PART = {
  id: true, buildId: true, number: true, name: true, state: true, binId: true, place: true, condition: true, stays: true,
  bin: { select: { number: true, place: true } }, moves: { orderBy: { at: 'desc' }, take: 1, select: { at: true } },
} as const

export type MovedPart = Prisma.FactoryPartGetPayload<{ select: typeof PART }>

/** Those of these parts of a build that were not taken away, in the order of their numbers. */
export const listMoved = (client: Reads | Write, buildId: string, numbers: readonly number[]): Promise<MovedPart[]> =>
  client.factoryPart.findMany({ where: { buildId, removedAt: null, number: { in: [...numbers] } }, orderBy: { number: 'asc' }, select: PART })

export const listBins = (client: Reads | Write, buildId: string): Promise<{ id: string, number: number, place: string }[]> =>
  client.bin.findMany({ where: { buildId, removedAt: null }, orderBy: { number: 'asc' }, select: { id: true, number: true, place: true } })

/** Where a part is, in words that stay true on paper. @example placeInWords({ state: 'missing', binId: null, place: '', bin: null }) // 'missing' */
export function placeInWords({ bin, ...standing }: Standing & { readonly bin: { readonly number: number, readonly place: string } | null }): string {
  const whereabouts = whereaboutsOf(standing)
  const { place } = standing
  if (whereabouts === 'stored') return bin ? `bin ${label('A', bin.number)}, ${bin.place}` : place || 'out, no place recorded'
  return [whereabouts, whereabouts === 'in the vehicle' ? '' : place].filter((words) => words !== '').join(': ')
}

/** Moves one part: the move, where the part is, and the part's own history, in the write that is open. Returns the id of the move. */
export async function movePart(write: Write, actor: Actor, factoryPartId: string, move: Move, left: Left = {}): Promise<string> {
  const [id = ''] = await moveParts(write, actor, [factoryPartId], move, left)
  return id
}

/** The same for several that move together: they carry one instant, by which a receipt finds them. */
export async function moveParts(write: Write, actor: Actor, ids: readonly string[], move: Move, left: Left = {}): Promise<string[]> {
  const parts: MovedPart[] = []
  for (const id of ids) parts.push(await write.factoryPart.findUniqueOrThrow({ where: { id }, select: PART }))
  const at = instantAfter(actor.now, parts)
  const moved: string[] = []
  for (const part of parts) moved.push(await moveOne(write, actor, part, at, move, left))
  return moved
}

// Moves of a part are told apart by their instant, also on a clock that was set back.
function instantAfter(now: Date, parts: readonly MovedPart[]): Date {
  const last = Math.max(...parts.map(({ moves }) => moves[0]?.at.getTime() ?? 0))
  return new Date(Math.max(now.getTime(), last + 1))
}

async function moveOne(write: Write, actor: Actor, part: MovedPart, at: Date, move: Move, left: Left): Promise<string> {
  const { kind, binId = null, place = '' } = move
  const after = { state: left.state ?? stateAfterMove(kind, part.state), binId, place, ...(left.condition === undefined ? {} : { condition: left.condition }), ...(left.stays === undefined ? {} : { stays: left.stays }) }
  await write.factoryPart.update({ where: { id: part.id }, data: { ...after, version: { increment: 1 } } })
  const told = [kind, move.toWhom ?? '', move.signedName ? `signed by ${move.signedName}` : ''].filter((words) => words !== '').join(', ')
  await audit(write, actor, {
    action: 'changed', recordKind: 'factory part', recordId: part.id, changes: [...changesBetween(part, after), { field: 'Move', before: null, after: told }],
  })
  return writeMove(write, actor, part, at, move)
}

async function writeMove(write: Write, actor: Actor, part: MovedPart, at: Date, move: Move): Promise<string> {
  const { kind, binId = null, place = '', toWhom = '', signedName = '', signature = '', note = '', stockTakeId = null } = move
  const { id } = await write.custodyMove.create({
    data: {
      buildId: part.buildId, factoryPartId: part.id, kind, at, personId: actor.personId ?? '', binId, place,
      fromWords: placeInWords(part), toWhom, signedName, signature, note, stockTakeId,
    },
    select: { id: true },
  })
  return id
}

const ENTERED = 'Entered on the part’s own form.'

/** What the part's own form or a list changed about where it is is written down as a move too. */
export async function tellOfForm(write: Write, actor: Actor, factoryPartId: string, before: Standing | null): Promise<void> {
  const part = await write.factoryPart.findUniqueOrThrow({ where: { id: factoryPartId }, select: PART })
  const to = whereaboutsOf(part)
  const from = before ? whereaboutsOf(before) : 'in the vehicle'
  const isStill = from === to && (to !== 'stored' || (before?.binId === part.binId && before.place === part.place))
  if (isStill) return
  const bin = before?.binId ? await write.bin.findUnique({ where: { id: before.binId }, select: { number: true, place: true } }) : null
  const was = before ? { ...part, ...before, bin } : { ...part, state: 'fitted', binId: null, place: '', bin: null }
  await writeMove(write, actor, was, instantAfter(actor.now, [part]), {
    kind: moveBetween(from, to), note: ENTERED, ...(to === 'in the vehicle' ? {} : { binId: part.binId, place: part.place }),
  })
}
