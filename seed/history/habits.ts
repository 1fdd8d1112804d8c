import type { Habits, Remark } from '../builds/hours.ts'
import type { PlannedOperation } from '../builds/operations.ts'
import { pick, type Random } from '../random.ts'

/** How long work takes beside its estimate: logged ÷ estimated is lognormal, with this median and this standard deviation of its logarithm. */
export interface Habit {
  readonly median: number
  readonly spread: number
}

/*
 * INVENTED, every number below: no shop was measured. The demo's closed builds are drawn from it, so that whoever
 * learns from hours has something to find, and can be checked against what was put in. Hours of work alone;
 * rework and waiting are entries of their own and come on top.
 */
export const HABITS: Readonly<Record<string, Habit>> = {
  'design': { median: 0.9, spread: 0.3 },
  'pattern': { median: 1.1, spread: 0.2 },
  'cut': { median: 0.95, spread: 0.15 },
  'machine': { median: 1, spread: 0.15 },
  'print': { median: 1, spread: 0.1 },
  'weld': { median: 1.1, spread: 0.2 },
  'mold': { median: 1.15, spread: 0.25 },
  'laminate': { median: 1.1, spread: 0.2 },
  'fill': { median: 1.25, spread: 0.3 },
  'sand': { median: 1.4, spread: 0.3 },
  'prime': { median: 1, spread: 0.15 },
  'paint': { median: 1.1, spread: 0.25 },
  'foam': { median: 1.05, spread: 0.2 },
  'sew': { median: 1.3, spread: 0.25 },
  'wrap': { median: 1.3, spread: 0.25 },
  'damp': { median: 1, spread: 0.15 },
  'assemble': { median: 1.05, spread: 0.2 },
  'fit': { median: 1.1, spread: 0.2 },
  'wire': { median: 1.15, spread: 0.25 },
  'tune': { median: 1.2, spread: 0.3 },
  'check': { median: 1, spread: 0.1 },
  'take out': { median: 0.95, spread: 0.15 },
  'put back': { median: 1.15, spread: 0.2 },
  'outside finish': { median: 1, spread: 0.2 },
}

/** Invented too: shares of the operations that have an entry of rework or of waiting. */
export const REWORK = {
  share: 0.07,
  shareOfKind: { sand: 0.16, paint: 0.2, wrap: 0.16, sew: 0.12, fill: 0.12, wire: 0.1 } as Readonly<Record<string, number>>,
  /** Of the estimate, evenly between the two. */
  from: 0.1, to: 0.4,
} as const
export const WAITING = { share: 0.06, fromMinutes: 10, toMinutes: 45 } as const

const REWORK_BECAUSE: Readonly<Record<string, readonly [string, ...string[]]>> = {
  'sand': ['Scratches showed under the primer; sanded again.', 'Low spot beside the edge; filled and sanded again.'],
  'paint': ['Dust in the clear coat; flatted and sprayed again.', 'Run at the lower edge; flatted and coated again.'],
  'wrap': ['Crease at the inner corner; lifted and laid again.', 'Edge let go overnight; glued again.'],
  'sew': ['Seam ran off the line; opened and sewn again.'],
  'wire': ['Channel was silent; plug crimped again.', 'Noise with the engine on; ground moved to another point.'],
}
const REWORK_OTHERWISE = ['Did not meet its neighbor; done over.', 'Measured from the wrong edge; piece done again.'] as const
const WAITING_BECAUSE = ['Bay was taken.', 'Extraction was in use.', 'Vehicle was called for by the customer.', 'Material came at noon.'] as const

const GRAIN_MINUTES = 1

/** Draws what was logged on the operations of a closed build. */
export function drawnHabits(random: Random): Habits {
  return {
    minutesOf: ({ step, minutes }) => Math.max(GRAIN_MINUTES, Math.round(minutes * ratioOf(step.kind, random))),
    remarksOn: (one) => [...reworkOn(one, random), ...waitingOn(random)],
  }
}

function ratioOf(kind: string, random: Random): number {
  const habit = HABITS[kind]
  if (!habit) throw new Error(`the demo’s history has no habit for ${kind}`)
  return habit.median * Math.exp(habit.spread * standardNormal(random))
}

/** Box and Muller 1958; from memory. */
function standardNormal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
}

function reworkOn({ step: { kind }, minutes }: PlannedOperation, random: Random): Remark[] {
  if (random() >= (REWORK.shareOfKind[kind] ?? REWORK.share)) return []
  const share = REWORK.from + random() * (REWORK.to - REWORK.from)
  return [{ kind: 'rework', minutes: Math.max(GRAIN_MINUTES, Math.round(minutes * share)), why: pick(random, REWORK_BECAUSE[kind] ?? REWORK_OTHERWISE) }]
}

function waitingOn(random: Random): Remark[] {
  if (random() >= WAITING.share) return []
  const minutes = Math.round(WAITING.fromMinutes + random() * (WAITING.toMinutes - WAITING.fromMinutes))
  return [{ kind: 'waiting', minutes, why: pick(random, WAITING_BECAUSE) }]
}
