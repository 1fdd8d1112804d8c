import type { Random } from '../random.ts'
import type { Compiled } from './compiled.ts'
import type { Tried } from './leastChange.ts'
import type { End } from './problem.ts'

/** In which order things are placed, and what of each is let go of what the plan in force says. */
export interface Choice {
  readonly key: Float64Array
  /** May begin at another time than it was to. */
  readonly isFree: Uint8Array
  readonly hasFreePeople: Uint8Array
  /** By stay. */
  readonly hasFreeBay: Uint8Array
  /** Placed with each vehicle that is kept in finished at once. */
  readonly isBold: boolean
}

export interface Ground {
  readonly compiled: Compiled
  readonly ends: readonly End[]
  /** By the plan in force. */
  readonly endsBefore: readonly (number | null)[]
  readonly isNew: readonly boolean[]
  /** With nothing let go. */
  readonly usual: Choice
  readonly mayGo: readonly boolean[]
}

/**
 * A choice beside the one given: something of an end that is late, or later than it was, is let go and comes earlier;
 * something that had to move is given to others, or comes after all else, wherever there is room; or what was let go is
 * put back. Source: ours, no source.
 */
export function mutate(tried: Tried, ground: Ground, random: Random): Choice {
  const choice = copyOf(tried.choice)
  for (let times = 1 + Math.floor(random() * 3); times > 0; times -= 1) mutateOnce(choice, tried, ground, random)
  return choice
}

function mutateOnce(choice: Choice, { schedule, moves }: Tried, ground: Ground, random: Random): void {
  const { ends, endsBefore, isNew, mayGo, compiled } = ground
  const pick = <One>(list: readonly One[]): One | undefined => list[Math.floor(random() * list.length)]
  const startOf = (activity: number): number => schedule.placed[activity]!.startTick
  const late = ends.filter(({ activity, dueTick, weight }, place) => weight > 0 && schedule.placed[activity]!.endTick > Math.min(dueTick, endsBefore[place] ?? dueTick))
  const drawn = random()
  if (late.length > 0 && drawn < 0.55) {
    const chain = earlierOf(compiled, pick(late)!.activity).filter((one) => mayGo[one])
    if (random() < 0.3) {
      const sooner = random() * Math.max(1, ...chain.map(startOf))
      for (const one of chain) letGo(choice, one, startOf(one) - sooner)
      return
    }
    const one = pick(chain)
    if (one === undefined) return
    if (random() < 0.3) return makeRoom(one)
    letGo(choice, one, random() * startOf(one))
    if (random() < 0.5) choice.hasFreePeople[one] = 1
    return
  }
  if (drawn < 0.85) {
    const one = pick(moves.flatMap((move, activity) => (mayGo[activity] && (move?.isMoved || isNew[activity]) ? [activity] : [])))
    if (one === undefined) return
    if (random() < 0.4) return makeRoom(one)
    if (random() < 0.2) return comeLast(choice, laterOf(compiled, one).filter((other) => mayGo[other]), ground)
    const how = random()
    if (how < 0.4) choice.hasFreePeople[one] = 1 - choice.hasFreePeople[one]!
    else if (how < 0.6 && compiled.stayOf[one]! >= 0) choice.hasFreeBay[compiled.stayOf[one]!] = 1 - choice.hasFreeBay[compiled.stayOf[one]!]!
    else if (how < 0.8) letGo(choice, one, random() * startOf(one))
    else choice.key[one] = startOf(one) * (1 + random())
    return
  }
  const one = pick(letGone(choice, ground))
  if (one !== undefined) putBack(choice, one, ground)

  /** What takes the people or the bay of another goes to others, or comes after it. */
  function makeRoom(other: number): void {
    const { resources, startTick } = schedule.placed[other]!
    const asked = random() < 0.5 ? resources : compiled.teams[other]!.flatMap(({ takes }) => [...takes].filter((_, at) => at % 3 === 0))
    const taking = pick(schedule.placed.flatMap((placed, activity) => (activity !== other && mayGo[activity] && placed.startTick <= startTick && placed.resources.some((resource) => asked.includes(resource)) ? [activity] : [])))
    if (taking === undefined) return
    if (random() < 0.5) choice.hasFreePeople[taking] = 1
    else choice.key[taking] = startTick + random()
    if (random() < 0.5) choice.key[other] = Math.min(choice.key[other]!, startOf(taking) - random())
  }
}

/** After all that stands where it stood, in the order it had. */
export function comeLast(choice: Choice, activities: readonly number[], { compiled, usual }: Pick<Ground, 'compiled' | 'usual'>): void {
  for (const one of activities) choice.key[one] = usual.key[one]! + 3 * compiled.horizon
}

/** What may begin, be done or come otherwise than by the plan in force. Source: none, a comparison. */
export const letGone = (choice: Choice, { mayGo, usual }: Ground): number[] =>
  mayGo.flatMap((may, one) => (may && (choice.key[one] !== usual.key[one] || choice.hasFreePeople[one] === 1 || choice.isFree[one] !== usual.isFree[one]) ? [one] : []))

/** A choice with one thing put back. Source: none. */
export function withBack(choice: Choice, activity: number, ground: Ground): Choice {
  const copy = copyOf(choice)
  putBack(copy, activity, ground)
  return copy
}

function putBack(choice: Choice, activity: number, { usual }: Ground): void {
  choice.key[activity] = usual.key[activity]!
  choice.isFree[activity] = usual.isFree[activity]!
  choice.hasFreePeople[activity] = 0
}

function letGo(choice: Choice, activity: number, key: number): void {
  choice.isFree[activity] = 1
  choice.key[activity] = key
}

/** All that has to be finished before an activity, and it itself. */
function earlierOf({ before }: Compiled, activity: number): number[] {
  const found = new Set([activity])
  for (const one of found) for (let at = 0; at < before[one]!.length; at += 2) found.add(before[one]![at]!)
  return [...found]
}

/** An activity, and all that has to wait for it. Source: none, a walk through the links. */
export function laterOf({ after }: Compiled, activity: number): number[] {
  const found = new Set([activity])
  for (const one of found) for (let at = 0; at < after[one]!.length; at += 2) found.add(after[one]![at]!)
  return [...found]
}

export const copyOf = ({ key, isFree, hasFreePeople, hasFreeBay, isBold }: Choice): Choice => ({ isBold, key: key.slice(), isFree: isFree.slice(), hasFreePeople: hasFreePeople.slice(), hasFreeBay: hasFreeBay.slice() })
