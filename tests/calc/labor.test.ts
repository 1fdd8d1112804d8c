import assert from 'node:assert/strict'
import fc from 'fast-check'
import jstat from 'jstat'
import t from 'tap'
import type { Test } from 'tap'
import { equivalentPieces, timeOfPieces } from '../../server/calc/estimate/learning.ts'
import type { Learning } from '../../server/calc/estimate/learning.ts'
import { Refusal } from '../../server/calc/refusal.ts'
import { findRunningOver } from '../../server/calc/costing/runningOver.ts'
import { deviationOf, meanOf } from '../../server/calc/estimate/threePoint.ts'

const RUNS = { numRuns: 100, seed: 20_240_614 }
const HOUR = 3_600
const unit = (rateThousandths: number): Learning => ({ model: 'unit', rateThousandths })
const average = (rateThousandths: number): Learning => ({ model: 'cumulative average', rateThousandths })
const near = (t: Pick<Test, 'ok'>, found: number, printed: number, relative: number) =>
  t.ok(Math.abs(found - printed) <= relative * printed, `${found} against ${printed}`)

t.test('the cumulative average model gives the totals of a management accounting text', async t => {
  // A management accounting text, first batch 100 hours, 80 %: totals 100, 160, 256, 409.6, 655.36.
  const printed = [[1, 100], [2, 160], [4, 256], [8, 409.6], [16, 655.36]] as const
  for (const [pieces, total] of printed) near(t, 100 * equivalentPieces(average(800), pieces), total, 1e-12)
  // Its batches between: 60, 96, 153.6, and 245.76 for 9 to 16, where the page prints 254.76 and 30.72 each.
  const batches = [[2, 2, 60], [3, 4, 96], [5, 8, 153.6], [9, 16, 8 * 30.72]] as const
  for (const [from, to, total] of batches) t.equal(timeOfPieces(100 * HOUR, from, to, average(800)), Math.round(total * HOUR))
})

t.test('the unit model falls to the rate with each doubling', async t => {
  // The same 80 % by the unit model: 100, 80, 70.21, 64 … and running totals, as tables of the curve print them.
  const pieces = [100, 80, 70.21, 64, 59.56, 56.17, 53.45, 51.2]
  const totals = [100, 180, 250.21, 314.21, 373.77, 429.94, 483.39, 534.59]
  pieces.forEach((hours, index) => near(t, timeOfPieces(100 * HOUR, index + 1, index + 1, unit(800)) / HOUR, hours, 1e-4))
  totals.forEach((hours, index) => near(t, 100 * equivalentPieces(unit(800), index + 1), hours, 1e-4))
})

t.test('both models answer as the published learning-curve package does', async t => {
  // learningCurve 1.1.2, rendered vignette: a = 100, 125 pieces, 85 %.
  near(t, 100 * equivalentPieces(unit(850), 125), 5_201.085, 1e-6)
  near(t, 100 * equivalentPieces(average(850), 125), 4_029.559, 1e-6)
  near(t, 100 * (equivalentPieces(unit(850), 125) - equivalentPieces(unit(850), 124)), 32.23647, 1e-6)
  near(t, 100 * (equivalentPieces(average(850), 125) - equivalentPieces(average(850), 124)), 24.70136, 1e-6)
  const rates = [[800, 21.13225], [825, 26.18401], [850, 32.23647], [875, 39.44942], [900, 48.00243]] as const
  for (const [rate, printed] of rates) near(t, 100 * (equivalentPieces(unit(rate), 125) - equivalentPieces(unit(rate), 124)), printed, 1e-6)
})

t.test('millions of pieces are summed without a stall, and agree with adding them one by one', async t => {
  let slow = 0
  for (let piece = 1; piece <= 1_000_000; piece++) slow += piece ** Math.log2(0.8)
  near(t, equivalentPieces(unit(800), 1_000_000), slow, 1e-12)
  const before = performance.now()
  for (let round = 0; round < 100; round++) equivalentPieces(unit(800), 2_147_483_647)
  t.ok(performance.now() - before < 2_000, 'a hundred of the largest batches within two seconds')
})

t.test('a learning curve that cannot be is refused', async t => {
  for (const rate of [0, 500, 1_001, 800.5]) t.throws(() => equivalentPieces(unit(rate), 2), Refusal)
  t.throws(() => equivalentPieces(unit(800), 2_147_483_648), { message: /2,147,483,647/ })
  t.throws(() => equivalentPieces(null, -1), Refusal)
  t.throws(() => timeOfPieces(HOUR, 3, 2, null), { message: /counted upward/ })
  t.throws(() => timeOfPieces(HOUR, 0, 2, null), Refusal)
})

const learnings = fc.option(fc.record({ model: fc.constantFrom('unit', 'cumulative average'), rateThousandths: fc.integer({ min: 510, max: 1000 }) }))
  .map(learning => learning as Learning | null)

