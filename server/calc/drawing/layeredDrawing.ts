import { countCrossings, reduceCrossings } from './crossings.ts'
import { placeColumns } from './drawingColumns.ts'
import type { Columns, ColumnSizes } from './drawingColumns.ts'
import { assignLanes } from './drawingLanes.ts'
import { linkLayers } from './drawingLinks.ts'
import type { LinkedLayers } from './drawingLinks.ts'
import { groupEdges } from '../graph.ts'
import type { Edge } from '../graph.ts'
import { assignLayers } from './layering.ts'
import { shortenEdges } from './shorterEdges.ts'

export interface DrawingSizes extends ColumnSizes {
  readonly boxHeight: number
  /** Above and below the lanes between two layers; below there is room for an arrow. */
  readonly headroom: number
  /** No layer holds more boxes, and none of the drawing is wider unless one box is. */
  readonly mostAcross: number
  readonly mostWide: number
}

export interface Point {
  readonly x: number
  readonly y: number
}

/** Left upper corner of a box. */
export interface DrawnBox extends Point {
  readonly id: string
}

/** From the lower edge of one box to the upper edge of the other, corner by corner, level or upright. */
export interface DrawnRoute extends Edge {
  readonly points: readonly Point[]
}

export interface Drawing {
  readonly width: number
  readonly height: number
  readonly boxes: readonly DrawnBox[]
  readonly routes: readonly DrawnRoute[]
  readonly crossings: number
}

/**
 * Draws a graph without rings in layers, what comes first on top: layers, bends for long edges, few
 * crossings, columns, lanes (Sugiyama, Tagawa and Toda 1981; Gansner et al. 1993; both from memory).
 * What hangs together stands together; groups stand side by side as far as the width allows, then
 * below. The same graph always gives the same drawing. Throws where there is a ring.
 */
export function drawInLayers(ids: readonly string[], edges: readonly Edge[], sizes: DrawingSizes): Drawing {
  const known = new Set(ids)
  const own = [...new Map(edges.filter(({ before, after }) => known.has(before) && known.has(after)).map(edge => [`${edge.before} ${edge.after}`, edge])).values()]
  const groups = listGroups(ids, own).map(group => drawGroup(group, own.filter(({ before }) => group.includes(before)), sizes))
  const shelves = fillShelves(groups, sizes)
  let y = 0
  let width = 0
  const boxes: DrawnBox[] = []
  const routes: DrawnRoute[] = []
  for (const shelf of shelves) {
    const drawn = drawShelf(shelf, y, sizes)
    boxes.push(...drawn.boxes)
    routes.push(...drawn.routes)
    y = drawn.bottom + sizes.headroom * 2
    width = Math.max(width, ...shelf.map(({ left, columns }) => left + columns.width))
  }
  return {
    width: Math.ceil(width), height: Math.max(0, y - sizes.headroom * 2), boxes, routes,
    crossings: groups.reduce((sum, { layered }) => sum + countCrossings({ layers: layered.layers, edges: layered.links }), 0),
  }
}

interface Group {
  readonly edges: readonly Edge[]
  readonly layered: LinkedLayers
  readonly columns: Columns
}

interface PlacedGroup extends Group {
  readonly left: number
}

/** Things that hang together, those alone at the end. */
function listGroups(ids: readonly string[], edges: readonly Edge[]): string[][] {
  const [later, earlier] = [groupEdges(edges, 'before', 'after'), groupEdges(edges, 'after', 'before')]
  const seen = new Set<string>()
  const groups = ids.flatMap(id => {
    if (seen.has(id)) return []
    const group = new Set([id])
    for (const member of group) for (const other of [...later.get(member) ?? [], ...earlier.get(member) ?? []]) group.add(other)
    for (const member of group) seen.add(member)
    return [ids.filter(member => group.has(member))]
  })
  return [...groups.filter(group => group.length > 1), ...groups.filter(group => group.length === 1)]
}

