import type { Resource } from './problem.ts'
import type { ShopFacts } from './shopProblem.ts'
import { hoursByTick, ticksOf, type Stretch } from './shopTicks.ts'

/** As many as ever leave at once or are away at once: a finisher does not turn work away. */
const UNLIMITED = 10_000

/** Where each thing of the shop stands among the resources: in the order of the facts. */
export interface Places {
  readonly bays: readonly number[]
  readonly machines: ReadonlyMap<string, number>
  /** What leaves with a batch, and what is away, by finisher. */
  readonly finishers: ReadonlyMap<string, { readonly send: number, readonly days: number }>
}

/**
 * People by their hours, then bays, machines, and two of each outside finisher: one there for the last tick before the
 * shop closes on a day a batch leaves, one for the first tick of each of its working days, so that days can be counted
 * in them. People come first: their place among the facts is that among the resources.
 *
 * Source: an arrangement of the same facts, ours.
 */
export function toResources(facts: ShopFacts): { readonly resources: readonly Resource[], readonly places: Places } {
  const { people, bays, machines, finishers } = facts
  const machinesFrom = people.length + bays.length
  const finishersFrom = machinesFrom + machines.length
  const ticks = (list: readonly number[], shift: number): Int16Array => {
    const there = new Int16Array(facts.horizonTicks)
    for (const ms of list) {
      const tick = ticksOf(ms - facts.fromMs, facts) + shift
      if (tick >= 0 && tick < there.length) there[tick] = UNLIMITED
    }
    return there
  }
  return {
    resources: [
      ...people.map(({ name, hours }) => ({ name, capacity: hoursByTick(hours, facts) })),
      ...bays.map(({ name, closed }) => ({ name, capacity: without(1, closed, facts) })),
      ...machines.map(({ name, count, closed }) => ({ name, capacity: without(count, closed, facts) })),
      ...finishers.flatMap(({ name, sendMs, workMs }) => [{ name: `batch to ${name}`, capacity: ticks(sendMs, -1) }, { name, capacity: ticks(workMs, 0) }]),
    ],
    places: {
      bays: bays.map((_, place) => people.length + place),
      machines: new Map(machines.map(({ id }, place) => [id, machinesFrom + place])),
      finishers: new Map(finishers.map(({ id }, place) => [id, { send: finishersFrom + 2 * place, days: finishersFrom + 2 * place + 1 }])),
    },
  }
}

function without(count: number, closed: readonly Stretch[], facts: ShopFacts): number | Int16Array {
  if (closed.length === 0) return count
  const there = new Int16Array(facts.horizonTicks).fill(count)
  for (const { fromMs, toMs } of closed) there.fill(0, Math.max(0, Math.floor((fromMs - facts.fromMs) / facts.tickMs)), Math.max(0, ticksOf(toMs - facts.fromMs, facts)))
  return there
}
