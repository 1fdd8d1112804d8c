import type { LearningModel } from '../calc/learning.ts'
import type { Operation, OperationState } from '../calc/operations.ts'
import type { OwnerReference } from '../calc/owners.ts'

/** What of an operation the estimate is made of. */
export const ESTIMATED = {
  id: true, number: true, kind: true, departmentId: true, setUp: true, run: true, runBest: true, runWorst: true, learningModel: true,
  learningRate: true, reworkAllowance: true, crew: true, wait: true, state: true, remaining: true,
} as const

interface StoredOperation extends Record<'id' | 'kind' | 'departmentId' | 'learningModel' | 'state', string>,
  Record<'number' | 'setUp' | 'run' | 'crew' | 'wait', number>,
  Record<'runBest' | 'runWorst' | 'learningRate' | 'reworkAllowance' | 'remaining', number | null> {}

/** A stored operation as the estimate takes it. */
export function toOperation(row: StoredOperation, owner: OwnerReference): Operation {
  const { id, number, kind, departmentId, setUp, run, runBest, runWorst, learningModel, learningRate, reworkAllowance, crew, wait, state, remaining } = row
  return {
    id, number, kind, departmentId, partId: owner.partId, equipmentLineId: owner.equipmentLineId, factoryPartId: owner.factoryPartId,
    setUpS: setUp, runS: run, spread: runBest === null || runWorst === null ? null : { bestS: runBest, worstS: runWorst },
    learning: learningModel === '' || learningRate === null ? null : { model: learningModel as LearningModel, rateThousandths: learningRate },
    reworkThousandths: reworkAllowance, crew, waitS: wait, state: state as OperationState, remainingS: remaining,
  }
}
