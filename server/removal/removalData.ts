import { randomUUID } from 'node:crypto'
import type { OrderGraph, OrderStep, ReadyPart, RemovalData } from '../../web/restoration/removal.tsx'
import { writeHours } from '../../web/shared/amount.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { cautionsFor, triggersOfVehicle } from '../calc/removal/cautions.ts'
import type { FactoryPart } from '../calc/removal/factoryParts.ts'
import { toFastenerText } from '../calc/removal/fastenerText.ts'
import { secondsAt } from '../calc/removal/loosening.ts'
import type { RemovalOrder } from '../calc/removal/removalOrder.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { BENCH } from '../shared/roles.ts'
import type { Workings } from '../shared/workings.ts'
import { namer } from '../restoration/naming.ts'
import { loadVehicleState, type VehicleState } from '../restoration/store.ts'
import { listUnsettled } from '../restoration/unsettled.ts'
import { earlierOrders } from './earlierOrders.ts'
import { toDrawing } from './orderDrawing.ts'
import { toOrders, type Orders } from './orders.ts'
import { addressOf, inView, targetsOf, viewAsked, wordsOf, type ViewAsked } from './orderView.ts'
import { ruleSaved, type RuleDone } from './ruleSaved.ts'
import { loadRules, nameAll } from './ruleStore.ts'
import { questionsData, type TypedAnswer } from './questionsData.ts'
import { rulesData, type TypedRule } from './rulesData.ts'
import { loadBins, type StoredBin } from './store.ts'
import { listThingsWithWays, toWaysTables, waysWorkings } from './waysData.ts'

const MOST_OTHERS = 12

interface Asked {
  readonly buildId: string
  readonly asked: ViewAsked
  /** The factory part that just came out. */
  readonly savedId: string | null
  /** The rule that was just added, taken away, brought back or changed. */
  readonly did?: RuleDone | undefined
  readonly typed?: TypedRule | undefined
  readonly answer?: TypedAnswer | undefined
  /** The factory part about which it was just answered what stands in front. */
  readonly answeredId?: string | undefined
}

/** What the ways in of the same view open. */
export function waysOf(state: VehicleState, asked: ViewAsked): Workings {
  const view = viewAsked(state, asked)
  const orders = toOrders(state, targetsOf(view, state))
  return waysWorkings(listThingsWithWays(view, orders, state), orders, state)
}

/** The order of removal of a build, of a zone of it, or of one thing in it. */
export async function removalData(reads: Reads, viewer: Viewer, { buildId, asked, savedId, did, typed, answer, answeredId }: Asked): Promise<RemovalData> {
  const [state, { bins, lastBinId }, rules] = await Promise.all([loadVehicleState(reads, buildId), loadBins(reads, buildId), loadRules(reads, buildId)])
  const { build, input } = state
  const view = viewAsked(state, asked)
  const orders = toOrders(state, targetsOf(view, state))
  const name = namer(orders.things)
  const page = `/builds/${buildId}`
  const ready = input.factoryParts.filter(({ id }) => orders.readyIds.includes(id))
  const places = BENCH.includes(viewer.role) ? { bins, lastBinId, buildId } : null
  const address = addressOf(view, orders)
  const named = await nameAll(reads, state, rules)
  const withWays = listThingsWithWays(view, orders, state)
  const [trailName, ...words] = wordsOf(view, state, orders)
  return {
    trail: [{ name: `${label('B', build.number)} ${build.title}`, href: page }, { name: 'Order of removal', ...(address === '' ? {} : { href: `${page}/removal` }) }, ...(address === '' ? [] : [{ name: trailName }])],
    number: words[0], title: words[1], question: words[2],
    cautions: cautionsOf(state, orders, ready),
    ready: ready.map((part) => toReady(part, places)),
    asFound: { ...toGraph(orders.asFound, orders, state, true), drawing: toDrawing('asFound', view, orders, state) },
    asBuilt: { ...toGraph(orders.asBuilt, orders, state, false), drawing: toDrawing('asBuilt', view, orders, state) },
    differences: orders.differences, open: listUnsettled(input),
    zones: state.zones.map(({ number, name: zoneName, id }) => ({ name: `${number} ${zoneName}`, href: `${page}/removal?zone=${number}`, isCurrent: view.kind === 'zone' && view.zone.id === id })),
    others: [...(address === '' ? [] : [{ name: 'all that comes out', href: `${page}/removal` }]), ...deepest(orders, view.kind === 'thing' ? view.id : null).map((id) => ({ name: name(id), href: `${page}/removal?part=${id}` }))],
    address,
    teardownHref: places ? `${page}/teardown${view.kind === 'thing' && input.factoryParts.some(({ id }) => id === view.id) ? `?part=${view.id}` : ''}` : undefined,
    restoreHref: view.kind === 'thing' && input.factoryParts.some(({ id }) => id === view.id) ? `${page}/restoration?part=${view.id}` : `${page}/restoration`,
    questions: BENCH.includes(viewer.role) ? await questionsData(reads, { state, orders, address, isSeen: inView(view, state) }, answer ?? null) : [],
    earlier: BENCH.includes(viewer.role) ? await earlierOrders(reads, view, state) : undefined,
    ways: toWaysTables(withWays, orders),
    rules: rulesData({ state, rules, things: named, view, address }, viewer, typed ?? null),
    saved: savedId && orders.things.has(savedId) ? { what: savedWords(name(savedId), state, savedId), csrfToken: viewer.csrfToken } : answeredId && orders.things.has(answeredId) ? { what: `what stands in front of ${name(answeredId)}, and what behind it`, csrfToken: viewer.csrfToken } : await ruleSaved(reads, state, viewer, { did, address }),
  }
}

