import type { Compiled } from './compiled.ts'
import { fit, take, type Placing } from './placing.ts'
import { beginStays, type Stays } from './stays.ts'

/**
 * Places activities one after the other, each as early as it fits with those already placed (serial schedule
 * generation; Kelley 1963, from memory). Before an activity whatever it waits for is placed. False where something does
 * not fit before the horizon.
 */
export function placeInOrder(compiled: Compiled, order: Int32Array, placing: Placing): boolean {
  placing.left.set(compiled.base)
  placing.isPlaced.fill(0)
  const stays = compiled.stays.length === 0 ? null : beginStays(compiled, order, placing)
  for (let activity = 0; activity < compiled.count; activity += 1) if (compiled.fixedAt[activity]! >= 0) placeFixed(compiled, activity, placing, stays)
  for (const activity of order) if (!placeWithEarlier(compiled, activity, placing, stays)) return false
  return true
}

function placeWithEarlier(compiled: Compiled, activity: number, placing: Placing, stays: Stays | null): boolean {
  if (placing.isPlaced[activity] === 1) return true
  const before = compiled.before[activity]!
  for (let at = 0; at < before.length; at += 2) if (!placeWithEarlier(compiled, before[at]!, placing, stays)) return false
  const stay = compiled.stayOf[activity]!
  if (stays === null || stay < 0) return placeAlone(compiled, activity, placing, readyAt(compiled, activity, placing))
  for (let open = stays.toFinishFirst(stay); open !== null; open = stays.toFinishFirst(stay)) {
    for (const member of stays.unplacedOf(open)) if (!placeWithEarlier(compiled, member, placing, stays)) return false
  }
  const bay = stays.bayFor(stay)
  if (bay === null || !placeAlone(compiled, activity, placing, Math.max(readyAt(compiled, activity, placing), stays.freeFrom(stay, bay)))) return false
  stays.hold(stay, bay, activity)
  return true
}

function readyAt({ before, earliest }: Compiled, activity: number, { end }: Placing): number {
  const links = before[activity]!
  let ready = earliest[activity]!
  for (let at = 0; at < links.length; at += 2) ready = Math.max(ready, end[links[at]!]! + links[at + 1]!)
  return ready
}

const found = { end: 0 }

function placeAlone(compiled: Compiled, activity: number, placing: Placing, from: number): boolean {
  const teams = compiled.teams[activity]!
  let best = -1
  let start = 0
  let end = 0
  for (let place = 0; place < teams.length; place += 1) {
    const at = fit(compiled, activity, teams[place]!, from, placing.left, found)
    if (at < 0 || (best >= 0 && found.end >= end)) continue
    best = place
    start = at
    end = found.end
  }
  if (best < 0) return false
  put(compiled, activity, placing, { best, start, end })
  return true
}

/** What has begun or is pinned stands where it stands, whatever else is there. */
function placeFixed(compiled: Compiled, activity: number, placing: Placing, stays: Stays | null): void {
  const start = compiled.fixedAt[activity]!
  const open = compiled.teams[activity]![0]!.open
  let end = start
  for (let done = 0; done < compiled.work[activity]! && end < compiled.horizon; end += 1) done += open === null ? 1 : open[end]!
  put(compiled, activity, placing, { best: 0, start, end })
  const stay = compiled.stayOf[activity]!
  if (stays !== null && stay >= 0) stays.hold(stay, stays.bayFor(stay)!, activity)
}

function put(compiled: Compiled, activity: number, placing: Placing, { best, start, end }: { best: number, start: number, end: number }): void {
  placing.start[activity] = start
  placing.end[activity] = end
  placing.team[activity] = best
  placing.isPlaced[activity] = 1
  take(compiled, compiled.teams[activity]![best]!, start, end, placing.left)
}
