import type { DrawnThing, OrderDrawingData, PlacedDrawing } from '../../web/restoration/orderDrawing.tsx'
import { drawInLayers, type DrawingSizes } from '../calc/drawing/layeredDrawing.ts'
import type { RemovalEdge } from '../calc/removal/removalEdges.ts'
import { toEdges } from '../calc/removal/removalEdges.ts'
import { takeWays } from '../calc/removal/ways.ts'
import type { VehicleState } from '../restoration/store.ts'
import { breakName } from './drawnName.ts'
import type { Orders } from './orders.ts'
import type { OrderView } from './orderView.ts'

/** More than this nobody reads in one drawing. */
const MOST_DRAWN = 40

const BIG: DrawingSizes = { boxWidth: 132, boxHeight: 60, gap: 16, lane: 10, headroom: 15, mostAcross: 6, mostWide: 930 }
const SMALL: DrawingSizes = { boxWidth: 54, boxHeight: 30, gap: 8, lane: 7, headroom: 11, mostAcross: 5, mostWide: 348 }

type Graph = 'asFound' | 'asBuilt'

/** The drawing of one order: what is looked at and what stands in front of it; all of it where that can be read. */
export function toDrawing(graph: Graph, view: OrderView, orders: Orders, state: VehicleState): OrderDrawingData | undefined {
  const order = orders[graph]
  if (order.kind === 'refused') return undefined
  const edges = takeWays(orders.rules[graph], new Map(order.waysTaken.map(({ afterId, way }) => [afterId, way])))
  const closure = new Set([...order.steps.map(({ id }) => id), ...(view.kind === 'thing' ? [view.id] : [])])
  const known = idsIn(graph, view, orders, state)
  const bound = new Set(edges.filter(({ beforeId, afterId }) => known.includes(beforeId) && known.includes(afterId)).flatMap(({ beforeId, afterId }) => [beforeId, afterId]))
  const chosenId = view.kind === 'thing' ? view.id : ''
  const drawable = known.filter((id) => bound.has(id) || id === chosenId)
  const ids = chooseDrawn(view, drawable, closure, state)
  if (ids === null) return { kind: 'too large', count: drawable.length }
  if (ids.length === 0) return undefined
  const steps = new Map(order.steps.map(({ id }, index) => [id, index + 1]))
  const emphasis = emphasisOf(view, closure, state)
  const thingOf = (id: string): Omit<DrawnThing, 'x' | 'y'> => {
    const { number = '', name = '', isBuilt = false } = orders.things.get(id) ?? {}
    return { number, name, lines: breakName(name), step: steps.get(id), emphasis: emphasis(id), isBuilt, isChosen: id === chosenId, isOut: graph === 'asBuilt' && !orders.presentIds.has(id) }
  }
  const isOn = ({ beforeId, afterId }: RemovalEdge): boolean => view.kind === 'thing' && closure.has(beforeId) && closure.has(afterId)
  const isShown = new Set(ids)
  const hidden = view.kind === 'zone' ? order.steps.filter(({ id }) => !isShown.has(id) && bound.has(id)).length : 0
  return {
    kind: 'drawn', hidden,
    free: view.kind === 'thing' ? [] : known.filter((id) => !bound.has(id) && emphasis(id) === 'plain').map((id) => orders.things.get(id)?.number ?? id),
    big: place(ids, edges, BIG, thingOf, isOn), small: place(ids, edges, SMALL, thingOf, isOn),
  }
}

/** What the graph is about and the view may show, factory parts first. */
function idsIn(graph: Graph, view: OrderView, { presentIds }: Orders, { input }: VehicleState): string[] {
  if (graph === 'asFound') return input.factoryParts.map(({ id }) => id)
  return [...input.factoryParts, ...input.installedItems].map(({ id }) => id).filter((id) => presentIds.has(id) || (view.kind === 'thing' && id === view.id))
}

function chooseDrawn(view: OrderView, ids: readonly string[], closure: ReadonlySet<string>, { input }: VehicleState): string[] | null {
  const zones = new Map([...input.factoryParts, ...input.installedItems].map(({ id, zoneId }) => [id, zoneId]))
  const zoneId = view.kind === 'zone' ? view.zone.id : view.kind === 'thing' ? zones.get(view.id) : undefined
  const inZone = (id: string): boolean => zones.get(id) === zoneId
  const choices = {
    whole: [() => true],
    thing: [(id: string) => closure.has(id) || inZone(id), (id: string) => closure.has(id)],
    zone: [(id: string) => closure.has(id) || inZone(id), inZone],
  }[view.kind]
  for (const isWanted of choices) {
    const chosen = ids.filter(isWanted)
    if (chosen.length <= MOST_DRAWN) return chosen
  }
  return null
}

function emphasisOf(view: OrderView, closure: ReadonlySet<string>, { input }: VehicleState): (id: string) => DrawnThing['emphasis'] {
  if (view.kind === 'whole') return () => 'plain'
  if (view.kind === 'thing') return (id) => (closure.has(id) ? 'on' : 'off')
  const own = new Set([...input.factoryParts, ...input.installedItems].filter(({ zoneId }) => zoneId === view.zone.id).map(({ id }) => id))
  return (id) => (own.has(id) ? 'plain' : 'off')
}

function place(ids: readonly string[], edges: readonly RemovalEdge[], sizes: DrawingSizes, thingOf: (id: string) => Omit<DrawnThing, 'x' | 'y'>, isOn: (edge: RemovalEdge) => boolean): PlacedDrawing {
  const { width, height, boxes, routes } = drawInLayers(ids, toEdges(edges), sizes)
  const rules = new Map(edges.map((edge) => [`${edge.beforeId} ${edge.afterId}`, edge]))
  return {
    width, height, boxWidth: sizes.boxWidth, boxHeight: sizes.boxHeight,
    things: boxes.map(({ id, x, y }) => ({ ...thingOf(id), x, y })),
    lines: routes.map(({ before, after, points }) => {
      const rule = rules.get(`${before} ${after}`)
      return { points, isOn: rule !== undefined && isOn(rule), isLoose: rule?.kind === 'loosened' }
    }),
  }
}