function savedWords(named: string, { input }: VehicleState, id: string): string {
  const place = input.factoryParts.find((part) => part.id === id)?.place ?? ''
  return place === '' ? `${named} came out` : `${named} came out, ${place}`
}

function cautionsOf({ vehicle, input }: VehicleState, { asBuilt }: Orders, ready: readonly FactoryPart[]): RemovalData['cautions'] {
  const ids = new Set([...ready.map(({ id }) => id), ...(asBuilt.kind === 'order' ? asBuilt.steps.map(({ id }) => id) : [])])
  const things = [...input.factoryParts, ...input.installedItems].filter(({ id }) => ids.has(id))
  const isSafety = input.factoryParts.some((part) => ids.has(part.id) && part.fasteners.some((fastener) => fastener.isSafety))
  const triggers = [...triggersOfVehicle(vehicle.energy), ...things.flatMap((thing) => thing.cautionTriggers), ...(isSafety ? ['seat or belt' as const] : [])]
  return cautionsFor(triggers, vehicle).map(({ signalWord, title, text }) => ({ signal: signalWord, title, text }))
}

interface Places {
  readonly buildId: string
  readonly bins: readonly StoredBin[]
  readonly lastBinId: string | null
}

function toReady(part: FactoryPart, places: Places | null): ReadyPart {
  const how = [part.fasteners.map(toFastenerText).join('; '), part.connectors === '' ? '' : `unplug ${part.connectors}`].filter((text) => text !== '').join(' · ')
  const named = { number: label('F', part.number), name: part.name, href: `/factory-parts/${part.id}`, how }
  if (!places) return named
  const { buildId, bins, lastBinId } = places
  const free = bins.find((bin) => bin.isEmpty)
  const last = bins.find((bin) => bin.id === lastBinId)
  const into = (bin: StoredBin | undefined): ReadyPart['intoBin'] => bin && {
    name: `bin ${label('A', bin.number)}`,
    post: { action: `/builds/${buildId}/removals`, idempotencyKey: randomUUID(), values: [['factoryPartId', part.id], ['binId', bin.id]] },
  }
  const query = new URLSearchParams({ build: buildId, factoryPartId: part.id })
  return { ...named, recordHref: `/removals/new?${query.toString()}`, intoBin: into(free), sameBin: last?.id === free?.id ? undefined : into(last) }
}

/** An order as it is listed; of the as-found one what is out already stays in view. */
function toGraph(order: RemovalOrder, { things, absentIds, loosenedIds, readyIds }: Orders, { input }: VehicleState, isAsFound: boolean): OrderGraph {
  if (order.kind === 'refused') return { steps: [], seconds: 0, ways: [], refused: order.sentence }
  const timed = new Map([...input.factoryParts, ...input.installedItems].map((thing) => [thing.id, thing.takeOutS]))
  const isDone = (id: string, depth: OrderStep['depth']): boolean => absentIds.has(id) || (depth === 'loosened' && loosenedIds.has(id))
  const steps = order.steps.map(({ id, depth, waitsForIds }): OrderStep => {
    const open = waitsForIds.filter((before) => !isAsFound || !absentIds.has(before))
    const { number = id, name = '', href = '#', isBuilt = false } = things.get(id) ?? {}
    const state = isDone(id, depth) ? 'done' : open.length === 0 && (!isAsFound || readyIds.includes(id)) ? 'ready' : 'waits'
    return {
      number, name, href, isBuilt, depth, state, seconds: secondsAt(timed.get(id) ?? 0, depth),
      waitsFor: open.length > 0 ? open.map((before) => things.get(before)?.number ?? before) : ['what was installed'],
    }
  })
  return { steps, seconds: order.takeOutS, ways: order.waysTaken.map((way) => wayInWords(way, namer(things))) }
}

function wayInWords({ afterId, way, seconds, others }: Extract<RemovalOrder, { kind: 'order' }>['waysTaken'][number], name: (id: string) => string): string {
  const than = others.map((other) => `${other.way}: ${other.seconds === null ? 'cannot be done' : `${writeHours(other.seconds)} h`}`)
  return `To ${name(afterId)} taken: ${way}, ${writeHours(seconds)} h out and back in all${than.length > 0 ? `; ${than.join('; ')}` : ''}.`
}

/** What lies deepest as found: parts that nothing else waits for, though they wait for something. */
function deepest({ asFound }: Orders, partId: string | null): string[] {
  if (asFound.kind === 'refused') return []
  const inFront = new Set(asFound.steps.flatMap((step) => step.waitsForIds))
  return asFound.steps.filter((step) => step.waitsForIds.length > 0 && !inFront.has(step.id) && step.id !== partId).map(({ id }) => id).slice(-MOST_OTHERS)
}