t.test('a batch never takes less than its first piece, never more than all at the first piece’s time, and batches add up', async () => {
  fc.assert(fc.property(learnings, fc.integer({ min: 1, max: 5_000 }), fc.integer({ min: 1, max: 5_000 }), (learning, first, more) => {
    const [some, all] = [equivalentPieces(learning, first), equivalentPieces(learning, first + more)]
    assert.ok(some >= 1 - 1e-9 && all > some && all <= (first + more) * (1 + 1e-9))
    const whole = timeOfPieces(HOUR, 1, first, learning) + timeOfPieces(HOUR, first + 1, first + more, learning)
    assert.ok(Math.abs(whole - timeOfPieces(HOUR, 1, first + more, learning)) <= 1, 'to the second')
    assert.equal(equivalentPieces(unit(1000), first), first, 'at 100 % nobody learns')
  }), RUNS)
})

// A published PERT lecture (G. Chopra et al.): O, M, P in weeks → te, variance. Its sum line misprints the first term as 2.
const LECTURE = [
  ['1-2', 3, 6, 15, 7, 4], ['2-3', 6, 12, 30, 14, 16], ['3-5', 5, 11, 17, 11, 4], ['7-8', 4, 19, 28, 18, 16], ['5-8', 1, 4, 7, 4, 1],
  ['6-7', 3, 9, 27, 11, 16], ['4-5', 3, 6, 15, 7, 4], ['1-6', 2, 5, 14, 6, 4], ['2-4', 2, 5, 8, 5, 1],
] as const

t.test('three values give the expected times, variances and the path of the published lecture', async t => {
  const days = (weeks: number) => weeks * 86_400
  for (const [activity, best, likely, worst, expected, variance] of LECTURE) {
    t.equal(meanOf({ bestS: days(best), likelyS: days(likely), worstS: days(worst) }), days(expected), activity)
    t.equal(deviationOf([days(worst - best)]), days(Math.sqrt(variance)), activity)
  }
  const alongThe = (path: readonly string[]) => LECTURE.filter(([activity]) => path.includes(activity))
  const critical = alongThe(['1-2', '2-3', '3-5', '5-8'])
  const sum = (rows: typeof critical) => rows.reduce((total, [, bestS, likelyS, worstS]) => total + meanOf({ bestS, likelyS, worstS }), 0)
  t.equal(sum(critical), 36)
  t.equal(sum(alongThe(['1-2', '2-4', '4-5', '5-8'])), 23)
  t.equal(sum(alongThe(['1-6', '6-7', '7-8'])), 35)
  t.equal(deviationOf(critical.map(([, best, , worst]) => worst - best)), 5)
})

t.test('the deviation is the classic one; a beta distribution through the same values has another', async t => {
  // jstat: O 2, M 5, P 14 as a beta distribution with α = 1 + 4(M − O)/(P − O) has mean 6 and sd 2.13809.
  const beta = jstat.beta.variance(1 + 4 * 3 / 12, 1 + 4 * 9 / 12) ** 0.5 * 12
  near(t, beta, 2.13809, 1e-5)
  t.equal(deviationOf([12 * HOUR]), 2 * HOUR)
  t.equal(meanOf({ bestS: 2, likelyS: 5, worstS: 14 }), 6)
})

t.test('values out of order are refused, and a root is right at any size', async t => {
  t.throws(() => meanOf({ bestS: 7, likelyS: 6, worstS: 15 }), { message: /no longer than/ })
  t.throws(() => meanOf({ bestS: 3, likelyS: 16, worstS: 15 }), Refusal)
  t.equal(deviationOf([]), 0)
  fc.assert(fc.property(fc.array(fc.nat(2_147_483_647), { maxLength: 8 }), ranges => {
    const found = deviationOf(ranges)
    const exact = Math.sqrt(ranges.reduce((sum, range) => sum + (range / 6) ** 2, 0))
    assert.ok(Math.abs(found - exact) <= 0.5 + exact * 1e-12)
  }), RUNS)
})

// Common practice, no source: figures by hand.
t.test('an operation runs over while something can still be done about it', async t => {
  const judge = (state: 'running' | 'done', estimated: number, logged: number, remaining: number, remainingSource: 'technician' | 'estimate less logged') =>
    findRunningOver({ operation: { state }, remainingSource, figures: { estimatedS: estimated * HOUR, loggedS: logged * HOUR, forecastS: (logged + remaining) * HOUR } })
  t.equal(judge('running', 4, 3.2, 0.8, 'estimate less logged'), null, 'exactly four fifths are not yet nearly all')
  t.strictSame(judge('running', 4, 3.5, 0.5, 'estimate less logged'), { state: 'nearly used', leftS: 1_800 })
  t.equal(judge('running', 4, 3.5, 0.5, 'technician'), null, 'somebody has said what is left')
  t.strictSame(judge('running', 4, 3.5, 0.8, 'technician'), { state: 'over', overS: 1_080 })
  t.strictSame(judge('running', 4, 4.3, 0, 'estimate less logged'), { state: 'over', overS: 1_080 })
  t.equal(judge('done', 4, 6, 0, 'technician'), null, 'what is done cannot be helped')
})
