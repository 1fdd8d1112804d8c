import type { Compiled } from './compiled.ts'
import type { Placing } from './placing.ts'
import { insertInOrder, OPEN, tellSpans } from './stays.ts'

/** Which vehicle is in which bay while a plan is made. */
export interface Bays {
  readonly isBold: boolean
  /** The bay in which an activity can be done from one tick to another, −1 where none is free; then `nextTry` tells more. */
  roomFor(activity: number, from: number, to: number): number
  /** The next tick at which it is worth asking again, −1 where there is none. */
  nextTry(): number
  hold(activity: number, bay: number): void
  /** The first activity to place so that a vehicle that is kept in may leave; −1 where none is kept in a bay this one could have. */
  toFinishFirst(stay: number): number
  /** The next activity of a vehicle that is kept in for it; −1 where it is not. */
  nextOfKept(stay: number): number
  /** Whether no two vehicles are in one bay at once, once all is placed. */
  isSound(): boolean
}

interface Taken {
  /** −1 where the bay is closed. */
  readonly stay: number
  readonly from: number
  readonly to: number
}

/**
 * Nothing in the bays yet but the vehicles that stand there. An activity is fitted in where its vehicle can be in a bay:
 * it goes on with the span before or after it, or the vehicle comes in anew, between two spans of others as well. Who has to
 * be kept in comes only where nobody has the bay later; where `isBold`, before others too, and the caller has to place at
 * once all that the vehicle is kept in for.
 *
 * Source: as `tellSpans`; to finish first what is kept in is ours.
 */
