import type { Department } from '../estimate/operations.ts'
import { groupBy, sumOf } from '../grouping.ts'
import { costOfTime } from '../money.ts'
import type { EntryChain } from './timeEntries.ts'

/** Hours of one department at its price that no invoice holds yet. */
export interface HoursToInvoice {
  readonly departmentId: string
  readonly department: string
  readonly kind: 'work' | 'rework'
  /** Below zero where more was invoiced than is logged by now. */
  readonly seconds: number
  readonly rateMinor: number
  readonly netMinor: number
  /** By the first entry of each chain, what this line holds of it. */
  readonly entries: readonly { readonly id: string, readonly seconds: number }[]
}

/**
 * Logged hours less those that were invoiced, by department and by work or rework, at the department's price of an hour;
 * one rounding a line, half away from zero. `invoicedS` holds seconds by the first entry of a chain, so that hours
 * corrected after they were invoiced bring only the difference. Waiting is not charged.
 *
 * Source: common practice, no source.
 * @example 3 h of work logged, 1 h of it invoiced, at 95.00: one line of 2 h, 190.00
 */
export function hoursToInvoice(chains: readonly EntryChain[], departments: readonly Department[], invoicedS: ReadonlyMap<string, number>): HoursToInvoice[] {
  const left = chains.flatMap(({ effective, history }) => {
    const id = history[0]?.id ?? effective.id
    const { kind, departmentId } = effective
    const logged = kind === 'waiting' ? 0 : effective.seconds
    const seconds = logged - (invoicedS.get(id) ?? 0)
    // What became waiting after it was invoiced is taken off as the work it was charged as.
    return seconds === 0 || departmentId === null ? [] : [{ id, seconds, departmentId, kind: kind === 'rework' ? 'rework' as const : 'work' as const }]
  })
  return departments.flatMap(({ id: departmentId, name, sellRateMinor }) =>
    [...groupBy(left.filter((entry) => entry.departmentId === departmentId), ({ kind }) => kind)].map(([kind, entries]) => {
      const seconds = sumOf(entries, (entry) => entry.seconds)
      return {
        departmentId, department: name, kind, seconds, rateMinor: sellRateMinor, netMinor: costOfTime(seconds, sellRateMinor),
        entries: entries.map(({ id, seconds: held }) => ({ id, seconds: held })),
      }
    })).filter(({ seconds }) => seconds !== 0)
}
