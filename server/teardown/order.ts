import type { FrontRow, OrderRow } from '../../web/teardown/teardownData.ts'
import type { MarkName } from '../../web/shared/marks.tsx'
import { triggersOfVehicle, type Trigger } from '../calc/removal/cautions.ts'
import { isInVehicle, toPartLabel, toPartNumber, type FactoryPart } from '../calc/removal/factoryParts.ts'
import { toFastenerText } from '../calc/removal/fastenerText.ts'
import { isSettled } from '../calc/removal/partStanding.ts'
import { toOrders, type Orders } from '../removal/orders.ts'
import type { VehicleState } from '../restoration/store.ts'
import { torqueInWords } from './fasteners.ts'
import type { Records } from './store.ts'

/** The order of a teardown as the vehicle stands, and what it says of each factory part. */
export interface TeardownOrder {
  readonly orders: Orders
  /** Of what still has to come out, in order; parts of the factory alone. */
  readonly nextIds: readonly string[]
  /** By id, what still stands in front of it. */
  readonly waitsFor: ReadonlyMap<string, readonly string[]>
  readonly settledIds: ReadonlySet<string>
}

export function toTeardownOrder(state: VehicleState): TeardownOrder {
  const { factoryParts } = state.input
  const orders = toOrders(state, 'all')
  const { asBuilt, readyIds } = orders
  const settledIds = new Set(factoryParts.filter((part) => isSettled({ state: part.state, stays: part.stays === true, isInVehicle: isInVehicle(part) })).map(({ id }) => id))
  const steps = asBuilt.kind === 'order' ? asBuilt.steps.filter(({ id }) => factoryParts.some((part) => part.id === id)) : []
  const unordered = asBuilt.kind === 'order' ? [] : factoryParts.filter(({ id }) => !settledIds.has(id)).map(({ id }) => id)
  const isReady = new Set(readyIds)
  return {
    orders, settledIds,
    waitsFor: new Map(steps.map(({ id, waitsForIds }) => [id, waitsForIds])),
    // What is free comes before what waits for something that the shop installed.
    nextIds: [...steps.filter(({ id }) => isReady.has(id)), ...steps.filter(({ id }) => !isReady.has(id))].map(({ id }) => id).concat(unordered),
  }
}

/** How a part stands, in a few words with a sign. */
export function standingOf(part: FactoryPart, { orders, waitsFor, settledIds }: TeardownOrder): { words: string, mark: MarkName } {
  const place = part.place === '' ? '' : `, ${part.place}`
  const marred = part.state === 'altered' || part.state === 'damaged' ? part.state : ''
  if (!isInVehicle(part)) return { words: `${part.state === 'out and stored' ? 'out' : part.state}${place}`, mark: marred === '' ? 'done' : marred === 'altered' ? 'altered' : 'rework' }
  if (part.stays) return { words: [marred, part.state === 'loosened' ? 'loose' : '', 'stays'].filter((word) => word !== '').join(', '), mark: 'skip' }
  const waits = (waitsFor.get(part.id) ?? []).map((id) => orders.things.get(id)?.number ?? id)
  if (part.state === 'loosened') return { words: settledIds.has(part.id) && !waitsFor.has(part.id) ? 'loose, stays in' : 'loose, has to come out', mark: 'loosened' }
  const now = waits.length > 0 ? `behind ${waits.join(', ')}` : orders.asBuilt.kind === 'refused' ? 'no order' : 'free now'
  return { words: [marred, now].filter((word) => word !== '').join(', '), mark: marred === 'altered' ? 'altered' : waits.length > 0 ? 'waiting' : 'empty' }
}

/** What to know before a part is touched, in one line. */
export function howOf(part: FactoryPart): string {
  const fasteners = part.fasteners.map((fastener) => `${toFastenerText(fastener)} (${torqueInWords(fastener)})`)
  return [...fasteners, part.connectors === '' ? '' : `unplug ${part.connectors}`].filter((text) => text !== '').join('; ')
}

export function triggersOf(part: FactoryPart, energy: string): Trigger[] {
  const isSafety = part.fasteners.some((fastener) => fastener.isSafety)
  return [...new Set([...triggersOfVehicle(energy), ...part.cautionTriggers, ...(isSafety ? ['seat or belt' as const] : [])])]
}

/** Every factory part: what is done in the order in which it was done, then what is to come. */
export function toRows(state: VehicleState, order: TeardownOrder, { removals, shownIds }: Records): OrderRow[] {
  const { factoryParts } = state.input
  const byId = new Map(factoryParts.map((part) => [part.id, part]))
  const nextIds = new Set(order.nextIds)
  const recorded = new Set(removals.map(({ factoryPartId }) => factoryPartId).toReversed())
  const doneIds = [...recorded, ...factoryParts.map(({ id }) => id)].filter((id, index, all) => all.indexOf(id) === index && !nextIds.has(id))
  return [...doneIds, ...order.nextIds].flatMap((id) => {
    const part = byId.get(id)
    if (!part) return []
    const has = [shownIds.has(id) ? 'photo' : '', part.place === '' || isInVehicle(part) ? '' : 'bin', part.fasteners.length > 0 ? 'fasteners' : ''].filter((word) => word !== '')
    return [{
      id, number: toPartNumber(part), name: part.name, how: howOf(part), ...standingOf(part, order),
      isSettled: !nextIds.has(id), triggers: triggersOf(part, state.vehicle.energy).join(','), recorded: has.join(', '),
    }]
  })
}

/** What stands in front of a part, the part, and what it frees. */
export function toFront(part: FactoryPart, state: VehicleState, order: TeardownOrder): FrontRow[] {
  const { input } = state
  const { things } = order.orders
  const inFrontIds = input.edges.filter(({ graph, afterId }) => graph !== 'reinstall' && afterId === part.id).map(({ beforeId }) => beforeId)
  const waiting = order.waitsFor.get(part.id) ?? []
  const row = (id: string, isCurrent = false, words?: string): FrontRow[] => {
    const own = input.factoryParts.find((one) => one.id === id)
    const thing = things.get(id)
    if (!thing) return []
    const standing = own ? standingOf(own, order) : { words: waiting.includes(id) ? 'installed, still in front' : 'not in front now', mark: waiting.includes(id) ? 'in' as const : 'done' as const }
    return [{ number: thing.number, name: thing.name, words: words ?? standing.words, mark: standing.mark, isCurrent }]
  }
  const freed = [...order.waitsFor].filter(([, before]) => before.includes(part.id))
  return [
    ...[...new Set([...inFrontIds, ...waiting])].flatMap((id) => row(id)), ...row(part.id, true),
    ...freed.flatMap(([id, before]) => row(id, false, before.length === 1 ? 'then free' : `then behind ${before.filter((one) => one !== part.id).map((one) => things.get(one)?.number ?? one).join(', ')}`)),
  ]
}

/** What speaks against itself: a ring, or a part that stays although something is recorded behind it. */
export function toOpen(state: VehicleState, { orders }: TeardownOrder): string[] {
  const { factoryParts, edges } = state.input
  const staying = factoryParts.filter((part) => part.stays && isInVehicle(part))
  const behind = staying.flatMap((part) => edges.filter(({ graph, beforeId }) => graph === 'found' && beforeId === part.id)
    .flatMap(({ afterId }) => factoryParts.filter((one) => one.id === afterId && isInVehicle(one) && !one.stays).map((one) => `${toPartLabel(part)} stays, though it is recorded in front of ${toPartLabel(one)}: look at both.`)))
  return [...(orders.asBuilt.kind === 'refused' ? [orders.asBuilt.sentence] : []), ...behind]
}
