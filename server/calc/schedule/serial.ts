import { beginBays, type Bays } from './bays.ts'
import type { Compiled } from './compiled.ts'
import { endOfBegun, fit, take, type Placing, type Stuck } from './placing.ts'

/**
 * Places activities one after the other, each as early as it fits with those already placed (serial schedule
 * generation; Kelley 1963, from memory). Before an activity whatever it waits for is placed; first of all what has begun,
 * then what is pinned. Where that gets stuck, once more with each vehicle that is kept in finished at once, so
 * that it may come before others as well. False where something does not fit before the horizon, or not where it is pinned.
 */
export function placeInOrder(compiled: Compiled, order: Int32Array, placing: Placing): boolean {
  if (placeAll(compiled, order, placing, false)) return true
  return compiled.stays.length > 0 && placing.stuck!.why !== 'nobody is free' && placeAll(compiled, order, placing, true)
}

/** The same with each vehicle that is kept in finished at once from the beginning. Source: ours, no source. */
export const placeBoldly = (compiled: Compiled, order: Int32Array, placing: Placing): boolean => compiled.stays.length > 0 && placeAll(compiled, order, placing, true)

function placeAll(compiled: Compiled, order: Int32Array, placing: Placing, isBold: boolean): boolean {
  placing.left.set(compiled.base)
  placing.isPlaced.fill(0)
  placing.stuck = null
  const bays = compiled.stays.length === 0 ? null : beginBays(compiled, order, placing, isBold)
  for (const activity of compiled.begun) placeBegun(compiled, activity, placing, bays)
  if ('activity' in compiled.staffed) return isStuck(placing, compiled.staffed.activity, 'nobody is free')
  for (const [place, activity] of compiled.pinned.entries()) reserve(compiled, activity, { best: compiled.staffed.team[place]!, end: compiled.staffed.end[place]! }, placing)
  for (const activity of compiled.forPinned) if (!placeWithEarlier(compiled, activity, placing, bays)) return false
  for (const activity of order) if (!placeWithEarlier(compiled, activity, placing, bays)) return false
  return !isBold || bays === null || bays.isSound() || isStuck(placing, order[order.length - 1]!, 'bay is taken')
}

function placeWithEarlier(compiled: Compiled, activity: number, placing: Placing, bays: Bays | null): boolean {
  if (placing.isPlaced[activity] === 1) return true
  const before = compiled.before[activity]!
  for (let at = 0; at < before.length; at += 2) if (!placeWithEarlier(compiled, before[at]!, placing, bays)) return false
  // A vehicle that was to be finished at once may have taken this along.
  if (placing.isPlaced[activity] === 1) return true
  const from = readyAt(compiled, activity, placing)
  const stay = compiled.stayOf[activity]!
  if (compiled.isPinned[activity] === 1 && from > compiled.fixedAt[activity]!) return isStuck(placing, activity, 'too early', from)
  while (!(compiled.isPinned[activity] === 1 ? placePinned(compiled, activity, placing, bays) : placeAlone(compiled, activity, placing, bays, from))) {
    const first = bays === null || stay < 0 ? -1 : bays.toFinishFirst(stay)
    if (first === -1) return isStuck(placing, activity, stay >= 0 && placeAlone(compiled, activity, placing, null, from) ? 'bay is taken' : 'no room')
    if (!placeWithEarlier(compiled, first, placing, bays)) return false
    if (placing.isPlaced[activity] === 1) return true
  }
  if (compiled.pinned.length > 0 && !isInTime(compiled, activity, placing)) return false
  if (bays === null || !bays.isBold || stay < 0) return true
  const next = bays.nextOfKept(stay)
  return next === -1 || placeWithEarlier(compiled, next, placing, bays)
}

function isStuck(placing: Placing, activity: number, why: Stuck['why'], tick: number | null = null): false {
  placing.stuck = { activity, why, tick }
  return false
}

function readyAt({ before, earliest }: Compiled, activity: number, { end }: Placing): number {
  const links = before[activity]!
  let ready = earliest[activity]!
  for (let at = 0; at < links.length; at += 2) ready = Math.max(ready, end[links[at]!]! + links[at + 1]!)
  return ready
}

