import type { Resource } from './problem.ts'
import type { ShopFacts } from './shopProblem.ts'

/** From one instant to another, in milliseconds since 1970. */
export interface Stretch {
  readonly fromMs: number
  readonly toMs: number
}

/** 1 for each tick that lies wholly in somebody's hours, 0 for the others. Source: common practice, no source. */
export function hoursByTick(hours: readonly Stretch[], { fromMs, tickMs, horizonTicks }: Pick<ShopFacts, 'fromMs' | 'tickMs' | 'horizonTicks'>): Int16Array {
  const there = new Int16Array(horizonTicks)
  for (const stretch of hours) {
    const first = Math.max(0, Math.ceil((stretch.fromMs - fromMs) / tickMs))
    const end = Math.min(horizonTicks, Math.floor((stretch.toMs - fromMs) / tickMs))
    if (first < end) there.fill(1, first, end)
  }
  return there
}

/**
 * The ticks from one to another in which a whole team is there, in stretches: each its first tick and the one after its last.
 *
 * Source: common practice, no source.
 */
export function workingStretches(team: readonly Resource[], startTick: number, endTick: number): (readonly [number, number])[] {
  const found: [number, number][] = []
  for (let tick = startTick; tick < endTick; tick += 1) {
    if (!team.every(({ capacity }) => typeof capacity === 'number' ? capacity > 0 : capacity[tick]! > 0)) continue
    const last = found.at(-1)
    if (last?.[1] === tick) last[1] = tick + 1
    else found.push([tick, tick + 1])
  }
  return found
}

type Ticks = Pick<ShopFacts, 'tickMs'>

/** Milliseconds in ticks, a begun one full. Source: our choice, no source. */
export const ticksOf = (milliseconds: number, { tickMs }: Ticks): number => Math.ceil(milliseconds / tickMs)

/** Person-seconds in ticks of so many people together. Source: as above. */
export const workTicks = (seconds: number, units: number, { tickMs }: Ticks): number => Math.ceil(seconds * 1000 / units / tickMs)
