import { Refusal } from '../refusal.ts'
import type { ThreePoint } from './threePoint.ts'

const PANELS = 1_000
const MOST_SHAPES = 1_000
// Equal shapes are found again in spite of the last digits of a quotient.
const MODE_STEPS = 1_000_000

/** A distribution on 0 to 1: where it is cut, and how much of it lies below each cut. */
interface Shape {
  readonly at: Float64Array
  readonly below: Float64Array
}

const shapes = new Map<number, Shape>()

/**
 * The value that a share of all cases stays below, where a time is beta distributed between best and worst with
 * α = 1 + 4 (M − O) ÷ (P − O) and β = 1 + 4 (P − M) ÷ (P − O). In the unit of the three values, not rounded; right to
 * one part in 100,000 of the range. Refuses values out of order and shares outside 0 to 1.
 *
 * Source: beta-PERT; its quantiles as the reference library jStat gives them (checked in the tests).
 * @example pertQuantile({ bestS: 3600, likelyS: 3600, worstS: 3600 }, 0.8) // 3600
 */
export function pertQuantile(three: ThreePoint, share: number): number {
  const { bestS, likelyS, worstS } = three
  if (!(bestS <= likelyS && likelyS <= worstS)) throw new Refusal('The value at best is no more than the most likely one, and that no more than the one at worst.')
  if (!(share >= 0 && share <= 1)) throw new Refusal('A share of cases lies between none and all of them.')
  const range = worstS - bestS
  if (range === 0) return bestS
  return bestS + range * quantileOf(shapeOf(Math.round(MODE_STEPS * (likelyS - bestS) / range) / MODE_STEPS), share)
}

/** Its variance, (range)² α β ÷ ((α + β)² (α + β + 1)) with α + β = 6. */
export function pertVariance({ bestS, likelyS, worstS }: ThreePoint): number {
  const range = worstS - bestS
  if (range === 0) return 0
  const mode = (likelyS - bestS) / range
  return range ** 2 * (1 + 4 * mode) * (5 - 4 * mode) / 252
}

function quantileOf({ at, below }: Shape, share: number): number {
  let [low, high] = [0, PANELS]
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if ((below[middle] ?? 1) <= share) low = middle
    else high = middle
  }
  const [from = 0, to = 1, left = 0, right = 1] = [below[low], below[high], at[low], at[high]]
  return to === from ? right : left + (right - left) * (share - from) / (to - from)
}

function shapeOf(mode: number): Shape {
  const known = shapes.get(mode)
  if (known) return known
  const shape = integrate(mode)
  // A shop has a few dozen shapes; a generated world must not fill the memory.
  if (shapes.size >= MOST_SHAPES) shapes.clear()
  shapes.set(mode, shape)
  return shape
}

/** Simpson's rule over t with x = t² (3 − 2t), which is flat at both ends, where the density may rise like a root. */
function integrate(mode: number): Shape {
  const density = (t: number): number => xOf(t) ** (4 * mode) * (1 - xOf(t)) ** (4 - 4 * mode) * 6 * t * (1 - t)
  const at = new Float64Array(PANELS + 1)
  const below = new Float64Array(PANELS + 1)
  for (let panel = 1; panel <= PANELS; panel++) {
    const [from, to] = [(panel - 1) / PANELS, panel / PANELS]
    at[panel] = xOf(to)
    below[panel] = (below[panel - 1] ?? 0) + (density(from) + 4 * density((from + to) / 2) + density(to)) / (6 * PANELS)
  }
  const all = below[PANELS] ?? 1
  return { at, below: below.map((sum) => sum / all) }
}

const xOf = (t: number): number => t * t * (3 - 2 * t)
