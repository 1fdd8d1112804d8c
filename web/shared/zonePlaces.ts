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
