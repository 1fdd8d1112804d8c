import type { Working } from '../amounts.ts'
import { groupBy, sumOf } from '../grouping.ts'
import { costOfTime } from '../money.ts'
import type { Department } from '../estimate/operations.ts'
import { Refusal } from '../refusal.ts'
import { chainEntries, type TimeEntry } from './timeEntries.ts'

export interface VisitOperation {
  readonly id: string
  /** As "F-020 Door panel, 10 check". */
  readonly name: string
  readonly departmentId: string
}

export interface VisitHours {
  /** Person-seconds of work and rework. */
  readonly loggedS: number
  readonly hours: Working
  /** What the shop pays for them, waiting included. */
  readonly cost: Working
}

type Paid = Pick<Department, 'id' | 'name' | 'costRateMinor'>

const SOURCE = 'common practice, no source'

/**
 * Hours after delivery and what they cost the shop: each operation's seconds at its department's cost
 * rate, rounded half away from zero per operation. Work and rework are hours; waiting costs beside them.
 * Only the last of corrected entries counts. Refuses an unknown department.
 */
export function visitHours(operations: readonly VisitOperation[], entries: readonly TimeEntry[], departments: readonly Paid[]): VisitHours {
  const byId = new Map(departments.map((department) => [department.id, department]))
  const entriesOf = groupBy(chainEntries(entries).map(({ effective }) => effective), ({ operationId }) => operationId)
  const logged = operations.map(({ id, name, departmentId }) => {
    const own = entriesOf.get(id) ?? []
    const waitingS = sumOf(own.filter(({ kind }) => kind === 'waiting'), ({ seconds }) => seconds)
    const allS = sumOf(own, ({ seconds }) => seconds)
    const department = byId.get(departmentId)
    if (!department) throw new Refusal('An operation belongs to a department that the shop does not have.')
    return { name, department, loggedS: allS - waitingS, costMinor: costOfTime(allS, department.costRateMinor) }
  }).filter(({ loggedS, costMinor }) => loggedS > 0 || costMinor > 0)
  const loggedS = sumOf(logged, (each) => each.loggedS)
  return {
    loggedS,
    hours: {
      title: 'Hours after delivery', result: { kind: 'time', value: loggedS },
      inputs: logged.map(({ name, loggedS: value }) => ({ label: name, source: 'logged, work and rework', amount: { kind: 'time', value } })),
      formula: 'sum over the operations of service visits', source: SOURCE,
      assumed: 'They are in no figure of the build itself: its estimate and costing ended with delivery.',
    },
    cost: {
      title: 'Cost of the hours after delivery', result: { kind: 'money', value: sumOf(logged, ({ costMinor }) => costMinor) },
      inputs: logged.map(({ name, department, costMinor: value }) => ({ label: name, source: `logged, waiting included, at ${department.name}’s cost rate`, amount: { kind: 'money', value } })),
      formula: 'hours × cost rate, per operation', assumed: 'Parts and what a maker credits are not in it.', source: SOURCE,
    },
  }
}
