import type { Compiled } from './compiled.ts'
import type { Team } from './teams.ts'

/** Room for the placings of one problem, used over and over. */
export interface Placing {
  readonly start: Int32Array
  readonly end: Int32Array
  /** Which of its teams each activity got. */
  readonly team: Int32Array
  /** In which bay each activity is done, −1 where it needs none. */
  readonly bay: Int32Array
  readonly isPlaced: Uint8Array
  /** What is left of each resource, tick by tick. */
  readonly left: Int16Array
  /** Where the last try to place everything ended; null where it did not. */
  stuck: Stuck | null
}

export interface Stuck {
  readonly activity: number
  /** “too early”: pinned before what it waits for is done, which is at `tick`. */
  readonly why: 'nobody is free' | 'bay is taken' | 'too early' | 'no room'
  readonly tick: number | null
}

/** An empty placing for a compiled problem. Source: none, an arrangement of ours. */
export function newPlacing({ count, base }: Compiled): Placing {
  const numbers = (length: number): Int32Array => new Int32Array(length)
  return { start: numbers(count), end: numbers(count), team: numbers(count), bay: numbers(count).fill(-1), isPlaced: new Uint8Array(count), left: new Int16Array(base.length), stuck: null }
}

/**
 * From which tick a team can do an activity, not before `from`, given what is left; −1 where the horizon is too near.
 * The end is left in `found.end`.
 *
 * Source: earliest resource-feasible start of serial schedule generation (Kelley 1963, from memory); pauses are common
 * practice, no source.
 */
export function fit(compiled: Compiled, activity: number, team: Team, from: number, left: Int16Array, found: { end: number }): number {
  const work = compiled.work[activity]!
  if (team.open === null) return fitAnyTime(compiled, work, team, from, left, found)
  return fitOpenTime(compiled, work, team, from, left, found, compiled.mayPause[activity] === 1)
}

function fitAnyTime({ horizon }: Compiled, work: number, { takes }: Team, from: number, left: Int16Array, found: { end: number }): number {
  let start = from
  again: while (start + work <= horizon) {
    for (let tick = start + work - 1; tick >= start; tick -= 1) {
      for (let at = 0; at < takes.length; at += 3) {
        if (left[takes[at]! * horizon + tick]! < takes[at + 1]!) {
          start = tick + 1
          continue again
        }
      }
    }
    found.end = start + work
    return start
  }
  return -1
}

function fitOpenTime({ horizon, base }: Compiled, work: number, { takes, open, nextOpen, holds }: Team, from: number, left: Int16Array, found: { end: number }, mayPause: boolean): number {
  let start = nextOpen![Math.min(from, horizon)]!
  again: while (start + work <= horizon) {
    let done = 0
    let tick = start
    while (done < work) {
      if (tick >= horizon) return -1
      const isOpen = open![tick] === 1
      if (!isOpen && !mayPause) {
        start = nextOpen![tick]!
        continue again
      }
      if (!isOpen && !holds) {
        tick = nextOpen![tick]!
        continue
      }
      for (let at = 0; at < takes.length; at += 3) {
        const place = takes[at]! * horizon + tick
        if (left[place]! < takes[at + 1]! && (isOpen || (takes[at + 2] === 1 && base[place]! >= takes[at + 1]!))) {
          start = nextOpen![tick + 1]!
          continue again
        }
      }
      if (isOpen) done += 1
      tick += 1
    }
    found.end = tick
    return start
  }
  return -1
}

/** When that ends which began at a tick: with whom of its team is there from then on. Source: as `fit`. */
export function endOfBegun({ fixedAt, work, horizon }: Pick<Compiled, 'fixedAt' | 'work' | 'horizon'>, activity: number, { open }: Team): number {
  let end = fixedAt[activity]!
  for (let done = 0; done < work[activity]! && end < horizon; end += 1) done += open === null ? 1 : open[end]!
  return end
}

/** Takes what a team needs from start to end. Source: as `fit`. */
export function take({ horizon }: Pick<Compiled, 'horizon'>, { takes, open }: Team, start: number, end: number, left: Int16Array): void {
  for (let at = 0; at < takes.length; at += 3) {
    const from = takes[at]! * horizon
    const units = takes[at + 1]!
    const always = open === null || takes[at + 2] === 1
    for (let tick = start; tick < end; tick += 1) if (always || open[tick] === 1) left[from + tick]! -= units
  }
}
