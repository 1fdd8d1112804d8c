import type { Random } from '../random.ts'
import type { Compiled } from './compiled.ts'

const SWAP_CHANCE = 0.05

/**
 * A child of two orders: the beginning and the end as in the first, between two cuts as in the second (two-point
 * crossover for activity lists; Hartmann 1998, from memory). Neighbors change places now and then. Both orders let
 * everything follow what it needs, and so does the child.
 */
export function cross(one: Int32Array, other: Int32Array, { before }: Compiled, random: Random): Int32Array {
  const count = one.length
  const [from, to] = [Math.floor(random() * (count + 1)), Math.floor(random() * (count + 1))].sort((a, b) => a - b) as [number, number]
  const child = new Int32Array(count)
  const isIn = new Uint8Array(count)
  let filled = 0
  const fillUpTo = (most: number, source: Int32Array): void => {
    for (let at = 0; at < count && filled < most; at += 1) {
      if (isIn[source[at]!] === 1) continue
      isIn[source[at]!] = 1
      child[filled++] = source[at]!
    }
  }
  fillUpTo(from, one)
  fillUpTo(to, other)
  fillUpTo(count, one)
  for (let at = 1; at < count; at += 1) {
    if (random() >= SWAP_CHANCE || waitsFor(before[child[at]!]!, child[at - 1]!)) continue
    const moved = child[at]!
    child[at] = child[at - 1]!
    child[at - 1] = moved
  }
  return child
}

/** An order drawn by chance, what is urgent more likely early. */
export function drawOrder({ count, before, after }: Compiled, latest: Float64Array, random: Random): Int32Array {
  const waiting = Int32Array.from(before, (links) => links.length / 2)
  const free: number[] = []
  for (let activity = 0; activity < count; activity += 1) if (waiting[activity] === 0) free.push(activity)
  const order = new Int32Array(count)
  for (let place = 0; place < count; place += 1) {
    const at = drawUrgent(free, latest, random)
    const activity = free[at]!
    free[at] = free[free.length - 1]!
    free.pop()
    order[place] = activity
    const links = after[activity]!
    for (let link = 0; link < links.length; link += 2) if ((waiting[links[link]!]! -= 1) === 0) free.push(links[link]!)
  }
  return order
}

function drawUrgent(free: readonly number[], latest: Float64Array, random: Random): number {
  let last = -Infinity
  for (const activity of free) last = Math.max(last, latest[activity]!)
  let sum = 0
  for (const activity of free) sum += last - latest[activity]! + 1
  let drawn = random() * sum
  for (let at = 0; at < free.length; at += 1) {
    drawn -= last - latest[free[at]!]! + 1
    if (drawn <= 0) return at
  }
  return free.length - 1
}

function waitsFor(links: Int32Array, earlier: number): boolean {
  for (let at = 0; at < links.length; at += 2) if (links[at] === earlier) return true
  return false
}
