import type { Compiled } from './compiled.ts'
import type { Placing } from './placing.ts'
import { inOrder, OPEN, spansOf, type Span } from './stays.ts'

/** Which vehicle is in which bay while a plan is made. */
export interface Bays {
  /** The bay in which an activity can be done from one tick to another, −1 where none is free; then `nextTry` tells more. */
  roomFor(activity: number, from: number, to: number): number
  /** The next tick at which it is worth asking again, −1 where there is none. */
  nextTry(): number
  hold(activity: number, bay: number): void
  /** The first activity to place so that a vehicle that is kept in may leave; −1 where none is kept in a bay this one could have. */
  toFinishFirst(stay: number): number
}

interface Taken {
  /** −1 where the bay is closed. */
  readonly stay: number
  readonly from: number
  readonly to: number
}

/**
 * Nothing in the bays yet but the vehicles that stand there. An activity is fitted in where its vehicle can be in a bay:
 * it goes on with the span before or after it, or the vehicle comes in anew, between two spans of others as well.
 *
 * Source: as `spansOf`; to finish first what is kept in is ours.
 */
export function beginBays(compiled: Compiled, order: Int32Array, placing: Placing): Bays {
  const { stays, membersOf, stayOf, waitAfter, bayOf, closed, work } = compiled
  const { start, end, bay, isPlaced } = placing
  bay.fill(-1)
  const rank = new Int32Array(isPlaced.length)
  order.forEach((activity, place) => { rank[activity] = place })
  const own: number[][] = stays.map(() => [])
  const spans: Span[][] = stays.map(() => [])
  const takenIn = new Map<number, Taken[]>(stays.flatMap((bays) => bays.map((one) => [one, (closed.get(one) ?? []).map(({ from, to }) => ({ stay: -1, from, to }))] as const)))
  const isOpenWith = (stay: number, placed: number): boolean => placed < membersOf[stay]!.length
  const settle = (stay: number): void => {
    for (const { bay: one } of spans[stay]!) takenIn.set(one, takenIn.get(one)!.filter((taken) => taken.stay !== stay))
    spans[stay] = spansOf(compiled, placing, stay, own[stay]!, isOpenWith(stay, own[stay]!.length))
    for (const { bay: one, from, to } of spans[stay]!) {
      const taken = takenIn.get(one) ?? []
      taken.push({ stay, from, to })
      takenIn.set(one, taken.sort((a, b) => a.from - b.from))
    }
  }
  stays.forEach((_, stay) => { if (membersOf[stay]!.length > 0) settle(stay) })
  const finishing = new Set<number>()
  let next = -1

  const isFree = (one: number, stay: number, from: number, to: number): boolean => takenIn.get(one)!.every((taken) => taken.stay === stay || taken.from >= to || from >= taken.to)

  /** The earliest tick from `from` on at which another vehicle could have come in and be done; −1 where there is none. */
  const roomFrom = (one: number, stay: number, from: number, length: number): number => {
    const roll = compiled.roll[stay]!
    let at = from
    for (const taken of takenIn.get(one)!) {
      if (taken.stay === stay || taken.to <= at - roll || taken.from >= at + length + roll) continue
      at = taken.to + roll
    }
    return at >= OPEN ? -1 : at
  }

  /** How little is moved for it: its own bay, one nobody is pushed out of, any. */
  const pushes = (one: number, stay: number, from: number): { readonly rank: number, readonly since: number } => {
    const before = takenIn.get(one)!.filter((taken) => taken.to <= from).at(-1)
    if (before === undefined) return { rank: 1, since: 0 }
    const after = takenIn.get(one)!.find((taken) => taken.from >= from)
    const comesBack = before.stay >= 0 && (after?.stay === before.stay || isOpenWith(before.stay, own[before.stay]!.length))
    return { rank: before.stay === stay ? 0 : comesBack ? 2 : 1, since: before.to }
  }

  return {
    roomFor(activity, from, to) {
      const stay = stayOf[activity]!
      const roll = compiled.roll[stay]!
      start[activity] = from
      end[activity] = to
      bay[activity] = bayOf[activity]!
      const placed = inOrder([...own[stay]!, activity], placing)
      const span = spansOf(compiled, placing, stay, placed, isOpenWith(stay, placed.length)).find(({ members }) => members.includes(activity))!
      bay[activity] = -1
      const entersTooEarly = span.members[0] === activity && span.from > from - roll && !(span.from === 0 && compiled.isInAlready[stay] && placed[0] === activity)
      const bays = span.bay === -1 ? stays[stay]! : [span.bay]
      const free = span.isTorn || entersTooEarly ? [] : bays.filter((one) => isFree(one, stay, span.from, span.to))
      if (free.length > 0) {
        if (free.length === 1) return free[0]!
        const ranked = free.map((one) => ({ one, ...pushes(one, stay, span.from) }))
        return ranked.reduce((best, other) => (other.rank < best.rank || (other.rank === best.rank && other.since > best.since) ? other : best)).one
      }
      const tries = [roll, ...[0, ...own[stay]!.flatMap((one) => [end[one]!, end[one]! + waitAfter[one]!])].flatMap((over) => [over, over + Math.max(1, 2 * roll)])]
      const length = span.to >= OPEN ? OPEN : work[activity]!
      const among = bayOf[activity] === -1 ? stays[stay]! : [bayOf[activity]!]
      for (const one of among) tries.push(roomFrom(one, stay, from + 1, length))
      if (span.bay !== -1) for (const taken of takenIn.get(span.bay)!) if (taken.stay !== stay && taken.to < OPEN) tries.push(taken.to + roll)
      next = tries.reduce((soonest, tick) => (tick > from && (soonest === -1 || tick < soonest) ? tick : soonest), -1)
      return -1
    },
    nextTry: () => next,
    hold(activity, one) {
      const stay = stayOf[activity]!
      bay[activity] = one
      own[stay] = inOrder([...own[stay]!, activity], placing)
      settle(stay)
      finishing.delete(activity)
    },
    toFinishFirst(stay) {
      let first = -1
      let soonest = Infinity
      spans.forEach((ownSpans, other) => {
        const last = ownSpans.at(-1)
        if (other === stay || last === undefined || last.to < OPEN || !stays[stay]!.includes(last.bay)) return
        const unplaced = membersOf[other]!.filter((member) => isPlaced[member] === 0)
        const lastRank = Math.max(...unplaced.map((member) => rank[member]!))
        if (lastRank >= soonest || unplaced.some((member) => finishing.has(member))) return
        soonest = lastRank
        first = unplaced.reduce((best, member) => (rank[member]! < rank[best]! ? member : best))
      })
      if (first !== -1) finishing.add(first)
      return first
    },
  }
}
