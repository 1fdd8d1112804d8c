import { randomFrom, type Random } from '../random.ts'
import { besideBegun, type Compiled } from './compiled.ts'
import { drawOrder } from './crossing.ts'
import { rankOf, sortInto } from './improve.ts'
import { staffPinned } from './pins.ts'
import type { Placing, Stuck } from './placing.ts'
import type { End } from './problem.ts'
import { placeInOrder } from './serial.ts'
import { latestFinishes } from './urgency.ts'

/** An order that fits, and the problem it fits in: what is pinned may have other people in it than at first. */
export interface First {
  readonly compiled: Compiled
  readonly order: Int32Array
}

/** Fewer tries where each takes long: so many activities are placed at most. Ours, no source. */
const MOST_TRIES = 60
const MOST_PLACED = 8_000

/** How the first try ended. A plan may exist all the same, unless it is proven that none does. */
export interface NoFirst {
  readonly stuck: Stuck
  readonly isProven: boolean
}

/**
 * A first plan: the most urgent first; where that does not fit, in turn what got stuck earlier each time (squeaky wheel
 * optimization; Joslin and Clements 1999, from memory) and drawn orders, with what is pinned in another order and by others,
 * always the same ones. `placing` holds the plan.
 *
 * Source: as named; how much earlier is ours.
 */
export function findFirst(compiled: Compiled, ends: readonly End[], placing: Placing): First | NoFirst {
  const latest = latestFinishes(compiled, ends)
  const order = new Int32Array(compiled.count)
  sortInto(order, latest, rankOf(compiled.topological))
  if (placeInOrder(compiled, order, placing)) return { compiled, order }
  const stuck = placing.stuck!
  if ('activity' in compiled.staffed && compiled.staffed.isProven) return { stuck, isProven: true }
  const random = randomFrom(1)
  const urgent = latest.slice()
  blame(compiled, stuck, urgent)
  for (let tried = 0; tried < Math.min(MOST_TRIES, MOST_PLACED / compiled.count); tried += 1) {
    const other = 'activity' in compiled.staffed || tried % 2 === 1 ? pinnedOtherwise(compiled, random) : compiled
    if (tried % 4 !== 0) order.set(drawOrder(other, latest, random))
    else sortInto(order, urgent, rankOf(compiled.topological))
    if (placeInOrder(other, order, placing)) return { compiled: other, order }
    if (tried % 4 === 0) blame(compiled, placing.stuck!, urgent)
  }
  return { stuck, isProven: false }
}

/** What got stuck comes earlier in the next try, with all of its vehicle. */
function blame({ stayOf, membersOf, horizon }: Compiled, { activity }: Stuck, urgent: Float64Array): void {
  const stay = stayOf[activity]!
  for (const one of stay < 0 ? [activity] : membersOf[stay]!) urgent[one]! -= horizon / 4
}

/** The same with what is pinned, and what it waits for, in a drawn order, some much and some little like the first; each by any of those who can. */
function pinnedOtherwise(compiled: Compiled, random: Random): Compiled {
  if (compiled.pinned.length === 0) return compiled
  const most = random() * compiled.horizon * random()
  const keys = new Map(compiled.forPinned.map((activity) => [activity, compiled.latestFor[activity]! + random() * most]))
  return { ...compiled, forPinned: [...compiled.forPinned].sort((one, other) => keys.get(one)! - keys.get(other)!), staffed: random() < 0.5 && !('activity' in compiled.staffed) ? compiled.staffed : staffPinned(compiled, besideBegun(compiled), random) }
}