const found = { end: 0 }

function placeAlone(compiled: Compiled, activity: number, placing: Placing, bays: Bays | null, ready: number): boolean {
  const teams = compiled.teams[activity]!
  const inBay = compiled.stayOf[activity]! < 0 ? null : bays
  const from = inBay === null ? ready : roomFrom(inBay, activity, { work: compiled.work[activity]!, ready, horizon: compiled.horizon })
  if (from < 0) return false
  let best = -1
  let start = 0
  let end = 0
  let bay = -1
  for (let place = 0; place < teams.length; place += 1) {
    let at = fit(compiled, activity, teams[place]!, from, placing.left, found)
    while (at >= 0 && (best < 0 || found.end < end)) {
      const until = found.end
      const room = inBay === null ? -1 : inBay.roomFor(activity, at, until)
      if (inBay === null || room >= 0) {
        best = place
        start = at
        end = until
        bay = room
        break
      }
      const next = inBay.nextTry()
      at = next < 0 ? -1 : fit(compiled, activity, teams[place]!, next, placing.left, found)
    }
  }
  if (best < 0) return false
  take(compiled, teams[best]!, start, end, placing.left)
  put(activity, placing, { best, start, end })
  inBay?.hold(activity, bay)
  return true
}

/** The first tick from which on a bay could be free for long enough, were everybody there; −1 where there is none. */
function roomFrom(bays: Bays, activity: number, { work, ready, horizon }: { readonly work: number, readonly ready: number, readonly horizon: number }): number {
  let from = ready
  while (from >= 0 && from < horizon && bays.roomFor(activity, from, from + work) < 0) from = bays.nextTry()
  return from < horizon ? from : -1
}

/** What has begun stands where it stands, whatever else is there. */
function placeBegun(compiled: Compiled, activity: number, placing: Placing, bays: Bays | null): void {
  const start = compiled.fixedAt[activity]!
  const team = compiled.teams[activity]![0]!
  const end = endOfBegun(compiled, activity, team)
  const isInBay = bays !== null && compiled.stayOf[activity]! >= 0
  const bay = isInBay ? bays.roomFor(activity, start, end) : -1
  take(compiled, team, start, end, placing.left)
  put(activity, placing, { best: 0, start, end })
  if (isInBay) bays.hold(activity, bay >= 0 ? bay : compiled.bayOf[activity]! >= 0 ? compiled.bayOf[activity]! : compiled.stays[compiled.stayOf[activity]!]![0]!)
}

/** Takes those who were chosen for a pinned activity, before anything else is placed. */
function reserve(compiled: Compiled, activity: number, { best, end }: { readonly best: number, readonly end: number }, placing: Placing): void {
  const start = compiled.fixedAt[activity]!
  take(compiled, compiled.teams[activity]![best]!, start, end, placing.left)
  placing.start[activity] = start
  placing.end[activity] = end
  placing.team[activity] = best
}

function placePinned(compiled: Compiled, activity: number, placing: Placing, bays: Bays | null): boolean {
  const start = compiled.fixedAt[activity]!
  const end = placing.end[activity]!
  const isInBay = bays !== null && compiled.stayOf[activity]! >= 0
  const bay = isInBay ? bays.roomFor(activity, start, end) : -1
  if (isInBay && bay < 0) return false
  put(activity, placing, { best: placing.team[activity]!, start, end })
  if (isInBay) bays.hold(activity, bay)
  return true
}

/** Whether what is pinned afterwards can still begin on its tick. */
function isInTime({ after, isPinned, fixedAt }: Compiled, activity: number, placing: Placing): boolean {
  const links = after[activity]!
  for (let at = 0; at < links.length; at += 2) {
    const soonest = placing.end[activity]! + links[at + 1]!
    if (isPinned[links[at]!] === 1 && soonest > fixedAt[links[at]!]!) return isStuck(placing, links[at]!, 'too early', soonest)
  }
  return true
}

function put(activity: number, placing: Placing, { best, start, end }: { best: number, start: number, end: number }): void {
  placing.start[activity] = start
  placing.end[activity] = end
  placing.team[activity] = best
  placing.isPlaced[activity] = 1
}
