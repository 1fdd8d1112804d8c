import { blendQuantiles } from './blendedQuantiles.ts'
import type { Quantiles } from './blendedQuantiles.ts'
import { groupBy, sumOf } from '../grouping.ts'
import { poolMeans, sumsOf, varianceParts } from './pooledMeans.ts'
import type { Beforehand, PooledMean } from './pooledMeans.ts'
import { roundHalfAway, scaleHalfAway } from '../rounding.ts'

/** A closed operation: person-seconds, the estimate as typed, without allowance and without any correction. */
export interface HourRecord {
  readonly buildId: string
  readonly kind: string
  readonly departmentId: string
  readonly estimatedS: number
  readonly workS: number
  readonly reworkS: number
}

/** How the hours of one operation kind in one department have run. Thousandths: 1300 is 1.3 × the estimate. */
export interface LearnedRatio {
  readonly kind: string
  readonly departmentId: string
  /** Closed operations with an estimate and with work logged. */
  readonly records: number
  readonly ratio: number
  /** 80 of 100 such ratios lie between the two. */
  readonly low: number
  readonly high: number
  /** Before it was drawn towards the shop’s. */
  readonly ownRatio: number
  /** How far its own records count. */
  readonly weight: number
  /** Rework logged, of the work logged. */
  readonly reworkShare: number
  /** What a share of all operations does not exceed, as a multiple of the estimate, not rounded: one that equals it is inside. */
  quantile(share: number): number
  /** So many seconds times that, in the middle of so many equal parts of all operations. */
  quantiles(count: number, scale: number): Float64Array
}

export interface HourHistory {
  readonly records: number
  readonly builds: number
  readonly groups: readonly LearnedRatio[]
  /** Of the shop as a whole: what is taken where a kind has no records of its own. Null without any record. */
  readonly shop: LearnedRatio | null
  /** How far the operations of one build went wrong together, thousandths; null where there are too few builds to tell. */
  readonly together: number | null
  of(kind: string, departmentId: string): LearnedRatio | null
}

/*
 * Ours, no source: a shop nobody has measured is taken to estimate right, give or take 15 in 100; one operation to lie
 * within 40 in 100 and a kind within 15 in 100 of the shop. Worth 8 records and 3 kinds. Logarithms.
 */
export const BEFOREHAND: Beforehand = { within: { variance: 0.4 ** 2, weight: 8 }, between: { variance: 0.15 ** 2, weight: 3 }, meanVariance: 0.15 ** 2 }

/** 80 in 100 of a normal distribution lie within so many deviations. */
const EIGHTY_IN_100 = 1.2816
const FEWEST_BUILDS = 5

/**
 * What closed operations say of estimates: for each kind and department the ratio of work logged to the estimate, drawn
 * towards the shop’s the more the fewer records there are. The ratio is a geometric mean: as many records above as below
 * it, where they fall like a lognormal distribution. Rework stands apart, as a share of the work.
 *
 * Thousandths, rounded to a hundredth once. What was not estimated or has no work is left out of the ratio.
 * Source: partial pooling as in `pooledMeans.ts`; what is taken beforehand is ours.
 * @example one record that took twice its estimate: 1.1 × the estimate; a hundred such: 2 ×
 */
export function learnHours(records: readonly HourRecord[]): HourHistory {
  const counted = records.filter(({ estimatedS, workS }) => estimatedS > 0 && workS > 0).map(toCounted)
  const nothing: HourHistory = { records: 0, builds: 0, groups: [], shop: null, together: null, of: () => null }
  if (counted.length === 0) return nothing
  const byKey = groupBy(counted, ({ key }) => key)
  const sums = new Map([...byKey].map(([key, own]) => [key, sumsOf(own.map(({ log }) => log))]))
  const pooled = poolMeans([...sums.values()], BEFOREHAND)
  const means = new Map([...sums].map(([key, own]) => [key, pooled.of(own)]))
  const aroundMean = ({ key, log }: Counted): number => log - (means.get(key)?.mean ?? 0)
  const around = (own: readonly Counted[]): Float64Array => Float64Array.from(own, aroundMean).sort()
  const all = around(counted)
  const reworked = groupBy(records, keyOf)
  const shop = toLearned({ ...pooled.overall, weight: 0 }, sumsOf(counted.map(({ log }) => log)).mean, { own: counted, reworked: records, fallen: () => blendQuantiles([], all) })
  const groups = new Map([...byKey].map(([key, own]) => [key, toLearned(
    means.get(key) ?? { ...pooled.overall, weight: 0 }, sums.get(key)?.mean ?? 0,
    { own, reworked: reworked.get(key) ?? [], fallen: () => blendQuantiles(around(own), all) },
  )]))
  return {
    records: counted.length, builds: new Set(counted.map(({ record }) => record.buildId)).size, groups: [...groups.values()], shop,
    together: togetherOf(counted, aroundMean),
    of: (kind, departmentId) => groups.get(keyOf({ kind, departmentId })) ?? { ...shop, kind, departmentId, records: 0, reworkShare: 0 },
  }
}

/** A record that counts, with the logarithm of its ratio. */
interface Counted {
  readonly record: HourRecord
  readonly key: string
  readonly log: number
}

const toCounted = (record: HourRecord): Counted => ({ record, key: keyOf(record), log: Math.log(record.workS / record.estimatedS) })
const keyOf = ({ kind, departmentId }: Pick<HourRecord, 'kind' | 'departmentId'>): string => `${departmentId} ${kind}`
const inThousandths = (log: number): number => 10 * Math.max(roundHalfAway(100 * Math.exp(log)), 1)

interface Of {
  readonly own: readonly Counted[]
  readonly reworked: readonly HourRecord[]
  /** Made when it is asked for: most are not. */
  readonly fallen: () => Quantiles
}

function toLearned({ mean, variance, weight }: PooledMean, ownMean: number, { own, reworked, fallen }: Of): LearnedRatio {
  const reach = EIGHTY_IN_100 * Math.sqrt(variance)
  const workS = sumOf(reworked, (record) => record.workS)
  let made: Quantiles | null = null
  const around = (): Quantiles => (made ??= fallen())
  return {
    kind: own[0]?.record.kind ?? '', departmentId: own[0]?.record.departmentId ?? '', records: own.length,
    ratio: inThousandths(mean), low: inThousandths(mean - reach), high: inThousandths(mean + reach), ownRatio: inThousandths(ownMean),
    weight: roundHalfAway(1000 * weight), reworkShare: workS === 0 ? 0 : scaleHalfAway(sumOf(reworked, ({ reworkS }) => reworkS), 1000, workS),
    quantile: (share) => Math.exp(mean + around().at(share)), quantiles: (count, scale) => around().evenly(count, (log) => scale * Math.exp(mean + log)),
  }
}

/** The part of what is left over that all operations of a build share. */
function togetherOf(counted: readonly Counted[], aroundMean: (one: Counted) => number): number | null {
  const byBuild = [...groupBy(counted, ({ record }) => record.buildId).values()].filter(({ length }) => length > 1)
  if (byBuild.length < FEWEST_BUILDS) return null
  const { within, between } = varianceParts(byBuild.map((own) => sumsOf(own.map(aroundMean))))
  const shared = Math.max(between, 0)
  return within + shared === 0 ? 0 : roundHalfAway(1000 * shared / (within + shared))
}
