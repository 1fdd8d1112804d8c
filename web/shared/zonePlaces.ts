/** Where on the vehicle a zone is: its place on the plan, and which cautions belong to it. */
export const ZONE_PLACES = [
  'engine bay', 'dash', 'steering wheel', 'console', 'front doors', 'rear doors', 'pillars', 'headliner', 'seats',
  'rear wall', 'rear shelf', 'load floor', 'bed', 'wheel wells', 'side panels', 'underbody', 'outside',
] as const

export type ZonePlace = typeof ZONE_PLACES[number]

export const BODIES = ['hatchback', 'wagon', 'sedan', 'coupe', 'pickup', 'van', 'SUV'] as const

export type Body = typeof BODIES[number]

export interface Point { readonly x: number, readonly y: number }

/** Lengthwise stations of a body seen from above, front to the left, in the units of a 720 × 372 drawing. */
export interface Stations {
  readonly nose: number
  readonly windshield: number
  readonly roofFront: number
  readonly roofRear: number
  /** Lower edge of the rear window. */
  readonly rearGlass: number
  readonly tail: number
  readonly seatRows: readonly number[]
  /** From the rear wall to the tail: luggage, cargo or bed. */
  readonly load: readonly [from: number, to: number]
  readonly frontWheel: number
  readonly rearWheel: number
}

export const MIDDLE = 186
export const SIDE = { left: 281, right: 91 } as const

export const STATIONS: Readonly<Record<Body, Stations>> = {
  hatchback: { nose: 90, windshield: 214, roofFront: 278, roofRear: 530, rearGlass: 582, tail: 618, seatRows: [306, 410], load: [484, 596], frontWheel: 140, rearWheel: 490 },
  wagon: { nose: 60, windshield: 196, roofFront: 260, roofRear: 606, rearGlass: 640, tail: 664, seatRows: [290, 396], load: [474, 646], frontWheel: 116, rearWheel: 520 },
  sedan: { nose: 54, windshield: 200, roofFront: 268, roofRear: 466, rearGlass: 540, tail: 668, seatRows: [296, 396], load: [548, 646], frontWheel: 112, rearWheel: 520 },
  coupe: { nose: 62, windshield: 230, roofFront: 300, roofRear: 450, rearGlass: 556, tail: 656, seatRows: [326], load: [560, 636], frontWheel: 122, rearWheel: 506 },
  pickup: { nose: 44, windshield: 172, roofFront: 230, roofRear: 408, rearGlass: 424, tail: 680, seatRows: [250, 340], load: [436, 668], frontWheel: 94, rearWheel: 532 },
  van: { nose: 44, windshield: 104, roofFront: 160, roofRear: 668, rearGlass: 676, tail: 684, seatRows: [182], load: [268, 666], frontWheel: 96, rearWheel: 520 },
  SUV: { nose: 62, windshield: 190, roofFront: 250, roofRear: 596, rearGlass: 632, tail: 660, seatRows: [280, 384], load: [470, 640], frontWheel: 112, rearWheel: 516 },
}

/** Where the leader of a zone ends on the drawing. */
export function anchorOf(place: ZonePlace, body: Body): Point {
  const at = STATIONS[body]
  const frontSeats = at.seatRows[0] ?? at.roofFront
  const rearSeats = at.seatRows[1] ?? frontSeats + 90
  const load = (at.load[0] + at.load[1]) / 2
  const points: Readonly<Record<ZonePlace, Point>> = {
    'engine bay': { x: (at.nose + at.windshield) / 2, y: 160 },
    'dash': { x: at.windshield + 34, y: 146 },
    'steering wheel': { x: frontSeats - 14, y: 228 },
    'console': { x: frontSeats + 22, y: MIDDLE },
    'front doors': { x: frontSeats + 32, y: SIDE.right + 7 },
    'rear doors': body === 'van' ? { x: at.tail - 10, y: 132 } : { x: rearSeats + 26, y: SIDE.right + 7 },
    'pillars': { x: at.roofFront - 10, y: 106 },
    'headliner': { x: (at.roofFront + at.roofRear) / 2, y: 170 },
    'seats': { x: (at.seatRows.at(-1) ?? frontSeats) + 20, y: 146 },
    'rear wall': { x: at.load[0] - 6, y: 212 },
    'rear shelf': { x: (at.roofRear + at.rearGlass) / 2 - 6, y: MIDDLE },
    'load floor': { x: load, y: 206 },
    'bed': { x: load, y: 196 },
    'wheel wells': { x: at.rearWheel + 32, y: 114 },
    'side panels': { x: load - 26, y: SIDE.left - 9 },
    'underbody': { x: (at.seatRows.at(-1) ?? frontSeats) + 60, y: 252 },
    'outside': { x: at.tail - 70, y: SIDE.left },
  }
  return points[place]
}

/** The places that a body has and a walk-around looks at. */
export function placesOf(body: Body): readonly ZonePlace[] {
  const lacking: readonly ZonePlace[] = body === 'pickup' ? ['rear shelf', 'load floor'] : body === 'van' ? ['bed', 'rear shelf'] : body === 'coupe' ? ['bed', 'rear doors'] : ['bed']
  return ZONE_PLACES.filter((place) => !lacking.includes(place))
}

export const PLAN = { width: 720, height: 372 } as const

/** Thousandths of the drawing's width and height. */
export const toThousandths = ({ x, y }: Point): Point => ({ x: Math.round(x * 1000 / PLAN.width), y: Math.round(y * 1000 / PLAN.height) })
export const fromThousandths = ({ x, y }: Point): Point => ({ x: x * PLAN.width / 1000, y: y * PLAN.height / 1000 })

/** The place that a point of the drawing most likely means: the skin of the body is outside. */
export function nearestPlace(point: Point, body: Body): ZonePlace {
  const { nose, tail } = STATIONS[body]
  const isInside = point.x > nose + 14 && point.x < tail - 10 && point.y > SIDE.right + 6 && point.y < SIDE.left - 6
  if (!isInside) return 'outside'
  const distance = (place: ZonePlace): number => {
    const { x, y } = anchorOf(place, body)
    return Math.min(Math.hypot(point.x - x, point.y - y), Math.hypot(point.x - x, point.y - (2 * MIDDLE - y)))
  }
  return placesOf(body).filter((place) => place !== 'outside').toSorted((a, b) => distance(a) - distance(b))[0] ?? 'outside'
}

/** A point near a place for those who choose it from lists: along by the place and a step, across by the side. */
export function pointNear(place: ZonePlace, body: Body, along: -1 | 0 | 1, across: -1 | 0 | 1): Point {
  const y = across === 0 ? MIDDLE : across < 0 ? SIDE.right + 8 : SIDE.left - 8
  return { x: anchorOf(place, body).x + 30 * along, y }
}
