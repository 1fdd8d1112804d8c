import { divideHalfAway } from '../rounding.ts'

/** The times of an operation, in seconds: set-up once for the batch, run for each piece. */
export interface RunTimes {
  readonly setUpS: number
  readonly runS: number
  /** Optimistic and pessimistic run; null where no range was given. */
  readonly bestS: number | null
  readonly worstS: number | null
}

interface Took {
  /** Person-seconds as estimated for all pieces, without an allowance for rework. */
  readonly estimatedS: number
  /** Person-seconds of work logged; rework is not in it, the allowance covers that. */
  readonly workS: number
  readonly crew: number
  readonly pieces: number
}

/**
 * Set-up and run (s) with which the same pieces would have been estimated at what was logged: both stand to each other
 * as they were estimated, whatever learning they were estimated with. Where nothing was logged they stay; where nothing
 * was estimated all of it becomes run. Each is rounded to the second, half away from zero.
 * Source: rule of three; common practice, none published.
 *
 * @example toLoggedTimes({ setUpS: 1800, runS: 3600, bestS: null, worstS: null }, { estimatedS: 9000, workS: 13500, crew: 1, pieces: 2 }) // { setUpS: 2700, runS: 5400, bestS: null, worstS: null }
 */
export function toLoggedTimes(times: RunTimes, { estimatedS, workS, crew, pieces }: Took): RunTimes {
  if (workS === 0) return times
  if (estimatedS === 0) return { setUpS: 0, runS: divided(workS, crew * Math.max(pieces, 1)), bestS: null, worstS: null }
  const scaled = (seconds: number): number => Number(divideHalfAway(BigInt(seconds) * BigInt(workS), BigInt(estimatedS)))
  const { setUpS, runS, bestS, worstS } = times
  return { setUpS: scaled(setUpS), runS: scaled(runS), bestS: bestS === null ? null : scaled(bestS), worstS: worstS === null ? null : scaled(worstS) }
}

const divided = (seconds: number, by: number): number => Number(divideHalfAway(BigInt(seconds), BigInt(by)))
