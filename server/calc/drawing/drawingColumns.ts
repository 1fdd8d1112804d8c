import type { Link, LinkedLayers } from './drawingLinks.ts'
import { groupBy } from '../grouping.ts'

export interface ColumnSizes {
  readonly boxWidth: number
  /** Between boxes. */
  readonly gap: number
  /** Between lines. */
  readonly lane: number
}

export interface Columns {
  /** Middles from the left edge of the drawing. */
  readonly middles: ReadonlyMap<string, number>
  readonly width: number
  /** Where a link leaves what it comes from and reaches what it leads to. */
  readonly leaves: (link: Link) => number
  readonly reaches: (link: Link) => number
}

const ROUNDS = 16
// A long edge is to run straight, as the weights of Gansner et al. 1993 see to (from memory).
const BEND_WEIGHT = 8

/** Where across each thing stands, in the order of its layer, as near to its neighbors as the others allow. */
export function placeColumns({ layers, links, bends }: LinkedLayers, { boxWidth, gap, lane }: ColumnSizes): Columns {
  const place = new Map(layers.flatMap(layer => layer.map((id, index) => [id, index] as const)))
  const out = portsOf(groupBy(links, link => link.before), link => place.get(link.after) ?? 0, bends, boxWidth)
  const into = portsOf(groupBy(links, link => link.after), link => place.get(link.before) ?? 0, bends, boxWidth)
  const room = (left: string, right: string): number => {
    const count = Number(bends.has(left)) + Number(bends.has(right))
    return count === 2 ? lane : count === 1 ? boxWidth / 2 + Math.max(lane, gap * 0.8) : boxWidth + gap
  }
  const offsets = layers.map(layer => layer.reduce<number[]>((sums, id, index) => {
    const left = layer[index - 1]
    return [...sums, left === undefined ? 0 : (sums[index - 1] ?? 0) + room(left, id)]
  }, []))
  const middles = new Map(layers.flatMap((layer, index) => layer.map((id, at) => [id, offsets[index]?.[at] ?? 0] as const)))

  const downTo = groupBy(links, link => link.after)
  const upTo = groupBy(links, link => link.before)
  const wanted = (id: string, isDown: boolean): number | null => {
    const own = (isDown ? downTo : upTo).get(id) ?? []
    const places = own.map(link => isDown
      ? (middles.get(link.before) ?? 0) + (out.get(link) ?? 0) - (into.get(link) ?? 0)
      : (middles.get(link.after) ?? 0) + (into.get(link) ?? 0) - (out.get(link) ?? 0))
    return places.length === 0 ? null : places.reduce((sum, one) => sum + one, 0) / places.length
  }
  for (let round = 0; round < ROUNDS; round += 1) {
    const isDown = round % 2 === 0
    const indexes = layers.map((_, index) => index)
    for (const index of isDown ? indexes.slice(1) : indexes.toReversed().slice(1)) {
      const layer = layers[index] ?? []
      const places = nearest(layer.map((id, at) => {
        const value = wanted(id, isDown)
        return { value: (value ?? middles.get(id) ?? 0) - (offsets[index]?.[at] ?? 0), weight: value === null ? 0.01 : bends.has(id) ? BEND_WEIGHT : 1 }
      }))
      layer.forEach((id, at) => middles.set(id, (places[at] ?? 0) + (offsets[index]?.[at] ?? 0)))
    }
  }
  const half = (id: string) => bends.has(id) ? 0 : boxWidth / 2
  const left = Math.min(...[...middles].map(([id, middle]) => middle - half(id)))
  const right = Math.max(...[...middles].map(([id, middle]) => middle + half(id)))
  const moved = new Map([...middles].map(([id, middle]) => [id, middle - left]))
  return {
    middles: moved, width: right - left,
    leaves: link => (moved.get(link.before) ?? 0) + (out.get(link) ?? 0),
    reaches: link => (moved.get(link.after) ?? 0) + (into.get(link) ?? 0),
  }
}

/** Links share the edge of a box evenly, from left to right as the things at their other ends stand. */
function portsOf(groups: ReadonlyMap<string, readonly Link[]>, placeOf: (link: Link) => number, bends: ReadonlySet<string>, boxWidth: number): Map<Link, number> {
  return new Map([...groups].flatMap(([id, links]) => links.toSorted((a, b) => placeOf(a) - placeOf(b) || a.edge - b.edge)
    .map((link, index): [Link, number] => [link, bends.has(id) ? 0 : boxWidth * ((index + 1) / (links.length + 1) - 0.5)])))
}

interface Wish {
  readonly value: number
  readonly weight: number
}

/**
 * The rising values with the least weighted squares of distance to those wished for: pool adjacent
 * violators (Ayer et al. 1955, from memory).
 *
 * @example nearest([{ value: 3, weight: 1 }, { value: 1, weight: 1 }, { value: 5, weight: 1 }]) // [2, 2, 5]
 */
export function nearest(wishes: readonly Wish[]): number[] {
  const pools: { value: number, weight: number, count: number }[] = []
  for (const { value, weight } of wishes) {
    let pool = { value, weight, count: 1 }
    for (let last = pools.at(-1); last && last.value > pool.value; last = pools.at(-1)) {
      pools.pop()
      const sum = last.weight + pool.weight
      pool = { value: (last.value * last.weight + pool.value * pool.weight) / sum, weight: sum, count: last.count + pool.count }
    }
    pools.push(pool)
  }
  return pools.flatMap(({ value, count }) => Array.from({ length: count }, () => value))
}
