import { groupBy } from '../grouping.ts'

/** As much of planned work as says what it takes. Times are instants in milliseconds. */
export interface TakingWork {
  readonly id: string
  readonly buildId: string
  readonly startMs: number
  readonly endMs: number
  readonly personIds: readonly string[]
  readonly bayId: string | null
  readonly machineId: string | null
}

export interface BayVisit {
  readonly buildId: string
  readonly bayId: string
  readonly fromMs: number
  readonly toMs: number
}

/** By a plan one cannot begin before another has ended, because both take the same. */
export interface TakingLink {
  readonly before: string
  readonly after: string
  readonly by: 'person' | 'machine' | 'bay'
  /** Of the person, machine or bay. */
  readonly takenId: string
}

/**
 * Who waits for whom in a plan by what they take: the next work of a person, the next on a machine, and all work in one
 * vehicle before that in the next vehicle of the same bay.
 *
 * Source: common practice, no source.
 */
export function linksByTaking(work: readonly TakingWork[], visits: readonly BayVisit[]): TakingLink[] {
  const taking = work.filter(({ startMs, endMs }) => endMs > startMs).toSorted((one, other) => one.startMs - other.startMs || one.endMs - other.endMs)
  const inTurn = (by: 'person' | 'machine', takenOf: (one: TakingWork) => readonly string[]): TakingLink[] => {
    const rows = groupBy(taking.flatMap((one) => takenOf(one).map((takenId) => ({ one, takenId }))), ({ takenId }) => takenId)
    return [...rows.values()].flatMap((row) => row.slice(1).flatMap(({ one, takenId }, place): TakingLink[] => {
      const earlier = row[place]!.one
      return earlier.endMs <= one.startMs ? [{ before: earlier.id, after: one.id, by, takenId }] : []
    }))
  }
  return [...inTurn('person', ({ personIds }) => personIds), ...inTurn('machine', ({ machineId }) => (machineId === null ? [] : [machineId])), ...byBay(taking, visits)]
}

function byBay(work: readonly TakingWork[], visits: readonly BayVisit[]): TakingLink[] {
  const inBays = [...groupBy(visits.toSorted((one, other) => one.fromMs - other.fromMs), ({ bayId }) => bayId).values()]
  return inBays.flatMap((row) => row.slice(1).flatMap((visit, place) => {
    const during = ({ buildId, bayId, fromMs, toMs }: BayVisit): TakingWork[] =>
      work.filter((one) => one.buildId === buildId && one.bayId === bayId && one.startMs >= fromMs && one.endMs <= toMs)
    const earlier = row[place]!
    if (earlier.buildId === visit.buildId) return []
    const last = during(earlier)
    return during(visit).flatMap((one) => last.map(({ id }): TakingLink => ({ before: id, after: one.id, by: 'bay', takenId: visit.bayId })))
  }))
}