export function beginBays(compiled: Compiled, order: Int32Array, placing: Placing, isBold: boolean): Bays {
  const { stays, membersOf, stayOf, waitAfter, bayOf, work, isInAlready } = compiled
  const { start, end, bay, isPlaced } = placing
  bay.fill(-1)
  const rank = new Int32Array(isPlaced.length)
  for (let place = 0; place < order.length; place += 1) rank[order[place]!] = place
  const own = membersOf.map(({ length }) => new Int32Array(length))
  const placedOf = new Int32Array(stays.length)
  const keptIn = new Int32Array(stays.length).fill(-1)
  const takenIn = new Map<number, Taken[]>([...compiled.closed].map(([one, times]) => [one, times.map(({ from, to }) => ({ stay: -1, from, to }))]))
  const finishing = new Set<number>()
  const tried = new Int32Array(Math.max(0, ...own.map(({ length }) => length)) + 1)
  let settling = -1
  const settle = (stay: number): void => {
    for (const one of stays[stay]!) {
      const taken = takenIn.get(one)!
      if (taken.some((other) => other.stay === stay)) takenIn.set(one, taken.filter((other) => other.stay !== stay))
    }
    settling = stay
    keptIn[stay] = -1
    tellSpans(compiled, placing, stay, own[stay]!, placedOf[stay]!, placedOf[stay]! < membersOf[stay]!.length, addTaken)
  }
  const addTaken = (from: number, to: number, one: number): void => {
    const taken = takenIn.get(one)!
    let place = taken.length
    while (place > 0 && taken[place - 1]!.from > from) place -= 1
    taken.splice(place, 0, { stay: settling, from, to })
    if (to >= OPEN) keptIn[settling] = one
  }
  stays.forEach((_, stay) => { if (isInAlready[stay] && membersOf[stay]!.length > 0) settle(stay) })

  // The span an activity would be part of, as told last.
  let asked = -1
  let spanFrom = 0
  let spanTo = 0
  let spanBay = -1
  let canBe = false
  const note = (from: number, to: number, one: number, isTorn: boolean, first: number, last: number): void => {
    let place = first
    while (place <= last && tried[place] !== asked) place += 1
    if (place > last) return
    spanFrom = from
    spanTo = isBold && to >= OPEN ? doneBy(first, last) + compiled.roll[stayOf[asked]!]! : to
    spanBay = one
    const stay = stayOf[asked]!
    const isThere = from === 0 && isInAlready[stay] && first === 0
    canBe = !isTorn && (isThere || tried[first] !== asked || from === start[asked]! - compiled.roll[stay]!)
  }
  const doneBy = (first: number, last: number): number => {
    let done = 0
    for (let place = first; place <= last; place += 1) done = Math.max(done, end[tried[place]!]! + waitAfter[tried[place]!]!)
    return done
  }
  let next = -1
  const tryAt = (tick: number, now: number): void => { if (tick > now && (next === -1 || tick < next)) next = tick }

  const isFree = (one: number, stay: number): boolean => {
    for (const taken of takenIn.get(one)!) if (taken.stay !== stay && taken.from < spanTo && spanFrom < taken.to) return false
    return true
  }

  /** The earliest tick after `now` at which a vehicle could have come in and be done, as now the bay is taken; −1 where there is none. */
  const roomAfter = (one: number, stay: number, now: number, length: number): number => {
    const roll = compiled.roll[stay]!
    let at = now
    for (const taken of takenIn.get(one)!) if (taken.stay !== stay && taken.to > at - roll && taken.from < (at === now ? spanTo : at + length + roll)) at = taken.to + roll
    return at >= OPEN ? -1 : at
  }

  /** How little is moved for it: 2 its own bay, 1 one nobody is pushed out of, 0 any; of these where it was free for less long. */
  const ease = (one: number, stay: number): number => {
    let before: Taken | null = null
    let after: Taken | null = null
    for (const taken of takenIn.get(one)!) {
      if (taken.to <= spanFrom) before = taken
      else if (after === null && taken.from >= spanFrom) after = taken
    }
    if (before === null) return OPEN
    const comesBack = before.stay >= 0 && (after?.stay === before.stay || placedOf[before.stay]! < membersOf[before.stay]!.length)
    return (before.stay === stay ? 2 : comesBack ? 0 : 1) * OPEN + before.to
  }

  return {
    isBold,
    roomFor(activity, from, to) {
      const stay = stayOf[activity]!
      start[activity] = from
      end[activity] = to
      bay[activity] = bayOf[activity]!
      asked = activity
      const count = insertInOrder(tried, own[stay]!, placedOf[stay]!, activity, placing)
      tellSpans(compiled, placing, stay, tried, count, count < membersOf[stay]!.length, note)
      bay[activity] = -1
      let best = -1
      let most = -1
      if (canBe && spanBay !== -1 && isFree(spanBay, stay)) return spanBay
      if (canBe && spanBay === -1) {
        for (const one of stays[stay]!) {
          if (!isFree(one, stay)) continue
          const value = ease(one, stay)
          if (value > most) {
            most = value
            best = one
          }
        }
      }
      if (best === -1) lookAhead(activity, from)
      return best
    },
    nextTry: () => next,
    hold(activity, one) {
      const stay = stayOf[activity]!
      bay[activity] = one
      placedOf[stay] = insertInOrder(own[stay]!, own[stay]!.slice(), placedOf[stay]!, activity, placing)
      settle(stay)
      finishing.delete(activity)
    },
    toFinishFirst(stay) {
      let first = -1
      let soonest = Infinity
      for (let other = 0; other < stays.length; other += 1) {
        if (other === stay || keptIn[other] === -1 || !stays[stay]!.includes(keptIn[other]!)) continue
        const unplaced = membersOf[other]!.filter((member) => isPlaced[member] === 0)
        const lastRank = Math.max(...unplaced.map((member) => rank[member]!))
        if (lastRank >= soonest || unplaced.some((member) => finishing.has(member))) continue
        soonest = lastRank
        first = unplaced.reduce((best, member) => (rank[member]! < rank[best]! ? member : best))
      }
      if (first !== -1) finishing.add(first)
      return first
    },
    isSound: () => [...takenIn.values()].every((times) => times.every((one, place) => times.every((other, at) => at <= place || other.stay === one.stay || other.from >= one.to || one.from >= other.to))),
    nextOfKept(stay) {
      if (keptIn[stay] === -1) return -1
      return membersOf[stay]!.reduce((first, member) => (isPlaced[member] === 0 && (first === -1 || rank[member]! < rank[first]!) ? member : first), -1)
    },
  }

  /** Finds the next tick at which anything about the bays is different for an activity. */
  function lookAhead(activity: number, now: number): void {
    const stay = stayOf[activity]!
    const roll = compiled.roll[stay]!
    const least = Math.max(1, 2 * roll)
    next = -1
    tryAt(roll, now)
    tryAt(least, now)
    for (let place = 0; place < placedOf[stay]!; place += 1) {
      const one = own[stay]![place]!
      const over = end[one]!
      const waited = over + waitAfter[one]!
      if (waited + least <= now) continue
      tryAt(over, now)
      tryAt(over + least, now)
      tryAt(waited, now)
      tryAt(waited + least, now)
    }
    if (spanBay !== -1) {
      for (const taken of takenIn.get(spanBay)!) if (taken.stay !== stay && taken.to < OPEN) tryAt(taken.to + roll, now)
      return
    }
    const length = spanTo >= OPEN ? OPEN : work[activity]!
    for (const one of stays[stay]!) tryAt(roomAfter(one, stay, now, length), now)
  }
}
