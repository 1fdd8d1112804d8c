import { pertQuantile, pertVariance } from './betaPert.ts'
import { sumOf } from '../grouping.ts'
import type { LearnedRatio } from './hourHistory.ts'
import { equivalentPieces } from './learning.ts'
import type { OperationEstimate } from './operationEstimate.ts'
import type { SpreadQuestion } from './spread.ts'
import type { ThreePoint } from './threePoint.ts'

/** What of an operation counts: person-seconds with or without the allowance for rework, or minor units of price. */
export type UnsureOf = 'with rework' | 'without rework' | 'price'

/** An operation somebody was unsure of, all its pieces and people together. In seconds or minor units, not rounded. */
export interface UnsureOperation {
  readonly operationId: string
  readonly label: string
  /** Null where the spread is that of the shop’s own hours. */
  readonly three: ThreePoint | null
  /** As entered, for the first piece. */
  readonly each: ThreePoint | null
  /** Closed operations the spread comes from; 0 where it comes from three values. */
  readonly records: number
  readonly variance: number
  quantile(share: number): number
  quantiles?(count: number): Float64Array
  /** Share of the spread of all, thousandths, where nothing goes wrong together. */
  readonly shareThousandths: number
}

export interface UnsureLabor {
  /** What nobody is unsure of. */
  readonly sure: number
  readonly unsure: readonly UnsureOperation[]
}

/** What the shop's hours say of an operation; null where they say nothing. */
export type LearnedOf = (operation: OperationEstimate) => LearnedRatio | null

interface Beside {
  /** Sure as well: what is bought, where the price is asked for. */
  readonly beyond?: number
  readonly learnedOf?: LearnedOf
}

/**
 * The labor of a build as sure and unsure parts. Three values for one piece hold for all that are made alike, as far
 * as pieces and people go; set-up is then sure. Where there are none, but the shop has closed operations of the kind, the
 * whole operation is as unsure as those were, around the estimate as it stands. All else is taken as estimated.
 *
 * Source: beta-PERT for three values, closed operations as in `hourHistory.ts`; the rest common practice, no source.
 * @example one operation of 10 min set-up and 1, 2 and 9 h: 600 s are sure, 3600 to 32400 s are not
 */
export function toUnsureLabor(operations: readonly OperationEstimate[], of: UnsureOf, { beyond = 0, learnedOf = () => null }: Beside = {}): UnsureLabor {
  const found = operations.flatMap((operation) => byThreeValues(operation, of) ?? byHistory(operation, of, learnedOf(operation)) ?? [])
  const variance = sumOf(found, ({ unsure }) => unsure.variance)
  return {
    sure: beyond + sumOf(operations, (operation) => sumUp(operation, of)) - sumOf(found, ({ expected }) => expected),
    unsure: found.map(({ unsure }) => ({ ...unsure, shareThousandths: variance === 0 ? 0 : Math.round(1000 * unsure.variance / variance) })),
  }
}

/** The same as the question that `toSpread` answers. */
export function toQuestion({ sure, unsure }: UnsureLabor, togetherThousandths: number): SpreadQuestion {
  return { sure, togetherThousandths, unsure }
}

interface Found {
  readonly unsure: Omit<UnsureOperation, 'shareThousandths'>
  /** What of the estimate is taken out as unsure. */
  readonly expected: number
}

const sumUp = ({ sums }: OperationEstimate, of: UnsureOf): number => (of === 'price' ? sums.sellMinor : of === 'with rework' ? sums.laborS : sums.withoutReworkS)

/** What a person-second without rework comes to. */
function worthOf({ operation, department }: OperationEstimate, of: UnsureOf): number {
  const allowance = of === 'without rework' ? 0 : operation.reworkThousandths ?? department.reworkThousandths
  return (1000 + allowance) / 1000 * (of === 'price' ? department.sellRateMinor / 3600 : 1)
}

function byThreeValues(estimate: OperationEstimate, of: UnsureOf): Found | null {
  const { operation, label, pieces } = estimate
  const { spread, runS, crew, learning, ratio } = operation
  if (spread === null || pieces === 0) return null
  const scale = equivalentPieces(learning, pieces) * (ratio?.thousandths ?? 1000) / 1000 * crew * worthOf(estimate, of)
  const three = { bestS: spread.bestS * scale, likelyS: runS * scale, worstS: spread.worstS * scale }
  return {
    unsure: {
      operationId: operation.id, label, three, each: { bestS: spread.bestS, likelyS: runS, worstS: spread.worstS }, records: 0,
      variance: pertVariance(three), quantile: (share) => pertQuantile(three, share),
    },
    expected: (three.bestS + 4 * three.likelyS + three.worstS) / 6,
  }
}

function byHistory(estimate: OperationEstimate, of: UnsureOf, learned: LearnedRatio | null): Found | null {
  const { operation, label, plainS } = estimate
  if (learned === null || learned.records === 0 || plainS === 0) return null
  // Around the estimate as it stands: a ratio that nobody accepted moves nothing.
  const scale = plainS * worthOf(estimate, of) * (operation.ratio?.thousandths ?? 1000) / learned.ratio
  return {
    unsure: {
      operationId: operation.id, label, three: null, each: null, records: learned.records,
      variance: scale ** 2 * varianceOf(learned), quantile: (share) => scale * learned.quantile(share),
      quantiles: (count) => learned.quantiles(count, scale),
    },
    expected: sumUp(estimate, of),
  }
}

const STEPS = 200

function varianceOf({ quantiles }: LearnedRatio): number {
  const values = quantiles(STEPS, 1)
  const mean = sumOf(values, (value) => value) / STEPS
  return sumOf(values, (value) => (value - mean) ** 2) / STEPS
}
