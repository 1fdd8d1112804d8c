import { figuresOf, type BuildFigures } from '../builds/figures.ts'
import type { StoredBuild } from '../builds/store.ts'
import type { HourHistory } from '../calc/estimate/hourHistory.ts'
import type { ShopWork } from '../calc/schedule/shopProblem.ts'
import type { TimeEntry } from '../calc/hours/timeEntries.ts'
import { toUnsureLabor } from '../calc/estimate/unsureLabor.ts'
import { toBenchFigures } from '../hours/benchFigures.ts'
import type { BenchOperation, Trees } from '../hours/nowStore.ts'
import { nameOperation } from '../hours/operationName.ts'
import { Problem } from '../shared/problems.ts'
import type { ShopTimes } from './shopTimes.ts'
import type { StoredPlacing, StoredShopDay } from './store.ts'

/** So many even steps from the best case of an operation to its worst. */
const STEPS = 40

/** Nobody works longer at a stretch: a timer that was forgotten over night is not taken for so much work. Our choice, no source. */
const LONGEST_AT_IT_S = 10 * 3600

/** Work on a made part that is done in the vehicle; the rest is done at the bench. Common practice, no source. */
const IN_VEHICLE = ['pattern', 'mock-up', 'damp', 'take out', 'fit', 'wire', 'tune', 'check', 'put back']

export interface Around {
  /** Null where they cannot be made. */
  readonly figures: BuildFigures | null
  /** What closed operations teach of how unsure hours are; null where only three values are asked for. */
  readonly history: HourHistory | null
  readonly day: StoredShopDay
  readonly waiting: ReadonlyMap<string, readonly string[]>
  readonly trees: Trees
  /** Hours on the work of service visits. */
  readonly visitEntries: readonly TimeEntry[]
  readonly placings: ReadonlyMap<string, StoredPlacing>
  /** The day on which what an owner waits for is expected, by the owner's id. */
  readonly expected: ReadonlyMap<string, string>
  readonly times: ShopTimes
}

/** The figures of a build, or why they cannot be made: one build's absurd quantity must not keep the shop from its plan. */
export function figuresOrWhy(stored: StoredBuild): { readonly figures: BuildFigures | null, readonly why: string } {
  try {
    return { figures: figuresOf(stored), why: '' }
  } catch (error) {
    if (!(error instanceof Problem)) throw error
    return { figures: null, why: `${error.title}: ${error.detail}` }
  }
}

/** The open operations of one build as work to plan. */
export function toWork(operations: readonly BenchOperation[], { figures, history, day, waiting, trees, visitEntries, placings, expected, times }: Around): ShopWork[] {
  const visits = toBenchFigures(operations.filter(({ visit }) => visit !== null), trees, visitEntries)
  const remaining = new Map([
    ...(figures?.costing.operations ?? []).map(({ operation, figures: own }) => [operation.id, own.remainingS] as const),
    ...[...visits].map(([id, own]) => [id, own.remainingS] as const),
  ])
  const cases = figures === null ? () => [] : casesOf(figures.costing, history)
  const skills = new Map(day.skills.map((skill) => [skill.id, skill]))
  return operations.map((operation) => {
    const { item, operation: named } = nameOperation(operation)
    const placing = placings.get(operation.id)!
    const { earliestOn, backOn, pinnedAt, machineId, finisherId, isInOnePiece } = placing
    const opens = [expected.get((operation.part ?? operation.line ?? operation.factoryPart)?.id ?? ''), earliestOn ?? undefined].flatMap((on) => (on === undefined ? [] : [times.openingOn(on)]))
    const remainingS = remaining.get(operation.id) ?? 0
    return {
      id: operation.id, name: `${item}, ${named}`, shortName: `${item}, ${operation.kind}`, remainingS, remainingCasesS: cases(operation.id, remainingS), crew: operation.crew, personId: operation.personId,
      skill: operation.skillId === null ? null : skills.get(operation.skillId) ?? null, after: waiting.get(operation.id) ?? [], waitS: operation.wait,
      isInVehicle: isInVehicle(placing), keepsIn: keepsIn(placing), isInOnePiece, machineId, finisherId,
      backMs: backOn === null ? null : times.openingOn(backOn), pinnedMs: pinnedAt?.getTime() ?? null,
      earliestMs: opens.length === 0 ? null : Math.max(...opens),
      runningBy: day.timers.filter(({ operationId }) => operationId === operation.id).map(({ personId }) => personId),
      runningS: day.timers.reduce((sum, { operationId, kind, startedAt }) => sum + (operationId === operation.id && kind !== 'waiting' ? Math.min(LONGEST_AT_IT_S, Math.max(0, (times.now.getTime() - startedAt.getTime()) / 1000)) : 0), 0),
    }
  })
}

const isInVehicle = ({ place, partId, kind }: StoredPlacing): boolean => (place === '' ? partId === null || IN_VEHICLE.includes(kind) : place === 'in the vehicle')

/** Where nobody says: while it is apart after something came out, and while something cures in it. Common practice, no source. */
const keepsIn = (placing: StoredPlacing): boolean => isInVehicle(placing) && (placing.rollOut === '' ? placing.kind === 'take out' || placing.wait > 0 : placing.rollOut === 'stays in')

/** Whether what was last worked on in the vehicle lets it out of its bay. */
export function mayRollOutNow({ entries, visitEntries }: StoredBuild, placings: ReadonlyMap<string, StoredPlacing>): boolean {
  const begun = [...entries, ...visitEntries].flatMap(({ operationId, startedAt }) => {
    const placing = placings.get(operationId ?? '')
    return placing !== undefined && isInVehicle(placing) ? [{ placing, at: startedAt.getTime() }] : []
  })
  const last = begun.length === 0 ? null : begun.reduce((latest, one) => (one.at > latest.at ? one : latest))
  return last === null || !keepsIn(last.placing)
}

/** What remains is as unsure as the whole, by three values or by the shop’s closed operations of the kind, drawn out to what remains. */
function casesOf({ estimate }: BuildFigures['costing'], history: HourHistory | null): (id: string, remainingS: number) => readonly number[] {
  const labor = new Map(estimate.operations.map(({ operation, sums }) => [operation.id, sums.laborS]))
  const unsure = new Map(toUnsureLabor(estimate.operations, 'with rework', history === null ? {} : { learnedOf: ({ operation: { kind, departmentId } }) => history.of(kind, departmentId) }).unsure.map((one) => [one.operationId, one]))
  return (id, remainingS) => {
    const [own, whole] = [unsure.get(id), labor.get(id) ?? 0]
    if (!own || whole === 0 || remainingS === 0) return []
    const sure = own.three === null ? 0 : whole - (own.three.bestS + 4 * own.three.likelyS + own.three.worstS) / 6
    const shares = own.quantiles?.(STEPS) ?? Float64Array.from({ length: STEPS }, (_, step) => own.quantile((step + 0.5) / STEPS))
    return Array.from(shares, (seconds) => Math.round((sure + seconds) * remainingS / whole))
  }
}
