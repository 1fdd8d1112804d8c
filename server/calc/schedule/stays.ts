import type { Compiled } from './compiled.ts'
import type { Placing } from './placing.ts'
import type { Visit } from './problem.ts'

/** A time in which a vehicle cannot leave its bay: it is worked on, kept in, or not left alone for long enough. */
export interface Span {
  /** With rolling in; for a vehicle that stands there, from the beginning. */
  readonly from: number
  /** With rolling out; `OPEN` as long as the next activity is not placed that a vehicle is kept in for. */
  readonly to: number
  /** −1 where no activity of it has a bay yet. */
  readonly bay: number
  /** Its activities have different bays, which cannot be. */
  readonly isTorn: boolean
  readonly members: readonly number[]
}

export const OPEN = 2 ** 30

/**
 * The spans of one vehicle, from those of its activities that have a place, in order of their starts. It may be rolled
 * out between two of them where nothing before keeps it in and the time is long enough for rolling out and in again.
 * `isOpen`: others of its activities have no place yet.
 *
 * Source: the rule of shops with lifts and bays, common practice, no source.
 */
export function spansOf(compiled: Compiled, { start, end, bay }: Placing, stay: number, placed: readonly number[], isOpen: boolean): Span[] {
  const { isInAlready, mayRollOut, keepsIn, waitAfter, stays } = compiled
  const roll = compiled.roll[stay]!
  const spans: Span[] = []
  const firstStart = placed.length > 0 ? start[placed[0]!]! : isOpen ? OPEN : 0
  const stands = isInAlready[stay] === true
  let own = { from: 0, until: stands && mayRollOut[stay] !== true ? firstStart : 0, bay: stands ? stays[stay]![0]! : -1, isTorn: false, members: [] as number[] }
  let isBegun = stands
  const close = (): void => void spans.push({ from: own.from, to: own.until >= OPEN ? OPEN : own.until + roll, bay: own.bay, isTorn: own.isTorn, members: own.members })
  placed.forEach((activity, place) => {
    if (isBegun && start[activity]! - own.until >= Math.max(1, 2 * roll)) {
      close()
      isBegun = false
    }
    if (!isBegun) own = { from: Math.max(0, start[activity]! - roll), until: 0, bay: -1, isTorn: false, members: [] }
    isBegun = true
    own.members.push(activity)
    own.until = Math.max(own.until, keepsIn[activity] === 1 ? keptUntil(place) : end[activity]!)
    if (own.bay !== -1 && bay[activity]! !== -1 && bay[activity] !== own.bay) own.isTorn = true
    if (own.bay === -1) own.bay = bay[activity]!
  })
  if (isBegun) close()
  return spans

  function keptUntil(place: number): number {
    const over = end[placed[place]!]!
    const next = placed.find((activity, at) => at > place && start[activity]! >= over)
    return Math.max(over + waitAfter[placed[place]!]!, next === undefined ? (isOpen ? OPEN : 0) : start[next]!)
  }
}

/** In order of their starts. */
export const inOrder = (members: readonly number[], { start, end }: Placing): number[] => [...members].sort((one, other) => start[one]! - start[other]! || end[one]! - end[other]!)

/**
 * When each vehicle has which bay in a plan that is made. It stays until another one needs the bay, or until it goes to
 * another bay itself, and leaves after the last of its work.
 *
 * Source: as `spansOf`.
 */
export function listVisits(compiled: Compiled, placing: Placing): Visit[] {
  const needed: Visit[] = compiled.membersOf.flatMap((members, stay) => (members.length === 0 ? [] : spansOf(compiled, placing, stay, inOrder(members, placing), false)
    .map(({ from, to, bay }) => ({ stay, bay, fromTick: from, toTick: to }))))
  const closed = [...compiled.closed].flatMap(([bay, times]) => times.map(({ from, to }): Visit => ({ stay: -1, bay, fromTick: from, toTick: to })))
  const others = [...needed, ...closed]
  const visits: Visit[] = []
  needed.forEach((one, place) => {
    const before = visits.at(-1)
    const next = needed[place + 1]
    const goesOn = next?.stay === one.stay
    const nextHere = Math.min(...others.flatMap((other) => (other.bay === one.bay && other.stay !== one.stay && other.fromTick >= one.toTick ? [other.fromTick] : [])))
    const stayed: Visit = { ...one, toTick: goesOn ? Math.max(one.toTick, Math.min(nextHere, next!.fromTick)) : one.toTick }
    if (before?.stay === one.stay && before.bay === one.bay && before.toTick === one.fromTick && isFree(before.toTick, one)) visits[visits.length - 1] = { ...before, toTick: stayed.toTick }
    else visits.push(stayed)
  })
  return visits

  /** Nobody comes at the very tick at which a vehicle would be rolled out and in again. */
  function isFree(tick: number, { bay, stay }: Visit): boolean {
    return !others.some((other) => other.bay === bay && other.stay !== stay && other.fromTick <= tick && other.toTick >= tick && other.fromTick === other.toTick)
  }
}
