import type { Compiled } from './compiled.ts'
import type { Placing } from './placing.ts'
import type { Visit } from './problem.ts'

/** Which bay is held by which vehicle while a plan is made. */
export interface Stays {
  /** A stay to finish before this one can begin, because every bay it could have is held; null where one is free. */
  toFinishFirst(stay: number): number | null
  unplacedOf(stay: number): readonly number[]
  /** The bay a stay has, or the one that is free first. Null where none is. */
  bayFor(stay: number): number | null
  /** From when a stay may use its bay: for one that has begun, its beginning. */
  freeFrom(stay: number, bay: number): number
  hold(stay: number, bay: number, activity: number): void
}

const HELD = -1

/**
 * Nothing in the bays yet but what is fixed there. A vehicle keeps its bay until the last of its stay is placed.
 * Source: the rule of shops with lifts and bays, common practice, no source; to finish a stay that has begun is ours.
 */
export function beginStays({ stays, membersOf, fixedBayOf, isInAlready }: Compiled, order: Int32Array, { bay, isPlaced, start, end }: Placing): Stays {
  bay.fill(-1)
  const rank = new Int32Array(isPlaced.length)
  order.forEach((activity, place) => { rank[activity] = place })
  const freeAt = new Map<number, number>(stays.flatMap((bays) => bays.map((one) => [one, 0] as const)))
  const from = new Int32Array(stays.length)
  const finishing = new Set<number>()
  stays.forEach(([first], stay) => {
    if (!isInAlready[stay] || first === undefined || membersOf[stay]!.length === 0) return
    bay[stay] = first
    freeAt.set(first, HELD)
  })
  const unplacedOf = (stay: number): number[] => membersOf[stay]!.filter((member) => isPlaced[member] === 0).sort((one, other) => rank[one]! - rank[other]!)
  const lastRank = (stay: number): number => Math.max(...unplacedOf(stay).map((member) => rank[member]!))
  const freeBay = (stay: number): number | null => {
    const free = stays[stay]!.filter((one) => freeAt.get(one) !== HELD)
    return free.length === 0 ? null : free.reduce((best, one) => (freeAt.get(one)! < freeAt.get(best)! ? one : best))
  }
  return {
    toFinishFirst(stay) {
      if (bay[stay] !== -1 || freeBay(stay) !== null) return null
      const open = stays.flatMap((_, other) => (bay[other] !== -1 && !finishing.has(other) && unplacedOf(other).length > 0 && stays[stay]!.includes(bay[other]!) ? [other] : []))
      const first = open.length === 0 ? null : open.reduce((best, other) => (lastRank(other) < lastRank(best) ? other : best))
      if (first !== null) finishing.add(first)
      return first
    },
    unplacedOf,
    bayFor: (stay) => (bay[stay] !== -1 ? bay[stay]! : fixedBayOf[stay] ?? freeBay(stay)),
    freeFrom: (stay, one) => (bay[stay] !== -1 ? from[stay]! : Math.max(freeAt.get(one)!, 0)),
    hold(stay, one, activity) {
      from[stay] = bay[stay] === -1 ? start[activity]! : Math.min(from[stay]!, start[activity]!)
      bay[stay] = one
      const isOver = membersOf[stay]!.every((member) => isPlaced[member] === 1)
      freeAt.set(one, isOver ? Math.max(...membersOf[stay]!.map((member) => end[member]!)) : HELD)
    },
  }
}

/** When each vehicle has which bay in a plan that is made. Source: as `beginStays`. */
export function listVisits({ membersOf, isInAlready }: Compiled, { bay, start, end }: Placing): Visit[] {
  return membersOf.flatMap((members, stay) => (members.length === 0 ? [] : [{
    stay, bay: bay[stay]!, fromTick: isInAlready[stay] ? 0 : Math.min(...members.map((member) => start[member]!)), toTick: Math.max(...members.map((member) => end[member]!)),
  }]))
}
