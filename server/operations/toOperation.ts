import type { LearningModel } from '../calc/estimate/learning.ts'
import type { HourRatio, Operation, OperationState } from '../calc/estimate/operations.ts'
import type { OwnerReference } from '../calc/parts/owners.ts'

/** What of an operation the estimate is made of. */
export const ESTIMATED = {
  id: true, number: true, kind: true, departmentId: true, setUp: true, run: true, runBest: true, runWorst: true, learningModel: true,
  learningRate: true, reworkAllowance: true, crew: true, wait: true, state: true, remaining: true,
} as const

interface StoredOperation extends Record<'id' | 'kind' | 'departmentId' | 'learningModel' | 'state', string>,
  Record<'number' | 'setUp' | 'run' | 'crew' | 'wait', number>,
  Record<'runBest' | 'runWorst' | 'learningRate' | 'reworkAllowance' | 'remaining', number | null> {}

/** What of a correction by the shop’s hours the estimate takes. */
export const CORRECTED = { buildId: true, kind: true, departmentId: true, ratio: true, records: true } as const

interface StoredCorrection extends Record<'kind' | 'departmentId', string>, Record<'ratio' | 'records', number> {}

/** What was accepted for operations of this kind in this department of their build. */
export function ratioFor({ kind, departmentId }: Pick<StoredOperation, 'kind' | 'departmentId'>, corrections: readonly StoredCorrection[]): HourRatio | null {
  const found = corrections.find((correction) => correction.kind === kind && correction.departmentId === departmentId)
  return found ? { thousandths: found.ratio, records: found.records } : null
}

/** A stored operation as the estimate takes it. */
export function toOperation(row: StoredOperation, owner: OwnerReference, ratio: HourRatio | null): Operation {
  const { id, number, kind, departmentId, setUp, run, runBest, runWorst, learningModel, learningRate, reworkAllowance, crew, wait, state, remaining } = row
  return {
    id, number, kind, departmentId, partId: owner.partId, equipmentLineId: owner.equipmentLineId, factoryPartId: owner.factoryPartId,
    setUpS: setUp, runS: run, spread: runBest === null || runWorst === null ? null : { bestS: runBest, worstS: runWorst },
    learning: learningModel === '' || learningRate === null ? null : { model: learningModel as LearningModel, rateThousandths: learningRate },
    reworkThousandths: reworkAllowance, ratio, crew, waitS: wait, state: state as OperationState, remainingS: remaining,
  }
}
