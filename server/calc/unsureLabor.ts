import { pertQuantile, pertVariance } from './betaPert.ts'
import { sumOf } from './grouping.ts'
import { equivalentPieces } from './learning.ts'
import type { OperationEstimate } from './operationEstimate.ts'
import type { SpreadQuestion } from './spread.ts'
import type { ThreePoint } from './threePoint.ts'

/** What of an operation counts: person-seconds with or without the allowance for rework, or minor units of price. */
export type UnsureOf = 'with rework' | 'without rework' | 'price'

/** An operation somebody was unsure of, all its pieces and people together. */
export interface UnsureOperation {
  readonly operationId: string
  readonly label: string
  /** In seconds or minor units, not rounded. */
  readonly three: ThreePoint
  /** As entered, for the first piece. */
  readonly each: ThreePoint
  /** Share of the spread of all, thousandths, where nothing goes wrong together. */
  readonly shareThousandths: number
}

export interface UnsureLabor {
  /** What nobody is unsure of. */
  readonly sure: number
  readonly unsure: readonly UnsureOperation[]
}

/**
 * The labor of a build as sure and unsure parts. Three values for one piece hold for all that are made alike, as far
 * as pieces and people go; set-up and what has no three values are taken as estimated.
 * `beyond` is sure as well: what is bought, where the price is asked for.
 *
 * Source: beta-PERT for each operation; the rest common practice, no source.
 * @example one operation of 10 min set-up and 1, 2 and 9 h: 600 s are sure, 3600 to 32400 s are not
 */
export function toUnsureLabor(operations: readonly OperationEstimate[], of: UnsureOf, beyond = 0): UnsureLabor {
  const ranged = operations.flatMap((operation) => {
    const three = rangeOf(operation, of)
    return three === null ? [] : [{ operation, three }]
  })
  const variance = sumOf(ranged, ({ three }) => pertVariance(three))
  const total = beyond + sumOf(operations, ({ sums }) => (of === 'price' ? sums.sellMinor : of === 'with rework' ? sums.laborS : sums.withoutReworkS))
  return {
    sure: total - sumOf(ranged, ({ three }) => (three.bestS + 4 * three.likelyS + three.worstS) / 6),
    unsure: ranged.map(({ operation: { operation, label }, three }) => ({
      operationId: operation.id, label, three, each: { bestS: operation.spread?.bestS ?? operation.runS, likelyS: operation.runS, worstS: operation.spread?.worstS ?? operation.runS },
      shareThousandths: variance === 0 ? 0 : Math.round(1000 * pertVariance(three) / variance),
    })),
  }
}

/** The same as the question that `toSpread` answers. */
export function toQuestion({ sure, unsure }: UnsureLabor, togetherThousandths: number): SpreadQuestion {
  return { sure, togetherThousandths, unsure: unsure.map(({ label, three }) => ({ label, quantile: (share) => pertQuantile(three, share) })) }
}

function rangeOf({ operation, department, pieces }: OperationEstimate, of: UnsureOf): ThreePoint | null {
  const { spread, runS, crew, learning, ratio } = operation
  if (spread === null || pieces === 0) return null
  const allowance = of === 'without rework' ? 0 : operation.reworkThousandths ?? department.reworkThousandths
  const scale = equivalentPieces(learning, pieces) * (ratio?.thousandths ?? 1000) / 1000 * crew * (1000 + allowance) / 1000 * (of === 'price' ? department.sellRateMinor / 3600 : 1)
  return { bestS: spread.bestS * scale, likelyS: runS * scale, worstS: spread.worstS * scale }
}