/** As many across as allowed, fewer where the lines that pass make it too wide. */
function drawGroup(ids: readonly string[], edges: readonly Edge[], sizes: DrawingSizes): Group {
  let narrowest: Group | null = null
  for (let across = sizes.mostAcross; across > 0; across -= 1) {
    const linked = linkLayers(shortenEdges(assignLayers(ids, edges, across), edges, across), edges)
    const layered = { ...linked, layers: reduceCrossings({ layers: linked.layers, edges: linked.links }) }
    const group = { edges, layered, columns: placeColumns(layered, sizes) }
    if (group.columns.width <= sizes.mostWide) return group
    if (!narrowest || group.columns.width < narrowest.columns.width) narrowest = group
  }
  if (!narrowest) throw new Error('a drawing needs room for one box')
  return narrowest
}

function fillShelves(groups: readonly Group[], { gap, mostWide }: DrawingSizes): PlacedGroup[][] {
  const shelves: PlacedGroup[][] = []
  let right = 0
  for (const group of groups) {
    const shelf = shelves.at(-1)
    const left = right + gap
    if (shelf && left + group.columns.width <= mostWide) shelf.push({ ...group, left })
    else shelves.push([{ ...group, left: 0 }])
    right = (shelves.at(-1)?.at(-1)?.left ?? 0) + group.columns.width
  }
  return shelves
}

function drawShelf(shelf: readonly PlacedGroup[], top: number, sizes: DrawingSizes): { boxes: DrawnBox[], routes: DrawnRoute[], bottom: number } {
  const count = Math.max(...shelf.map(({ layered }) => layered.layers.length))
  const links = shelf.flatMap(({ left, layered, columns }, group) => {
    const layerOf = new Map(layered.layers.flatMap((layer, index) => layer.map(id => [id, index] as const)))
    return layered.links.map(link => ({
      id: `${group} ${link.before} ${link.after}`, group, edge: link.edge, layer: layerOf.get(link.before) ?? 0,
      from: Math.round(left + columns.leaves(link)), to: Math.round(left + columns.reaches(link)),
    }))
  })
  const lanes = Array.from({ length: count }, (_, layer) => assignLanes(links.filter(link => link.layer === layer)))
  const tops = [top]
  for (const layer of lanes) {
    const laneCount = Math.max(0, ...layer.values()) + 1
    tops.push((tops.at(-1) ?? 0) + sizes.boxHeight + 2 * sizes.headroom + (laneCount - 1) * sizes.lane)
  }
  const topOf = (layer: number) => tops[layer] ?? 0
  const boxes = shelf.flatMap(({ left, layered, columns }) => layered.layers.flatMap((layer, index) => layer.filter(id => !layered.bends.has(id))
    .map(id => ({ id, x: Math.round(left + (columns.middles.get(id) ?? 0) - sizes.boxWidth / 2), y: topOf(index) }))))
  const routes = shelf.flatMap(({ edges }, group) => edges.map(({ before, after }, edge) => {
    const own = links.filter(link => link.group === group && link.edge === edge)
    const points = own.flatMap(({ id, layer, from, to }): Point[] => {
      const across = topOf(layer) + sizes.boxHeight + sizes.headroom + (lanes[layer]?.get(id) ?? 0) * sizes.lane
      const ends = [{ x: from, y: topOf(layer) + sizes.boxHeight }, { x: to, y: topOf(layer + 1) }] as const
      return from === to ? [...ends] : [ends[0], { x: from, y: across }, { x: to, y: across }, ends[1]]
    })
    return { before, after, points: withoutMidpoints(points) }
  }))
  return { boxes, routes, bottom: topOf(count - 1) + sizes.boxHeight }
}

/** Points on the way of an upright say nothing. */
function withoutMidpoints(points: readonly Point[]): Point[] {
  return points.filter((point, index) => {
    const [last, next] = [points[index - 1], points[index + 1]]
    return !last || !next || last.x !== point.x || next.x !== point.x
  })
}
