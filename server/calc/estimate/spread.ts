import { middleOf } from './blendedQuantiles.ts'
import { Refusal, toWhole } from '../refusal.ts'
import { roundHalfAway } from '../rounding.ts'

/** Something whose size is unsure: the value that a share of all cases stays below. Any unit, the same for all. */
export interface Unsure {
  readonly label: string
  quantile(share: number): number
  /** The same in the middle of so many equal parts of all cases, where that is found at once. */
  quantiles?(count: number): Float64Array
}

export interface SpreadQuestion {
  readonly sure: number
  readonly unsure: readonly Unsure[]
  /** Thousandths: 0 where nothing that goes wrong has to do with anything else, 1000 where all goes wrong together. */
  readonly togetherThousandths: number
}

export interface Spread {
  readonly mean: number
  readonly deviation: number
  /** The whole value that this share of all cases stays below. */
  percentile(share: number): number
  /** The share of all cases that stay at or below a value. */
  shareWithin(value: number): number
}

/** So many cases are drawn; the sampling error of an 80-in-100 value is then about a fiftieth of one deviation. */
export const CASES = 5_000

/**
 * The distribution of a sum of unsure things. In each case some of them are long together: with the chance
 * √(together) a thing follows the luck of the whole case, else its own, so that any two go together by `together`.
 * All luck is spread evenly over the cases, and the same question has the same answer.
 *
 * Percentiles of a sum are no sums of percentiles, but where all goes together entirely.
 * Refuses a share of going together outside 0 to 1000 thousandths.
 * Source: a common-factor model, common practice, no source; closed forms and jStat in the tests.
 * @example toSpread({ sure: 3600, unsure: [], togetherThousandths: 0 }).percentile(0.8) // 3600
 */
export function toSpread({ sure, unsure, togetherThousandths }: SpreadQuestion, cases: Cases = drawCases(togetherThousandths)): Spread {
  if (cases.togetherThousandths !== togetherThousandths) throw new Refusal('These cases were drawn for another question.')
  const sums = new Float64Array(CASES).fill(sure)
  unsure.forEach((thing, index) => addTo(sums, valuesOf(thing), cases.placesOf(index)))
  sums.sort()
  return readOff(sums)
}

/** Where each unsure thing stands in each case, drawn as they are asked for: the same for all questions of one share of going together. */
export interface Cases {
  readonly togetherThousandths: number
  placesOf(index: number): Uint32Array
}

/**
 * Draws the cases once for several questions. Refuses what `toSpread` refuses of the share.
 * @example the first thing of any two questions is long in the same cases
 */
export function drawCases(togetherThousandths: number): Cases {
  if (toWhole(togetherThousandths, 0, 'How far things go wrong together') > 1000) throw new Refusal('Things go wrong together in at most 100 of 100.')
  const draw = seeded(CASES)
  const ofCase = shuffled(Uint32Array.from({ length: CASES }, (_, index) => index), draw)
  const chance = Math.sqrt(togetherThousandths / 1000)
  const drawn: Uint32Array[] = []
  return {
    togetherThousandths,
    placesOf: (index) => {
      while (drawn.length <= index) drawn.push(placesOf(ofCase, chance, draw))
      return drawn[index] ?? ofCase
    },
  }
}

function valuesOf({ quantile, quantiles }: Unsure): Float64Array {
  if (quantiles) return quantiles(CASES)
  const values = new Float64Array(CASES)
  for (let place = 0; place < CASES; place++) values[place] = quantile(middleOf(place, CASES))
  return values
}

/** Adds one thing's value to each case. Over all cases it has each of its values once, so that it alone comes out exactly. */
function addTo(sums: Float64Array, values: Float64Array, places: Uint32Array): void {
  for (let index = 0; index < CASES; index++) sums[index] = (sums[index] ?? 0) + (values[places[index] ?? 0] ?? 0)
}

/** Where one thing stands in each case: some cases follow the luck of the case, the others share out what is left of it anew. */
function placesOf(ofCase: Uint32Array, chance: number, draw: () => number): Uint32Array {
  const order = shuffled(Uint32Array.from({ length: CASES }, (_, index) => index), draw)
  const own = order.slice(Math.round(chance * CASES))
  const left = shuffled(own.map((index) => ofCase[index] ?? 0), draw)
  const places = ofCase.slice()
  own.forEach((index, each) => { places[index] = left[each] ?? 0 })
  return places
}

function readOff(sums: Float64Array): Spread {
  const mean = sums.reduce((total, value) => total + value, 0) / CASES
  const variance = sums.reduce((total, value) => total + (value - mean) ** 2, 0) / CASES
  return {
    mean: roundHalfAway(mean), deviation: roundHalfAway(Math.sqrt(variance)),
    percentile: (share) => roundHalfAway(between(sums, share)),
    shareWithin: (value) => countWithin(sums, value) / CASES,
  }
}

function between(sums: Float64Array, share: number): number {
  const place = Math.min(Math.max(share * CASES - 0.5, 0), CASES - 1)
  const [low = 0, high = low] = [sums[Math.floor(place)], sums[Math.ceil(place)]]
  return low + (high - low) * (place - Math.floor(place))
}

function countWithin(sums: Float64Array, value: number): number {
  let [low, high] = [0, CASES]
  while (low < high) {
    const middle = (low + high) >> 1
    if ((sums[middle] ?? Infinity) <= value) low = middle + 1
    else high = middle
  }
  return low
}

function shuffled(places: Uint32Array, draw: () => number): Uint32Array {
  for (let last = places.length - 1; last > 0; last--) {
    const other = Math.floor(draw() * (last + 1))
    const kept = places[last] ?? 0
    places[last] = places[other] ?? 0
    places[other] = kept
  }
  return places
}

/** Evenly spread numbers from 0 to 1, always the same row from the same beginning (xorshift, Marsaglia 2003). */
function seeded(beginning: number): () => number {
  let state = beginning >>> 0
  return () => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    return (state >>> 0) / 4_294_967_296
  }
}
