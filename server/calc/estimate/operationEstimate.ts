import { LARGEST_INTEGER } from '../amounts.ts'
import type { Working } from '../amounts.ts'
import { equivalentPieces } from './learning.ts'
import { costOfTime } from '../money.ts'
import type { Department, Operation } from './operations.ts'
import { operationWorking } from './operationWorking.ts'
import type { Owner } from '../parts/owners.ts'
import { Refusal, toWhole } from '../refusal.ts'
import { roundHalfAway, scaleHalfAway } from '../rounding.ts'
import type { Sums } from '../shares.ts'
import { sixfoldMean } from './threePoint.ts'
import type { Row } from './views.ts'

/** Elapsed: the clock of one crew after another; without rework and rework: person-seconds; wait: seconds that need nobody. */
export const LABOR_KEYS = ['elapsedS', 'withoutReworkS', 'reworkS', 'waitS', 'costMinor', 'sellMinor'] as const
export type LaborKey = typeof LABOR_KEYS[number]

export interface LaborSums extends Sums<LaborKey> {
  /** Person-seconds without rework and those allowed for it together; cost and price are of these. */
  readonly laborS: number
}

// Shared over zones each by itself, the two would not always add up to a share of their sum: the sum is made last.
export function toLaborSums(sums: Sums<LaborKey>): LaborSums {
  return { ...sums, laborS: sums.withoutReworkS + sums.reworkS }
}

export interface OperationEstimate extends Row<LaborKey> {
  readonly sums: LaborSums
  readonly operation: Operation
  readonly department: Department
  readonly pieces: number
  /** Person-seconds as typed: without rework, and without what was learned from the shop’s hours. */
  readonly plainS: number
  /** Person-seconds between all going well and all going wrong; 0 where nobody is unsure. */
  readonly rangeS: number
  readonly working: Working
}

/**
 * Labor of one operation for all pieces of its owner: set-up once, run time by piece along its learning curve, the
 * expected one where three values are given, both as the shop's own hours run where the manager accepted that, times the
 * crew, and the allowance for rework on top.
 *
 * Seconds, rounded once for the run of all pieces, once for the ratio and once for the allowance; minor units, rounded
 * once. What has no pieces takes no time. Refuses times below zero, three values out of order and more than 2³¹ − 1 seconds.
 * Source: PERT and learning curves as in `threePoint.ts` and `learning.ts`; the rest common practice, no source.
 * @example set-up 1800 s, run 600 s, 4 pieces, crew 2, allowance 100: elapsed 4620 s, labor 9240 s, of it 840 s for rework
 */
export function estimateOperation(operation: Operation, owner: Owner, department: Department): OperationEstimate {
  const label = `${owner.label}: ${operation.number} ${operation.kind}`
  const { pieces } = owner
  const setUpS = toWhole(operation.setUpS, 0, `The set-up time of ${label}`)
  const crew = toWhole(operation.crew, 1, `The crew of ${label}`)
  const allowance = toWhole(operation.reworkThousandths ?? department.reworkThousandths, 0, `The allowance for rework of ${label}`)
  const runS = runOf(operation, pieces, label)
  const plainS = pieces === 0 ? 0 : toTime(setUpS + runS, label)
  const onceS = toTime(ratioOf(operation, plainS, label), label)
  const againS = scaleHalfAway(onceS, allowance, 1000)
  const elapsedS = toTime(onceS + againS, label)
  const laborS = toTime(elapsedS * crew, label)
  return {
    operation, owner, department, departmentId: department.id, label, pieces,
    sums: toLaborSums({
      elapsedS, withoutReworkS: onceS * crew, reworkS: againS * crew,
      waitS: pieces === 0 ? 0 : toWhole(operation.waitS, 0, `The waiting time of ${label}`),
      costMinor: costOfTime(laborS, department.costRateMinor), sellMinor: costOfTime(laborS, department.sellRateMinor),
    }),
    plainS: toTime(plainS * crew, label), rangeS: rangeOf(operation, pieces, crew, allowance),
    working: operationWorking(operation, owner, { label, runS, allowance, withoutReworkS: onceS * crew, laborS }),
  }
}

function runOf({ runS, spread, learning }: Operation, pieces: number, label: string): number {
  toWhole(runS, 0, `The run time of ${label}`)
  const sixfold = spread === null ? 6 * runS : sixfoldMean({ ...spread, likelyS: runS })
  if (learning === null) return scaleHalfAway(sixfold, pieces, 6)
  return roundHalfAway(sixfold * equivalentPieces(learning, pieces) / 6)
}

function ratioOf({ ratio }: Operation, seconds: number, label: string): number {
  return ratio === null ? seconds : scaleHalfAway(seconds, toWhole(ratio.thousandths, 1, `The ratio learned for ${label}`), 1000)
}

// What is unsure of one piece is as unsure of all that are made alike, so the range grows with the pieces.
function rangeOf({ spread, learning, ratio }: Operation, pieces: number, crew: number, allowance: number): number {
  if (spread === null) return 0
  return roundHalfAway((spread.worstS - spread.bestS) * equivalentPieces(learning, pieces) * (ratio?.thousandths ?? 1000) / 1000 * crew * (1000 + allowance) / 1000)
}

function toTime(seconds: number, label: string): number {
  if (seconds > LARGEST_INTEGER) throw new Refusal(`${label} takes more than 596,523 hours: check its times and the pieces.`)
  return seconds
}
