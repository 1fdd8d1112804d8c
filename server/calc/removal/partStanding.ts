import type { FactoryPartState } from './factoryParts.ts'

export const REMOVAL_KINDS = ['came out', 'loosened', 'went back', 'stays', 'altered', 'broke'] as const

export type RemovalKind = typeof REMOVAL_KINDS[number]

/** Where a factory part is and how it fares. */
export interface PartStanding {
  readonly state: FactoryPartState
  readonly binId: string | null
  /** Looked at in teardown and left in the vehicle. */
  readonly stays: boolean
}

/**
 * How a factory part stands after something happened to it. What is damaged or altered stays so wherever it
 * goes: only going back, with it or with a new one, makes it fitted. Common practice, no source.
 *
 * @example standingAfter({ state: 'fitted', binId: null, stays: false }, { kind: 'came out', binId: 'A' }) // { state: 'out and stored', binId: 'A', stays: false }
 */
export function standingAfter(before: PartStanding, { kind, binId }: { readonly kind: RemovalKind, readonly binId: string | null }): PartStanding {
  const marred = before.state === 'damaged' || before.state === 'altered' ? before.state : null
  if (kind === 'came out') return { state: marred ?? 'out and stored', binId, stays: false }
  if (kind === 'loosened') return { ...before, state: marred ?? 'loosened', stays: false }
  if (kind === 'went back') return { state: 'fitted', binId: null, stays: false }
  if (kind === 'stays') return { ...before, stays: true }
  const into = binId ?? before.binId
  return { state: kind === 'broke' || marred === 'damaged' ? 'damaged' : 'altered', binId: into, stays: into === null && before.stays }
}

/** Whether nothing more is to be done about a part in a teardown: it is out, loose, or stays. */
export function isSettled({ state, stays, isInVehicle }: { readonly state: string, readonly stays: boolean, readonly isInVehicle: boolean }): boolean {
  return !isInVehicle || stays || state === 'loosened'
}
