import { MIDDLE, anchorOf } from './zonePlaces.ts'
import type { Body, Point, ZonePlace } from './zonePlaces.ts'

export interface PlanZone {
  readonly number: number
  readonly name: string
  readonly place: ZonePlace
  readonly openPoints: number
}

export interface PlacedZone {
  readonly zone: PlanZone
  readonly anchor: Point
  readonly balloon: Point
  /** Middle of the triangle that counts open points: beside the balloon, or beyond it where the row is full. */
  readonly triangle: Point
  /** -1 above the body, 1 below. */
  readonly side: -1 | 1
}

export interface PlanSize {
  readonly radius: number
  /** From the middle of the body to the middle of a balloon. */
  readonly reach: number
  /** Least distance between two balloons of one row. */
  readonly gap: number
}

interface Anchored { readonly zone: PlanZone, readonly anchor: Point }

const LEFT = 62
const RIGHT = 664

/** Puts a balloon for each zone above or below the body so that none covers another. */
export function placeZones(zones: readonly PlanZone[], body: Body, size: PlanSize): PlacedZone[] {
  const anchored = zones.map((zone, index) => ({ zone, anchor: mirrored(zones.slice(0, index), zone, body) }))
  const [above, below] = balance(anchored)
  return [...row(above, -1, size), ...row(below, 1, size)].sort((a, b) => a.zone.number - b.zone.number)
}

/** A second zone of the same place stands on the other side. */
function mirrored(earlier: readonly PlanZone[], zone: PlanZone, body: Body): Point {
  const { x, y } = anchorOf(zone.place, body)
  const same = earlier.filter(({ place }) => place === zone.place).length
  return { x: x + 22 * Math.floor(same / 2), y: same % 2 === 0 ? y : 2 * MIDDLE - y }
}

function balance(zones: readonly Anchored[]): [above: Anchored[], below: Anchored[]] {
  const fromTop = [...zones].sort((a, b) => a.anchor.y - b.anchor.y)
  const natural = fromTop.filter(({ anchor }) => anchor.y <= MIDDLE).length
  const most = Math.ceil(zones.length / 2)
  const count = Math.min(Math.max(natural, zones.length - most), most)
  return [fromTop.slice(0, count), fromTop.slice(count)]
}

function row(zones: readonly Anchored[], side: -1 | 1, { radius, reach, gap }: PlanSize): PlacedZone[] {
  const sorted = [...zones].sort((a, b) => a.anchor.x - b.anchor.x)
  const step = Math.min(gap, (RIGHT - LEFT) / Math.max(sorted.length - 1, 1))
  const isStaggered = step < 2 * radius + 4
  const isFull = step < 4.2 * radius
  const xs = spread(sorted.map(({ anchor }) => anchor.x), step)
  return sorted.map(({ zone, anchor }, index) => {
    const out = reach + (isStaggered && index % 2 === 1 ? 2 * radius + 6 : 0)
    const [x, y] = [Math.round(xs[index] ?? anchor.x), MIDDLE + side * out]
    const triangle = isFull ? { x, y: Math.round(y + side * 1.95 * radius) } : { x: Math.round(x + 1.9 * radius), y }
    return { zone, anchor, side, balloon: { x, y }, triangle }
  })
}

/** Moves positions apart to at least `step`, as little as needed, within the drawing. */
function spread(wanted: readonly number[], step: number): number[] {
  const xs: number[] = []
  for (const x of wanted) xs.push(Math.max(x, LEFT, (xs.at(-1) ?? -Infinity) + step))
  let limit = RIGHT
  for (let index = xs.length - 1; index >= 0; index--) {
    xs[index] = Math.min(xs[index] ?? limit, limit)
    limit = (xs[index] ?? limit) - step
  }
  return xs
}
