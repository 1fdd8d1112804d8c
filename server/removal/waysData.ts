import type { WaysTable } from '../../web/restoration/waysTable.tsx'
import type { Working } from '../calc/amounts.ts'
import { compareWays, type WayCompared } from '../calc/removal/compareWays.ts'
import { secondsAt } from '../calc/removal/loosening.ts'
import { listThings } from '../calc/restoration/things.ts'
import { listWays } from '../calc/removal/ways.ts'
import { namer } from '../restoration/naming.ts'
import type { VehicleState } from '../restoration/store.ts'
import type { Workings } from '../shared/workings.ts'
import type { Orders } from './orders.ts'
import { targetsOf, type OrderView } from './orderView.ts'

interface ThingWithWays {
  readonly id: string
  readonly ways: readonly WayCompared[]
}

/** The things of what is looked at that have named ways in, as the vehicle stands now. */
export function listThingsWithWays(view: OrderView, { rules, presentIds, loosenedIds }: Orders, state: VehicleState): ThingWithWays[] {
  const wanted = targetsOf(view, state)
  const things = listThings(state.input).filter(({ id }) => presentIds.has(id))
  return [...listWays(rules.asBuilt).keys()].filter((id) => wanted === 'all' || wanted.includes(id))
    .map((afterId) => ({ id: afterId, ways: compareWays({ things, looseIds: [...loosenedIds], edges: rules.asBuilt, afterId }) }))
}

export function toWaysTables(found: readonly ThingWithWays[], { things }: Orders): WaysTable[] {
  const name = namer(things)
  return found.map(({ id, ways }, thing) => ({
    to: name(id),
    ways: ways.map(({ way, steps, seconds, isLeast }, index) => ({
      way, seconds, isLeast, how: keyOf(thing, index),
      takes: steps.map((step) => `${things.get(step.id)?.number ?? step.id}${step.depth === 'loosened' ? ' loosened' : ''}`),
    })),
  }))
}

/** What the hours of the ways open. */
export function waysWorkings(found: readonly ThingWithWays[], { things }: Orders, { input }: VehicleState): Workings {
  const name = namer(things)
  const timed = new Map([...input.factoryParts, ...input.installedItems].map((thing) => [thing.id, thing]))
  const toWorking = (id: string, { way, steps, seconds }: WayCompared): Working => ({
    title: `${name(id)}, ${way}: out and back`,
    inputs: steps.map((step) => ({
      label: name(step.id), source: step.depth === 'out' ? 'out and back, times noted' : 'only loosened and made fast, times noted',
      amount: { kind: 'time', value: secondsAt(timed.get(step.id)?.takeOutS ?? 0, step.depth) + secondsAt(timed.get(step.id)?.putBackS ?? 0, step.depth) },
    })),
    result: { kind: 'time', value: seconds ?? 0 }, formula: 'sum over all that comes out or loose for this way',
    assumed: 'All of it goes back in the same job. Loosening takes half the time of taking out.', source: 'times noted on the parts; the half is ours, no source',
  })
  return new Map(found.flatMap(({ id, ways }, thing) => ways.flatMap((way, index) => (way.seconds === null ? [] : [[keyOf(thing, index), toWorking(id, way)] as const]))))
}

const keyOf = (thing: number, way: number): string => `w${thing + 1}.${way + 1}`
