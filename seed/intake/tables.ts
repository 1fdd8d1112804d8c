/** How the vehicles of the demo came, by the number of their build. */
export interface IntakeTable {
  readonly build: number
  readonly by: string
  readonly typed: Readonly<Record<string, unknown>>
  /** Places nobody has looked at yet; none where it is signed. */
  readonly open?: readonly string[]
  readonly marks: readonly MarkTable[]
  readonly codes: readonly Readonly<Record<string, unknown>>[]
  readonly signedName?: string
}

export interface MarkTable {
  readonly typed: Readonly<Record<string, unknown>>
  /** The color of the panel in the drawn picture, and the seed of the scratch on it. */
  readonly picture?: readonly [color: string, seed: number]
}

const mark = (place: string, x: number, y: number, kind: string, size: string, note = '', picture?: MarkTable['picture']): MarkTable =>
  ({ typed: { place, x, y, kind, size, note }, ...(picture ? { picture } : {}) })

export const INTAKES: readonly IntakeTable[] = [
  {
    build: 240, by: 'n.corvane', signedName: 'Marit Kellaway',
    typed: { odometer: '48,920 km', energyLevel: '1/2', warningLights: 'none', keys: 2, leftInside: 'Two shopping bags, a walking stick' },
    marks: [
      mark('outside', 846, 500, 'scratch', '9 cm', 'Rear bumper, through the clear coat', ['#7d8a94', 3]),
      mark('front doors', 500, 248, 'dent', 'size of a thumb', 'No paint missing', ['#7d8a94', 8]),
      mark('load floor', 760, 520, 'stain', '20 cm', 'Tea or coffee'),
      mark('dash', 345, 420, 'wear', '', 'Edge of the glovebox'),
    ],
    codes: [{ code: 'U0100', unit: 'audio unit', words: 'Lost communication, stored' }],
  },
  {
    build: 231, by: 'n.corvane', signedName: 'Isolde Wick',
    typed: { odometer: '31,460 km', energyLevel: '3/4', warningLights: 'tires', keys: 2, leftInside: 'Two travel perches, taken out on the same day', note: 'Tire light: the spare was being carried flat.' },
    marks: [
      mark('bed', 790, 540, 'scratch', '30 cm', 'Bed floor, many of them', ['#5c6b52', 5]),
      mark('outside', 190, 256, 'chip', '3 mm', 'Front edge of the hood'),
      mark('outside', 930, 360, 'dent', '5 cm', 'Tailgate, right of the handle', ['#5c6b52', 21]),
      mark('seats', 500, 610, 'tear', '2 cm', 'Rear bench, seam'),
      mark('rear doors', 560, 752, 'scratch', '12 cm', 'From a branch'),
      mark('dash', 300, 560, 'crack', '1 cm', 'Windshield, low on the driver’s side'),
    ],
    codes: [{ code: 'C0750', unit: 'tire pressure', words: 'Sensor left front, battery low', isCleared: true }, { code: '2F-07', unit: 'trailer module', words: 'Maker’s own code' }],
  },
  {
    build: 58, by: 'n.corvane', signedName: 'Gideon Farrow',
    typed: { odometer: '38,200 km', energyLevel: '60 %', warningLights: 'none', keys: 1, leftInside: 'Hi-vis vests' },
    marks: [
      mark('outside', 905, 420, 'scratch', '6 cm', 'Load sill', ['#8a8478', 13]),
      mark('wheel wells', 770, 255, 'scratch', 'all round', 'Right rear wheel, from a curb'),
      mark('headliner', 600, 470, 'stain', '4 cm', 'Over the rear seats'),
    ],
    codes: [],
  },
  {
    build: 244, by: 'e.dunmoor', signedName: 'Ansel Trubridge',
    typed: { odometer: '87,640 km', energyLevel: '1/4', warningLights: 'engine', keys: 1, note: 'Engine light was on before: the owner knows.' },
    marks: [
      mark('outside', 88, 500, 'crack', '5 cm', 'Front bumper, below the plate', ['#6b5f63', 17]),
      mark('outside', 936, 620, 'chip', '', 'Left corner'),
      mark('rear shelf', 700, 500, 'wear', '', 'Faded by the sun'),
    ],
    codes: [{ code: 'P0420', unit: 'engine', words: 'Catalyst efficiency below threshold' }],
  },
  {
    build: 243, by: 's.penhale', open: ['underbody', 'wheel wells', 'headliner'],
    typed: { odometer: '2,150 km', energyLevel: '82 %', warningLights: 'none', keys: 2 },
    marks: [
      mark('outside', 500, 756, 'scratch', '15 cm', 'Sliding door', ['#c9cfd2', 11]),
      mark('rear doors', 945, 300, 'dent', '2 cm', ''),
      mark('side panels', 700, 730, 'missing', '', 'One lining clip'),
    ],
    codes: [],
  },
]
