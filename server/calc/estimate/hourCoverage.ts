import { estimateOperations } from './estimate.ts'
import { groupBy, sumOf } from '../grouping.ts'
import { learnHours } from './hourHistory.ts'
import type { HourHistory, HourRecord } from './hourHistory.ts'
import type { LaborInput, Operation } from './operations.ts'
import { drawCases, toSpread } from './spread.ts'
import type { Cases } from './spread.ts'
import { toQuestion, toUnsureLabor } from './unsureLabor.ts'

/** A closed build: its operations that are done, and what was logged on them, person-seconds. */
export interface ClosedBuild {
  readonly id: string
  readonly label: string
  readonly isDelivered: boolean
  readonly labor: LaborInput
  readonly logged: ReadonlyMap<string, { readonly workS: number, readonly reworkS: number }>
}

export interface CoveredBuild {
  readonly id: string
  readonly label: string
  /** As typed, with the allowance for rework. */
  readonly estimatedS: number
  /** Work and rework. */
  readonly tookS: number
  readonly in80S: number
  readonly in90S: number
}

/** One build foretold, and its operations one by one. */
export interface Foretold {
  readonly build: CoveredBuild
  readonly operations: readonly { readonly in80: boolean, readonly in90: boolean }[]
}

/** Estimates as they were typed: nothing learned in them, or it would be learned twice. */
const asTyped = ({ labor }: ClosedBuild): LaborInput => ({ ...labor, operations: labor.operations.map((operation) => ({ ...operation, ratio: null })) })

export function recordsOf(build: ClosedBuild): HourRecord[] {
  return estimateOperations(asTyped(build)).map(({ operation, plainS }) => ({
    buildId: build.id, kind: operation.kind, departmentId: operation.departmentId, estimatedS: plainS,
    workS: build.logged.get(operation.id)?.workS ?? 0, reworkS: build.logged.get(operation.id)?.reworkS ?? 0,
  }))
}

/**
 * Each delivered build foretold from all the others, as if every ratio that those teach had been accepted, and beside
 * it what it took. One that ends exactly on the value counts as inside. `together`: how far things go wrong together,
 * thousandths. One build after another, because each draws all its cases.
 *
 * Person-seconds, rework included. Source: leave-one-out cross-validation (Stone 1974, from memory).
 * @example of ten alike builds with lognormal hours about eight end inside their 80 in 100
 */
export function* foretellEach(builds: readonly ClosedBuild[], together: number): Generator<Foretold> {
  const records = new Map(builds.map((build) => [build.id, recordsOf(build)]))
  const all = [...records.values()].flat()
  const cases = drawCases(together)
  for (const build of builds) {
    const own = (records.get(build.id) ?? []).filter(isCounted)
    if (!build.isDelivered || own.length === 0) continue
    const others = learnHours(all.filter(({ buildId }) => buildId !== build.id))
    yield { build: coveredBuild(build, others, cases), operations: own.map((record) => insideOf(record, others)) }
  }
}

const isCounted = ({ estimatedS, workS }: HourRecord): boolean => estimatedS > 0 && workS > 0

// Equal but for the last digits of a power is equal.
const CLOSE = 1 + 1e-9

function insideOf({ kind, departmentId, estimatedS, workS }: HourRecord, others: HourHistory): { readonly in80: boolean, readonly in90: boolean } {
  const learned = others.of(kind, departmentId)
  const within = (share: number): boolean => learned !== null && workS <= estimatedS * learned.quantile(share) * CLOSE
  return { in80: within(0.8), in90: within(0.9) }
}

function coveredBuild(build: ClosedBuild, others: HourHistory, cases: Cases): CoveredBuild {
  const learnedOf = ({ kind, departmentId }: Pick<Operation, 'kind' | 'departmentId'>) => others.of(kind, departmentId)
  const typed = asTyped(build)
  const learned = { ...typed, operations: typed.operations.map((operation) => {
    const found = learnedOf(operation)
    return { ...operation, ratio: found && { thousandths: found.ratio, records: found.records } }
  }) }
  const labor = toUnsureLabor(estimateOperations(learned), 'with rework', { learnedOf: ({ operation }) => learnedOf(operation) })
  const spread = toSpread(toQuestion(labor, cases.togetherThousandths), cases)
  return {
    id: build.id, label: build.label, estimatedS: sumOf(estimateOperations(typed), ({ sums }) => sums.laborS),
    tookS: sumOf(build.logged.values(), ({ workS, reworkS }) => workS + reworkS), in80S: spread.percentile(0.8), in90S: spread.percentile(0.9),
  }
}

/** Person-seconds of what is logged, by operation and kind of time, the last word of each entry. */
export function loggedOf(entries: readonly { readonly operationId: string | null, readonly kind: string, readonly seconds: number }[]): ClosedBuild['logged'] {
  return new Map([...groupBy(entries.filter(({ operationId }) => operationId !== null), ({ operationId }) => operationId ?? '')].map(([id, own]) => {
    const secondsOf = (kind: string): number => sumOf(own.filter((entry) => entry.kind === kind), ({ seconds }) => seconds)
    return [id, { workS: secondsOf('work'), reworkS: secondsOf('rework') }]
  }))
}
