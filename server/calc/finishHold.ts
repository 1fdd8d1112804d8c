import { groupBy } from './grouping.ts'

export const FINISH_KINDS = ['paint', 'powder coat', 'anodize', 'plating', 'leather', 'vinyl', 'fabric', 'carpet', 'veneer', 'other'] as const
export type FinishKind = (typeof FINISH_KINDS)[number]

const OUTSIDE = 'outside finish'
const COVERED = ['sew', 'wrap'] as const

/** What lays a finish on. Primer, filler and foam lie under every color alike and can go ahead of the sample. */
const LAID_ON_BY: Readonly<Record<FinishKind, readonly string[]>> = {
  'paint': ['paint'],
  'powder coat': [OUTSIDE],
  'anodize': [OUTSIDE],
  'plating': [OUTSIDE],
  'leather': COVERED,
  'vinyl': COVERED,
  'fabric': COVERED,
  'carpet': COVERED,
  'veneer': ['wrap'],
  'other': ['paint', ...COVERED, OUTSIDE],
}

const FINISHING = ['paint', ...COVERED, OUTSIDE]

export interface FinishStep {
  readonly id: string
  /** The made part it is on; null where it is on equipment or a factory part. */
  readonly partId: string | null
  readonly kind: string
  readonly state: string
}

export interface SampledFinish {
  readonly id: string
  readonly partId: string
  readonly kind: string
  readonly sampleState: string
}

/**
 * Whether an operation lays a finish on, so that a finish should be recorded for its part.
 *
 * @example isFinishing('wrap') // true
 * @example isFinishing('prime') // false
 */
export const isFinishing = (kind: string): boolean => FINISHING.includes(kind)

/**
 * The kinds of operation of a part that a finish holds until its sample is approved: those that lay it on, or,
 * where the part has none of them, its work at an outside finisher. Source: common practice, none published.
 *
 * @example heldKinds('leather', ['foam', 'sew', 'wrap']) // ['sew', 'wrap']
 * @example heldKinds('paint', ['sand', 'prime', 'outside finish']) // ['outside finish']
 * @example heldKinds('anodize', ['cut', 'machine']) // []
 */
export function heldKinds(finishKind: string, operationKinds: readonly string[]): string[] {
  const wanted = LAID_ON_BY[finishKind as FinishKind] ?? LAID_ON_BY.other
  const own = wanted.filter((kind) => operationKinds.includes(kind))
  if (own.length > 0) return own
  return operationKinds.includes(OUTSIDE) ? [OUTSIDE] : []
}

/**
 * The finishes that stand in the way of each operation, by the operation's id: those whose sample is not approved.
 * What is done is held no more; rework on it is a record of what was needed.
 *
 * @example findHolds([leatherSew20], [leatherNotApproved]).get('sew20') // only that finish
 */
export function findHolds<Finish extends SampledFinish>(steps: readonly FinishStep[], finishes: readonly Finish[]): Map<string, Finish[]> {
  const stepsOf = groupBy(steps, ({ partId }) => partId)
  const holds = new Map<string, Finish[]>()
  for (const finish of finishes.filter(({ sampleState }) => sampleState !== 'approved')) {
    const own = stepsOf.get(finish.partId) ?? []
    const held = heldKinds(finish.kind, own.map(({ kind }) => kind))
    for (const step of own.filter(({ kind, state }) => state !== 'done' && held.includes(kind))) {
      holds.set(step.id, [...(holds.get(step.id) ?? []), finish])
    }
  }
  return holds
}

/**
 * The parts with finishing still to be done for which nobody has recorded a finish.
 *
 * @example findUnfinished([wrap20], []) // the part of wrap20
 */
export function findUnfinished(steps: readonly FinishStep[], finishes: readonly Pick<SampledFinish, 'partId'>[]): string[] {
  const known = new Set(finishes.map(({ partId }) => partId))
  const open = steps.filter(({ kind, state }) => isFinishing(kind) && state !== 'done').flatMap(({ partId }) => partId ?? [])
  return [...new Set(open)].filter((partId) => !known.has(partId))
}

interface Named {
  readonly kind: string
  readonly material: string
  readonly color: string
}

/**
 * A finish in few words.
 *
 * @example nameFinish({ kind: 'leather', material: 'full grain', color: 'tan' }) // 'leather, full grain, tan'
 */
export const nameFinish = ({ kind, material, color }: Named): string => [kind, material, color].filter((word) => word !== '').join(', ')
