import { LARGEST_INTEGER } from '../amounts.ts'
import { Refusal, toWhole } from '../refusal.ts'
import { roundHalfAway } from '../rounding.ts'

/** Of which the curve is said to hold: each piece by itself, or the average of all pieces so far. */
export const LEARNING_MODELS = ['unit', 'cumulative average'] as const
export type LearningModel = typeof LEARNING_MODELS[number]

export interface Learning {
  readonly model: LearningModel
  /** 800: with each doubling of the pieces the time falls to 80 %. */
  readonly rateThousandths: number
}

/** At half, all further pieces would take nothing. */
export const LEAST_RATE_THOUSANDTHS = 510
export const LARGEST_RATE_THOUSANDTHS = 1000

// Up to here piece by piece; what comes after is the sum by Euler and Maclaurin, whose next term is below one in 10¹⁵.
const PIECES_ONE_BY_ONE = 1_000

/**
 * How many times the first piece's time the first n pieces take. No unit, no rounding; pieces up to 2³¹ − 1.
 *
 * Without a learning curve n; unit model 1 + 2^b + … + n^b; cumulative average n × n^b; b = log₂ rate.
 * Refuses a rate outside 51 to 100 %.
 * Source: unit (Crawford) and cumulative average (Wright) curves as in the package learningCurve 1.1.2.
 * @example equivalentPieces(null, 12) // 12
 */
export function equivalentPieces(learning: Learning | null, pieces: number): number {
  if (toWhole(pieces, 0, 'The pieces of a batch') > LARGEST_INTEGER) throw new Refusal('A batch holds 2,147,483,647 pieces at most.')
  if (learning === null || pieces === 0) return pieces
  const exponent = exponentOf(learning.rateThousandths)
  if (learning.model === 'cumulative average') return pieces ** (1 + exponent)
  return sumOfPowers(pieces, exponent)
}

/**
 * Time of the pieces from one to another, both counted, when the first piece of all takes `firstS`. Seconds, rounded once.
 *
 * Refuses what `equivalentPieces` refuses, and pieces that are not counted upward from 1.
 * @example timeOfPieces(360000, 2, 4, { model: 'cumulative average', rateThousandths: 800 }) // 561600
 */
export function timeOfPieces(firstS: number, from: number, to: number, learning: Learning | null): number {
  if (toWhole(from, 1, 'The first piece') > to) throw new Refusal('Pieces are counted upward: the last is no smaller than the first.')
  return roundHalfAway(firstS * (equivalentPieces(learning, to) - equivalentPieces(learning, from - 1)))
}

function exponentOf(rateThousandths: number): number {
  toWhole(rateThousandths, LEAST_RATE_THOUSANDTHS, 'The learning rate in thousandths')
  if (rateThousandths > LARGEST_RATE_THOUSANDTHS) throw new Refusal('A learning rate is 100 % at most: later pieces take no longer.')
  return Math.log2(rateThousandths / 1000)
}

function sumOfPowers(pieces: number, exponent: number): number {
  const last = Math.min(pieces, PIECES_ONE_BY_ONE)
  let sum = 0
  for (let piece = 1; piece <= last; piece++) sum += piece ** exponent
  return pieces === last ? sum : sum + restOfPowers(last, pieces, exponent)
}

/** The powers of first + 1 … last: integral, half the ends, and the first correction by Euler and Maclaurin. */
function restOfPowers(first: number, last: number, exponent: number): number {
  const integral = (last ** (exponent + 1) - first ** (exponent + 1)) / (exponent + 1)
  const ends = (last ** exponent - first ** exponent) / 2
  const slopes = exponent * (last ** (exponent - 1) - first ** (exponent - 1)) / 12
  return integral + ends + slopes
}
