import type { BillInput } from '../parts/billInput.ts'
import type { Learning } from './learning.ts'
import type { OwnerReference } from '../parts/owners.ts'
import { Refusal } from '../refusal.ts'

export type OperationState = 'not started' | 'running' | 'waiting' | 'done'

/** What the shop’s own hours say of an estimate, accepted by the manager: 1300 thousandths for 1.3 × the estimate. */
export interface HourRatio {
  readonly thousandths: number
  /** Closed operations it stands on. */
  readonly records: number
}

export interface Operation extends OwnerReference {
  readonly id: string
  readonly number: number
  /** Cut, sand, wrap and so on. */
  readonly kind: string
  readonly departmentId: string
  /** Seconds once for the batch. */
  readonly setUpS: number
  /** Seconds for the first piece, and without a learning curve for each; the most likely where there are three values. */
  readonly runS: number
  /** Seconds for a piece when all goes well, and when all goes wrong; null where nobody is unsure. */
  readonly spread: { readonly bestS: number, readonly worstS: number } | null
  /** Null where no piece goes faster than the first. */
  readonly learning: Learning | null
  /** Allowance for rework on top of the estimate; null where the department's holds. */
  readonly reworkThousandths: number | null
  /** Null where the estimate holds as typed. Counts for set-up and run, not for waiting. */
  readonly ratio: HourRatio | null
  /** People at once. */
  readonly crew: number
  /** Seconds that need nobody: cure, paint, an outside finisher. */
  readonly waitS: number
  readonly state: OperationState
  /** Person-seconds left by the technician's own figure. */
  readonly remainingS: number | null
}

export interface Department {
  readonly id: string
  readonly name: string
  readonly costRateMinor: number
  readonly sellRateMinor: number
  /** Allowance for rework on top of the estimate. */
  readonly reworkThousandths: number
}

/** What estimate and costing look at. */
export interface LaborInput extends Pick<BillInput, 'parts' | 'partUses' | 'equipment' | 'factoryParts' | 'zones'> {
  readonly operations: readonly Operation[]
  readonly departments: readonly Department[]
}

/** Answers the department of an id; an unknown one is refused. */
export function departmentFinder(departments: readonly Department[]): (id: string) => Department {
  const byId = new Map(departments.map(department => [department.id, department]))
  return id => {
    const department = byId.get(id)
    if (!department) throw new Refusal('An operation belongs to a department that the shop does not have.')
    return department
  }
}
