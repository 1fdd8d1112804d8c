import type { Bought } from '../parts/bought.ts'
import { COST_KEYS, toCostFigures } from './costSums.ts'
import type { CostFigures, CostKey, CostSums } from './costSums.ts'
import { earnedOf } from './earnedValue.ts'
import type { EarningRule } from './earnedValue.ts'
import type { OperationEstimate } from '../estimate/operationEstimate.ts'
import { groupBy, sumOf } from '../grouping.ts'
import { costOfTime } from '../money.ts'
import type { Department, Operation } from '../estimate/operations.ts'
import type { Owner, OwnerReference } from '../parts/owners.ts'
import { toWhole } from '../refusal.ts'
import { addSums } from '../shares.ts'
import type { EntryChain, TimeEntry } from '../hours/timeEntries.ts'
import type { Row } from '../estimate/views.ts'

export interface OperationCosting extends Row<CostKey> {
  readonly operation: Operation
  readonly figures: CostFigures
  /** Person-seconds as typed, without rework and without what was learned. */
  readonly plainS: number
  /** Where the remaining time comes from. */
  readonly remainingSource: 'done' | 'technician' | 'estimate less logged'
}

/** Hours on a part or the build that name no operation of it. */
export interface OtherHours extends Row<CostKey> {
  readonly figures: CostFigures
}

type Logged = Pick<CostSums, 'workS' | 'reworkS' | 'waitingS'>

const NOTHING: CostSums = addSums(COST_KEYS, [])

export function costOperations(
  estimates: readonly OperationEstimate[], chains: readonly EntryChain[], rule: EarningRule,
): OperationCosting[] {
  const entriesOf = groupBy(chains.map(({ effective }) => effective), entry => entry.operationId)
  return estimates.map(estimate => {
    const { operation, department, owner, departmentId, label } = estimate
    const logged = toLogged(entriesOf.get(operation.id) ?? [])
    const { remainingS, remainingSource } = remainingOf(operation, estimate.sums.laborS, logged.workS + logged.reworkS)
    const sums: CostSums = {
      ...NOTHING, ...logged, ...toMoney(logged, department),
      withoutReworkS: estimate.sums.withoutReworkS, allowanceS: estimate.sums.reworkS, estimatedCostMinor: estimate.sums.costMinor, estimatedSellMinor: estimate.sums.sellMinor,
      remainingS, remainingCostMinor: costOfTime(remainingS, department.costRateMinor),
      remainingSellMinor: costOfTime(remainingS, department.sellRateMinor),
      earnedMinor: earnedOf(operation.state, estimate.sums.costMinor, rule),
    }
    return { operation, owner, departmentId, label, sums, figures: toCostFigures(sums), plainS: estimate.plainS, remainingSource }
  })
}

/** Hours beside the operations, by part and department; those that name no department cost nothing and say so. */
export function costOtherHours(
  operations: readonly OperationCosting[], chains: readonly EntryChain[],
  ownerOf: (reference: OwnerReference) => Owner, departmentOf: (id: string) => Department,
): OtherHours[] {
  const known = new Set(operations.map(({ operation }) => operation.id))
  const others = chains.map(({ effective }) => effective).filter(({ operationId }) => operationId === null || !known.has(operationId))
  return [...groupBy(others, ({ partId }) => partId)].flatMap(([partId, ofPart]) =>
    [...groupBy(ofPart, ({ departmentId }) => departmentId)].map(([departmentId, entries]) => {
      const owner = ownerOf({ partId, equipmentLineId: null, factoryPartId: null })
      const sums = toOtherSums(toLogged(entries), departmentId === null ? null : departmentOf(departmentId))
      return { owner, departmentId, label: `${owner.label}: hours on no operation`, sums, figures: toCostFigures(sums) }
    }))
}

function remainingOf(operation: Operation, estimatedS: number, loggedS: number): Pick<OperationCosting, 'remainingSource'> & { remainingS: number } {
  if (operation.state === 'done') return { remainingS: 0, remainingSource: 'done' }
  if (operation.remainingS !== null) return { remainingS: toWhole(operation.remainingS, 0, 'The remaining time'), remainingSource: 'technician' }
  return { remainingS: Math.max(estimatedS - loggedS, 0), remainingSource: 'estimate less logged' }
}

function toLogged(entries: readonly TimeEntry[]): Logged {
  const secondsOf = (kind: TimeEntry['kind']) =>
    sumOf(entries.filter(entry => entry.kind === kind), entry => toWhole(entry.seconds, 0, 'The time of an entry'))
  return { workS: secondsOf('work'), reworkS: secondsOf('rework'), waitingS: secondsOf('waiting') }
}

function toMoney({ workS, reworkS, waitingS }: Logged, department: Department): Pick<CostSums, 'loggedCostMinor' | 'loggedSellMinor' | 'uncostedS'> {
  return {
    loggedCostMinor: costOfTime(workS + reworkS + waitingS, department.costRateMinor),
    loggedSellMinor: costOfTime(workS + reworkS, department.sellRateMinor), uncostedS: 0,
  }
}

function toOtherSums(logged: Logged, department: Department | null): CostSums {
  const uncosted = { loggedCostMinor: 0, loggedSellMinor: 0, uncostedS: logged.workS + logged.reworkS + logged.waitingS }
  return { ...NOTHING, ...logged, ...(department ? toMoney(logged, department) : uncosted) }
}

/** What is bought, beside the labor of the thing that it is for. */
export function costBought(bought: readonly Bought[], ownerOf: (reference: OwnerReference) => Owner): Row<CostKey>[] {
  return bought.map(item => ({
    label: item.label, owner: ownerOf(item), departmentId: null,
    sums: { ...NOTHING, boughtCostMinor: toWhole(item.costMinor, 0, `The cost of ${item.label}`), boughtSellMinor: toWhole(item.sellMinor, 0, `The price of ${item.label}`) },
  }))
}
