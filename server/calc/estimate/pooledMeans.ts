import { sumOf } from '../grouping.ts'
import { Refusal } from '../refusal.ts'

/** Values of one group, told by what is needed of them. */
export interface GroupSums {
  readonly count: number
  readonly mean: number
  /** Sum of the squared distances from the mean. */
  readonly squares: number
}

/** What is taken for true before there are any values, and how many degrees of freedom that is worth. */
export interface Beforehand {
  readonly within: { readonly variance: number, readonly weight: number }
  readonly between: { readonly variance: number, readonly weight: number }
  /** The mean over all groups is taken to lie around 0 with this variance; infinite where nothing is known. */
  readonly meanVariance: number
}

export const NOTHING_BEFOREHAND: Beforehand = { within: { variance: 0, weight: 0 }, between: { variance: 0, weight: 0 }, meanVariance: Infinity }

export interface PooledMean {
  readonly mean: number
  readonly variance: number
  /** How far the group's own mean counts: count ÷ (count + within ÷ between). */
  readonly weight: number
}

export interface PooledMeans {
  readonly withinVariance: number
  readonly betweenVariance: number
  /** Of all groups together, and what is taken for a group that has no values. */
  readonly overall: Omit<PooledMean, 'weight'>
  of(group: Pick<GroupSums, 'count' | 'mean'>): PooledMean
}

export function sumsOf(values: readonly number[]): GroupSums {
  const mean = values.length === 0 ? 0 : sumOf(values, (value) => value) / values.length
  return { count: values.length, mean, squares: sumOf(values, (value) => (value - mean) ** 2) }
}

/**
 * Variance within and between groups, from mean squares set equal to what they are on average; the one between may come
 * out below 0. `freedom` counts the values beyond one a group.
 *
 * Unit: that of the values, squared. Refuses no groups at all and groups without values.
 * Source: analysis of variance of one way with random groups of unequal size; checked against the published dyestuff
 * yields of Davies and Goldsmith 1972.
 * @example varianceParts([{ count: 2, mean: 1, squares: 2 }, { count: 2, mean: 5, squares: 2 }]) // { within: 2, between: 7, freedom: 2 }
 */
export function varianceParts(groups: readonly GroupSums[]): { within: number, between: number, freedom: number } {
  if (groups.length === 0 || groups.some(({ count }) => count < 1)) throw new Refusal('Every group has at least one value.')
  const all = sumOf(groups, ({ count }) => count)
  const mean = sumOf(groups, (group) => group.count * group.mean) / all
  const freedom = all - groups.length
  const within = freedom === 0 ? 0 : sumOf(groups, ({ squares }) => squares) / freedom
  if (groups.length === 1) return { within, between: 0, freedom }
  const meanSquare = sumOf(groups, (group) => group.count * (group.mean - mean) ** 2) / (groups.length - 1)
  const usualCount = (all - sumOf(groups, ({ count }) => count ** 2) / all) / (groups.length - 1)
  return { within, between: (meanSquare - within) / usualCount, freedom }
}

/**
 * The mean of each group drawn towards that of all groups, the more the fewer values it has: partial pooling. The
 * variance between groups is never below 0. What is taken beforehand counts as so many values more.
 *
 * Unit: that of the values. Not rounded. Refuses what `varianceParts` refuses.
 * Source: empirical Bayes by the method of moments; checked against the published random effects of the dyestuff yields.
 * @example groups of 1 ± 1 and 5 ± 1, two values each, nothing beforehand: means 1.5 and 4.5
 */
export function poolMeans(groups: readonly GroupSums[], beforehand: Beforehand): PooledMeans {
  const { within, between, freedom } = varianceParts(groups)
  const withinVariance = mixed(within, freedom, beforehand.within)
  const betweenVariance = Math.max(mixed(between, groups.length - 1, beforehand.between), 0)
  const precisionOf = ({ count }: GroupSums): number => 1 / (betweenVariance + withinVariance / count)
  const precision = sumOf(groups, precisionOf) + 1 / beforehand.meanVariance
  const overall = { mean: sumOf(groups, (group) => precisionOf(group) * group.mean) / precision, variance: 1 / precision }
  return {
    withinVariance, betweenVariance, overall,
    of: ({ count, mean }) => {
      const weight = betweenVariance === 0 ? 0 : count / (count + withinVariance / betweenVariance)
      return {
        weight, mean: overall.mean + weight * (mean - overall.mean),
        variance: betweenVariance * (1 - weight) + (1 - weight) ** 2 * overall.variance,
      }
    },
  }
}

function mixed(found: number, freedom: number, { variance, weight }: Beforehand['within']): number {
  return freedom + weight === 0 ? 0 : (found * freedom + variance * weight) / (freedom + weight)
}
