import type { Compiled } from './compiled.ts'
import type { Placing } from './placing.ts'
import type { Visit } from './problem.ts'

/**
 * A time in which a vehicle cannot leave its bay: it is worked on, kept in, or not left alone for long enough. `from`: with
 * rolling in; for a vehicle that stands there, from the beginning. `to`: with rolling out; `OPEN` as long as an activity is
 * not placed that a vehicle is kept in for. `bay`: −1 where none of its activities has one yet. `isTorn`: they have
 * different ones, which cannot be. `first` and `last`: which of the given activities, by place; none where `last` is before
 * `first`.
 */
export type TellSpan = (from: number, to: number, bay: number, isTorn: boolean, first: number, last: number) => void

export const OPEN = 2 ** 30

/**
 * Tells the spans of one vehicle, from the first `count` of `placed`: those of its activities that have a place, in order
 * of their starts. It may be rolled out between two of them where nothing before keeps it in and the time is long enough
 * for rolling out and in again. `isOpen`: others of its activities have no place yet.
 *
 * Source: the rule of shops with lifts and bays, common practice, no source.
 */
export function tellSpans(compiled: Compiled, placing: Placing, stay: number, placed: Int32Array, count: number, isOpen: boolean, tell: TellSpan): void {
  const { start, end } = placing
  const roll = compiled.roll[stay]!
  const least = Math.max(1, 2 * roll)
  const stands = compiled.isInAlready[stay] === true
  let until = !stands || compiled.mayRollOut[stay] === true ? 0 : count > 0 ? start[placed[0]!]! : isOpen ? OPEN : 0
  let from = 0
  let bay = stands ? compiled.stays[stay]![0]! : -1
  let isTorn = false
  let first = 0
  let isBegun = stands
  for (let place = 0; place < count; place += 1) {
    const activity = placed[place]!
    if (isBegun && start[activity]! - until >= least) {
      tell(from, until >= OPEN ? OPEN : until + roll, bay, isTorn, first, place - 1)
      isBegun = false
    }
    if (!isBegun) {
      from = Math.max(0, start[activity]! - roll)
      until = 0
      bay = -1
      isTorn = false
      first = place
      isBegun = true
    }
    until = Math.max(until, compiled.keepsIn[activity] === 1 ? keptUntil(compiled, placing, placed, count, place, isOpen) : end[activity]!)
    const own = placing.bay[activity]!
    if (own !== -1 && bay !== -1 && own !== bay) isTorn = true
    if (bay === -1) bay = own
  }
  if (isBegun) tell(from, until >= OPEN ? OPEN : until + roll, bay, isTorn, first, count - 1)
}

function keptUntil({ waitAfter }: Compiled, { start, end }: Placing, placed: Int32Array, count: number, place: number, isOpen: boolean): number {
  const over = end[placed[place]!]!
  const waited = over + waitAfter[placed[place]!]!
  for (let next = place + 1; next < count; next += 1) if (start[placed[next]!]! >= over) return Math.max(waited, start[placed[next]!]!)
  return isOpen ? OPEN : waited
}

/** Puts an activity among others in order of their starts, ends and places, and tells how many there are then. */
export function insertInOrder(into: Int32Array, from: Int32Array, count: number, activity: number, { start, end }: Placing): number {
  let place = count
  while (place > 0 && isLater(from[place - 1]!)) {
    into[place] = from[place - 1]!
    place -= 1
  }
  into[place] = activity
  for (let before = 0; before < place; before += 1) into[before] = from[before]!
  return count + 1

  function isLater(other: number): boolean {
    if (start[other] !== start[activity]) return start[other]! > start[activity]!
    return end[other] === end[activity] ? other > activity : end[other]! > end[activity]!
  }
}

/**
 * When each vehicle has which bay in a plan that is made. It stays until another one needs the bay, or until it goes to
 * another bay itself, and leaves after the last of its work.
 *
 * Source: as `tellSpans`.
 */
export function listVisits(compiled: Compiled, placing: Placing): Visit[] {
  const { start, end } = placing
  const needed: Visit[] = []
  compiled.membersOf.forEach((members, stay) => {
    const placed = Int32Array.from([...members].sort((one, other) => start[one]! - start[other]! || end[one]! - end[other]!))
    if (placed.length > 0) tellSpans(compiled, placing, stay, placed, placed.length, false, (fromTick, toTick, bay) => needed.push({ stay, bay, fromTick, toTick }))
  })
  const closed = [...compiled.closed].flatMap(([bay, times]) => times.map(({ from, to }): Visit => ({ stay: -1, bay, fromTick: from, toTick: to })))
  const others = [...needed, ...closed]
  const visits: Visit[] = []
  needed.forEach((one, place) => {
    const before = visits.at(-1)
    const next = needed[place + 1]
    const goesOn = next?.stay === one.stay
    const nextHere = Math.min(...others.flatMap((other) => (other.bay === one.bay && other.stay !== one.stay && (other.fromTick >= one.toTick || other.toTick > one.toTick) ? [Math.max(one.toTick, other.fromTick)] : [])))
    const toTick = goesOn ? Math.max(one.toTick, Math.min(nextHere, next!.fromTick)) : one.toTick
    if (before?.stay === one.stay && before.bay === one.bay && before.toTick === one.fromTick && !isCrossed(before.toTick, one)) visits[visits.length - 1] = { ...before, toTick }
    else visits.push({ ...one, toTick })
  })
  return visits

  /** Another is there for no time at all at the very tick between. */
  function isCrossed(tick: number, { bay, stay }: Visit): boolean {
    return others.some((other) => other.bay === bay && other.stay !== stay && other.fromTick === tick && other.toTick === tick)
  }
}
