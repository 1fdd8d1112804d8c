import type { FactoryPartState } from './factoryParts.ts'

/** What can happen to a factory part once it is out; the last one is written down with its removal. */
export const MOVE_KINDS = [
  'stored', 'handed to the customer', 'brought back', 'disposed with consent', 'missing', 'found again', 'back in the vehicle',
] as const
export type MoveKind = typeof MOVE_KINDS[number]

export const WHEREABOUTS = ['in the vehicle', 'stored', 'with the customer', 'missing', 'disposed of'] as const
export type Whereabouts = typeof WHEREABOUTS[number]

/** What says where a factory part is. */
export interface Standing {
  readonly state: string
  readonly binId: string | null
  readonly place: string
}

/** @example whereaboutsOf({ state: 'damaged', binId: null, place: 'shelf 4' }) // 'stored' */
export function whereaboutsOf({ state, binId, place }: Standing): Whereabouts {
  if (state === 'out and stored') return 'stored'
  if (state === 'out with the customer') return 'with the customer'
  if (state === 'missing') return 'missing'
  if (state === 'disposed with consent') return 'disposed of'
  const isPutAway = binId !== null || place !== ''
  return isPutAway && (state === 'altered' || state === 'damaged') ? 'stored' : 'in the vehicle'
}

const ALLOWED: Readonly<Record<Whereabouts, readonly MoveKind[]>> = {
  'in the vehicle': [],
  'stored': ['stored', 'handed to the customer', 'disposed with consent', 'missing'],
  'with the customer': ['brought back', 'disposed with consent', 'missing'],
  'missing': ['found again'],
  'disposed of': ['found again'],
}

/** What can be recorded next for a part. @example movesFrom('missing') // ['found again'] */
export const movesFrom = (from: Whereabouts): readonly MoveKind[] => ALLOWED[from]

const FIRST: Readonly<Record<Whereabouts, string>> = {
  'in the vehicle': 'It is in the vehicle: record first that it came out.',
  'stored': 'It is stored here already.',
  'with the customer': 'The customer has it: record first that it was brought back.',
  'missing': 'It is missing: record first that it was found again.',
  'disposed of': 'It was disposed of: it can only be found again.',
}

/** Why a move cannot be, in words; null where it can. @example refuseMove('stored', 'disposed of') // 'It was disposed of: it can only be found again.' */
export function refuseMove(kind: MoveKind, from: Whereabouts): string | null {
  return ALLOWED[from].includes(kind) ? null : FIRST[from]
}

const STATE_AFTER: Readonly<Record<MoveKind, FactoryPartState>> = {
  'stored': 'out and stored', 'handed to the customer': 'out with the customer', 'brought back': 'out and stored',
  'disposed with consent': 'disposed with consent', 'missing': 'missing', 'found again': 'out and stored', 'back in the vehicle': 'fitted',
}

/** The state that a move leaves; what is altered or damaged stays so while it only changes shelves. @example stateAfterMove('stored', 'damaged') // 'damaged' */
export function stateAfterMove(kind: MoveKind, before: string): FactoryPartState {
  return kind === 'stored' && (before === 'altered' || before === 'damaged') ? before : STATE_AFTER[kind]
}

/** Whether a part needs a bin or a place after this move. @example needsPlace('missing') // false */
export const needsPlace = (kind: MoveKind): boolean => kind === 'stored' || kind === 'brought back' || kind === 'found again'

const ARRIVED: Readonly<Record<Whereabouts, Readonly<Partial<Record<Whereabouts, MoveKind>>> & { readonly otherwise: MoveKind }>> = {
  'in the vehicle': { otherwise: 'back in the vehicle' },
  'stored': { 'with the customer': 'brought back', 'missing': 'found again', 'disposed of': 'found again', 'otherwise': 'stored' },
  'with the customer': { otherwise: 'handed to the customer' },
  'missing': { otherwise: 'missing' },
  'disposed of': { otherwise: 'disposed with consent' },
}

/** The move that leads from one whereabouts to another, where only both are known. @example moveBetween('missing', 'stored') // 'found again' */
export const moveBetween = (from: Whereabouts, to: Whereabouts): MoveKind => ARRIVED[to][from] ?? ARRIVED[to].otherwise
