import fc from 'fast-check'
import jstat from 'jstat'
import t from 'tap'
import { pertQuantile, pertVariance } from '../../server/calc/estimate/betaPert.ts'
import { Refusal } from '../../server/calc/refusal.ts'
import { CASES, toSpread, type Unsure } from '../../server/calc/estimate/spread.ts'
import type { ThreePoint } from '../../server/calc/estimate/threePoint.ts'

const RUNS = { numRuns: 100, seed: 20_261_128 }
const three = (bestS: number, likelyS: number, worstS: number): ThreePoint => ({ bestS, likelyS, worstS })
const pert = (values: ThreePoint, label = 'an operation'): Unsure => ({ label, quantile: share => pertQuantile(values, share) })
const arbitraryThree = fc.tuple(fc.nat(100_000), fc.nat(100_000), fc.nat(100_000)).map(values => {
  const [bestS, likelyS, worstS] = values.toSorted((a, b) => a - b) as [number, number, number]
  return three(bestS, likelyS, worstS)
})

t.test('a single operation has the percentiles of its beta distribution, as jStat printed them', async t => {
  // jStat 1.9.6: (O, M, P), then P50, P80, P90.
  const printed = [[1, 2, 9, 2.76896, 4.10276, 4.87123], [4, 6, 10, 6.25487, 7.32490, 7.86674], [2, 5, 14, 5.76572, 7.88231, 9.00668]] as const
  for (const [best, likely, worst, ...percentiles] of printed) {
    [0.5, 0.8, 0.9].forEach((share, index) => {
      const found = pertQuantile(three(best, likely, worst), share)
      t.ok(Math.abs(found - percentiles[index]!) < 1e-5 * (worst - best), `P${share * 100} of ${best}, ${likely}, ${worst}: ${found}`)
    })
    // The deviation jStat gives with them: 1.30931, 1.10554, 2.13809.
  }
  t.match([three(1, 2, 9), three(4, 6, 10), three(2, 5, 14)].map(values => Math.sqrt(pertVariance(values)).toFixed(5)), ['1.30931', '1.10554', '2.13809'])
})

t.test('at any shape and share the reference library agrees', async () => {
  fc.assert(fc.property(arbitraryThree, fc.integer({ min: 1, max: 99 }), (values, percent) => {
    const range = values.worstS - values.bestS
    if (range === 0) return
    const mode = (values.likelyS - values.bestS) / range
    const expected = values.bestS + range * jstat.beta.inv(percent / 100, 1 + 4 * mode, 5 - 4 * mode)
    const found = pertQuantile(values, percent / 100)
    if (Math.abs(found - expected) > 2e-5 * range) throw new Error(`${found} against ${expected}`)
  }), RUNS)
})

t.test('what goes wrong together entirely adds up percentile by percentile, and nothing else does', async t => {
  const unsure = [pert(three(3600, 7200, 36_000)), pert(three(7200, 14_400, 28_800)), pert(three(1800, 3600, 18_000))]
  const sumAt = (share: number): number => unsure.reduce((sum, { quantile }) => sum + quantile(share), 0)
  const together = toSpread({ sure: 600, unsure, togetherThousandths: 1000 })
  for (const share of [0.5, 0.8, 0.9]) t.ok(Math.abs(together.percentile(share) - 600 - sumAt(share)) < 20, `P${share * 100}`)
  const apart = toSpread({ sure: 600, unsure, togetherThousandths: 0 })
  t.ok(apart.percentile(0.9) < together.percentile(0.9) - 1000, 'what goes wrong apart partly evens out')
})

t.test('mean and variance are those of the closed forms at every degree of going together', async t => {
  // Variance of a sum of n equal things with correlation r: n s² (1 + (n − 1) r); their mean: n times one.
  const one = three(3600, 7200, 18_000)
  const unsure = Array.from({ length: 40 }, () => pert(one))
  for (const together of [0, 100, 300, 700, 1000]) {
    const { mean, deviation } = toSpread({ sure: 0, unsure, togetherThousandths: together })
    const expected = Math.sqrt(40 * pertVariance(one) * (1 + 39 * together / 1000))
    t.ok(Math.abs(mean / (40 * (3600 + 4 * 7200 + 18_000) / 6) - 1) < 0.001, `mean at ${together}`)
    t.ok(Math.abs(deviation / expected - 1) < 0.04, `deviation at ${together}: ${deviation} against ${expected}`)
  }
})

t.test('many things that have nothing to do with each other come near the normal distribution', async t => {
  const unsure = Array.from({ length: 200 }, (_, index) => pert(three(3600, 5400 + index * 10, 14_400)))
  const { mean, deviation, percentile } = toSpread({ sure: 0, unsure, togetherThousandths: 0 })
  for (const share of [0.5, 0.8, 0.9]) {
    const expected = jstat.normal.inv(share, mean, deviation)
    t.ok(Math.abs(percentile(share) - expected) < 0.06 * deviation, `P${share * 100}`)
  }
})

t.test('the same question has the same answer, percentiles rise, and all stays between best and worst', async () => {
  fc.assert(fc.property(fc.array(arbitraryThree, { maxLength: 8 }), fc.nat(100_000), fc.nat(1000), (values, sure, togetherThousandths) => {
    const question = { sure, unsure: values.map(each => pert(each)), togetherThousandths }
    const [spread, again] = [toSpread(question), toSpread(question)]
    const percentiles = [0.01, 0.5, 0.8, 0.9, 0.99].map(share => spread.percentile(share))
    if (percentiles.join() !== [0.01, 0.5, 0.8, 0.9, 0.99].map(share => again.percentile(share)).join()) throw new Error('another answer')
    if (percentiles.some((value, index) => value < (percentiles[index - 1] ?? 0))) throw new Error(`${percentiles}`)
    const [least, most] = [values.reduce((sum, { bestS }) => sum + bestS, sure), values.reduce((sum, { worstS }) => sum + worstS, sure)]
    if (percentiles[0]! < least || percentiles.at(-1)! > most) throw new Error(`${percentiles} outside ${least} to ${most}`)
    const within = spread.shareWithin(spread.percentile(0.8))
    if (values.some(({ bestS, worstS }) => worstS - bestS > 100) && Math.abs(within - 0.8) > 0.02) throw new Error(`${within} within P80`)
  }), RUNS)
})

t.test('absurd questions are refused', async t => {
  t.throws(() => pertQuantile(three(2, 1, 3), 0.5), Refusal)
  t.throws(() => pertQuantile(three(1, 2, 3), 1.2), Refusal)
  t.throws(() => toSpread({ sure: 0, unsure: [], togetherThousandths: 1001 }), { message: /100 of 100/ })
  t.equal(toSpread({ sure: 3600, unsure: [], togetherThousandths: 0 }).percentile(0.9), 3600)
  t.equal(CASES, 5_000)
})
