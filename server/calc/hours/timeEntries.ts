import { groupBy } from '../grouping.ts'
import { Refusal } from '../refusal.ts'

export type TimeKind = 'work' | 'rework' | 'waiting'

export interface TimeEntry {
  readonly id: string
  readonly operationId: string | null
  /** For hours that belong to no operation: the part (null: the build) and the department. */
  readonly partId: string | null
  readonly departmentId: string | null
  readonly personId: string
  readonly kind: TimeKind
  readonly seconds: number
  /** The entry that this one replaces. */
  readonly correctsId: string | null
}

export interface EntryChain {
  /** The one that counts: the last written. */
  readonly effective: TimeEntry
  /** All of them as they were written, the original first. */
  readonly history: readonly TimeEntry[]
}

/**
 * Entries with their corrections, `entries` in the order they were written. The last of each chain counts,
 * the earlier ones stay as history; a correction to zero seconds takes hours back.
 * Refuses entries that correct each other in a ring.
 *
 * @example chainEntries([{ id: 'a', seconds: 3600, … }, { id: 'b', seconds: 1800, correctsId: 'a', … }])
 *   // one chain, effective b, history a, b
 */
export function chainEntries(entries: readonly TimeEntry[]): EntryChain[] {
  const correctsOf = new Map(entries.map(({ id, correctsId }) => [id, correctsId]))
  return [...groupBy(entries, entry => originalOf(entry, correctsOf)).values()]
    .flatMap(history => history.slice(-1).map(effective => ({ effective, history })))
}

function originalOf({ id }: TimeEntry, correctsOf: ReadonlyMap<string, string | null>): string {
  const walked = new Set<string>()
  let original = id
  for (let next = correctsOf.get(original); next; next = correctsOf.get(original)) {
    if (walked.has(original)) throw new Refusal('Time entries correct each other in a ring.')
    walked.add(original)
    original = next
  }
  return original
}
