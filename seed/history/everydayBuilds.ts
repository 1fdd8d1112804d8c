import type { FactoryGroup, LineRow } from '../builds/tables.ts'
import type { JobRecipe } from './recipe.ts'

const DOORS = { key: 'doors', name: 'Front doors', place: 'front doors' }
const LOAD = { key: 'load', name: 'Load floor', place: 'load floor' }
const SEATS = { key: 'seats', name: 'Seats', place: 'seats' }
const PILLARS = { key: 'pillars', name: 'A pillars', place: 'pillars' }
const ENGINE = { key: 'engine', name: 'Battery', place: 'engine bay' }

const feed = (n: number): LineRow => ({
  n, zone: 'engine', item: 'mainfuse', name: 'Power feed with main fuse at the battery', work: 'run and wire', from: 4, mounting: 'on a bracket, 150 mm from the battery',
  take: '1:00', cautions: 'power wiring', needs: 'wire35 5.5 m, lug 4, grommet 1, sleeve 4 m', isFitted: true,
})
const out = (zone: string, parts: FactoryGroup['parts'], backDay = 11): FactoryGroup => ({ zone, state: 'fitted', by: 's.penhale', day: 0, backDay, parts })
const doors = (): FactoryGroup => out('doors', [
  ['panelL', 'Door panel, left', '15 min', '9 clipA, 3 s48', '', { needs: 'damping 1.4 m²', work: 'damp and back', size: 1 }],
  ['panelR', 'Door panel, right', '15 min', '9 clipA, 3 s48', ''],
])
const batteryCover = (): FactoryGroup => out('engine', [['batCover', 'Battery cover', '1 min', '', '']])
const loadFloor = (): FactoryGroup => out('load', [
  ['board', 'Load floor board', '3 min', '', '', { work: 'zone out and back', size: 0.4 }],
  ['sill', 'Load sill trim', '5 min', '6 clipA', 'board'],
])

/** Three to eight lines, one to four made parts, 12 to 40 hours. */
export const EVERYDAY_BUILDS: readonly JobRecipe[] = [
  {
    title: 'Two-way front', kind: 'everyday build', reason: 'Clear voices on long drives.', days: 14, zones: [DOORS, PILLARS, LOAD, ENGINE],
    parts: [{ zone: 'doors', from: 1, parts: [
      { n: 101, name: 'Speaker ring, front door', family: 'ring', fit: 2, recipe: 'ring', needs: 'ply18 0.07 m²', mass: '0.5 kg', removable: 'Four M5 screws into the factory holes.', take: '10 min', isFitted: true },
    ] }, { zone: 'pillars', from: 1, parts: [
      { n: 102, name: 'Tweeter cup, A pillar', family: 'pod', fit: 2, recipe: 'printed piece', needs: 'filament 60 g', mass: '60 g', removable: 'Clips into the pillar trim.', take: '5 min', isFitted: true },
    ] }],
    lines: [
      { n: 1, zone: 'doors', item: 'wf165', quantity: 2, work: 'fit and wire', from: 4, mounting: 'on ring P-101', take: '12 min', needs: 'wire25 4 m', isFitted: true },
      { n: 2, zone: 'pillars', item: 'twt25', quantity: 2, work: 'fit and wire', from: 4, mounting: 'in cup P-102', take: '8 min', cautions: 'airbag', isFitted: true },
      { n: 3, zone: 'load', item: 'amp4', work: 'fit and wire', size: 1.5, from: 4, mounting: 'beside the tray, four M6', take: '15 min', cautions: 'power wiring', isFitted: true },
      feed(4),
      { n: 5, zone: 'load', item: 'iface', work: 'set up', from: 5, mounting: 'beside the amplifier', take: '15 min', isFitted: true },
    ],
    factory: [doors(), out('pillars', [
      ['pillarL', 'A pillar trim, left', '6 min', '3 clipB, 1 bag', '', { cautions: 'airbag,driver view', work: 'zone out and back', size: 0.4 }],
      ['pillarR', 'A pillar trim, right', '6 min', '3 clipB, 1 bag', '', { cautions: 'airbag,driver view' }],
    ]), loadFloor(), batteryCover()],
    edges: [
      { graph: 'as built', before: 'panelL panelR', after: 'E1' }, { graph: 'as built', before: 'E1', after: 'P101' },
      { graph: 'as built', before: 'pillarL pillarR', after: 'E2' }, { graph: 'as built', before: 'E2', after: 'P102' },
      { graph: 'as built', before: 'board', after: 'E3 E5' }, { graph: 'as built', before: 'batCover', after: 'E4' },
    ],
    predecessors: ['P101:20 > E1:10', 'P102:30 > E2:10', 'E1:20 > panelL:30', 'E2:20 > pillarL:20', 'E3:20 > E5:20', 'E5:20 > board:20'],
  },
  {
    title: 'Subwoofer enclosure, load floor', kind: 'everyday build', reason: 'Bass without losing the spare wheel.', days: 12, zones: [LOAD, ENGINE],
    parts: [{ zone: 'load', from: 0, parts: [
      { n: 101, name: 'Subwoofer enclosure', family: 'enclosure', recipe: 'box', size: 1.4, needs: 'mdf18 1.1 m², glue 160 g, wood35 40, absorb 0.5 m²', mass: '14 kg', cautions: 'heavy item', removable: 'Four M6 bolts into the lashing-eye threads.', take: '20 min', isFitted: true },
      { n: 102, name: 'Bass grille', family: 'grille', into: [[101, 1]], recipe: 'grille', needs: 'ply6 0.1 m², perf 0.1 m², suede 0.25 m' },
      { n: 103, name: 'Cover of the box', family: 'lid', recipe: 'carpeted panel', size: 1.4, needs: 'ply12 0.6 m², carpet 1 m, spray 90 mL', removable: 'Lifts off.', take: '2 min', isFitted: true },
    ] }],
    lines: [
      { n: 1, zone: 'load', item: 'sub250', work: 'fit and wire', from: 4, mounting: 'in box P-101', take: '10 min', cautions: 'heavy item', isFitted: true },
      { n: 2, zone: 'load', item: 'amp1', work: 'fit and wire', size: 1.4, from: 4, mounting: 'on the box', take: '12 min', cautions: 'power wiring', isFitted: true },
      feed(3),
    ],
    factory: [loadFloor(), batteryCover()],
    edges: [
      { graph: 'as built', before: 'P103', after: 'E1 E2' }, { graph: 'as built', before: 'E1 E2', after: 'P101' },
      { graph: 'as built', before: 'P101', after: 'board' }, { graph: 'as built', before: 'batCover', after: 'E3' },
    ],
    predecessors: ['P101:50 > E1:10', 'P101:50 > E2:10', 'E1:20 > board:20'],
  },
  {
    title: 'Pillar pods, three-way front', kind: 'everyday build', reason: 'Stage in front of the windshield.', days: 17, zones: [PILLARS, LOAD, ENGINE],
    parts: [{ zone: 'pillars', from: 1, parts: [
      { n: 101, name: 'Pillar pod', family: 'pod', fit: 2, recipe: 'molded and covered', mass: '1 kg', cautions: 'airbag,driver view', removable: 'Clips of the factory trim and one bolt; outside the airbag’s way.', take: '12 min', isFitted: true,
        needs: 'fleece 0.3 m², mat450 0.7 m², resin 760 g, hardener 15 g, filler 300 g, foam5 0.3 m, suede 0.4 m, spray 70 mL' },
    ] }],
    lines: [
      { n: 1, zone: 'pillars', item: 'twt25', quantity: 2, work: 'fit and wire', from: 8, mounting: 'in pods P-101', take: '8 min', cautions: 'airbag', isFitted: true },
      { n: 2, zone: 'pillars', item: 'mid80', quantity: 2, work: 'fit and wire', from: 8, mounting: 'in pods P-101', take: '8 min', cautions: 'airbag', isFitted: true },
      { n: 3, zone: 'load', item: 'amp4', work: 'fit and wire', size: 1.5, from: 6, mounting: 'under the load floor', take: '15 min', cautions: 'power wiring', isFitted: true },
      feed(4),
      { n: 5, zone: 'load', item: 'dsp8', work: 'set up', from: 8, mounting: 'beside the amplifier', take: '10 min', isFitted: true },
    ],
    factory: [out('pillars', [
      ['pillarL', 'A pillar trim, left', '6 min', '3 clipB, 1 bag', '', { state: 'out and stored', bin: 1, cautions: 'airbag,driver view', work: 'zone out', size: 0.4 }],
      ['pillarR', 'A pillar trim, right', '6 min', '3 clipB, 1 bag', '', { state: 'out and stored', bin: 1, cautions: 'airbag,driver view' }],
    ]), loadFloor(), batteryCover()],
    edges: [
      { graph: 'as built', before: 'E1 E2', after: 'P101' }, { graph: 'as built', before: 'P101', after: 'pillarL pillarR', note: 'The pods take the place of the trims.' },
      { graph: 'as built', before: 'board', after: 'E3 E5' }, { graph: 'as built', before: 'batCover', after: 'E4' },
    ],
    predecessors: ['P101:80 > E1:10', 'P101:80 > E2:10', 'E1:20 > E5:20', 'E2:20 > E5:20', 'E3:20 > E5:20', 'E5:20 > board:20'],
  },
  {
    title: 'False floor with trimmed lid', kind: 'everyday build', reason: 'A flat floor, and the amplifier under it.', days: 12, zones: [LOAD, ENGINE],
    parts: [{ zone: 'load', from: 0, parts: [
      { n: 100, name: 'False floor', family: 'false floor', recipe: 'sub-assembly', mass: '9 kg', removable: 'Four M6 screws into the lashing-eye threads.', take: '20 min', isFitted: true },
      { n: 101, name: 'Floor frame', family: 'false floor', into: [[100, 1]], recipe: 'box', size: 1.5, needs: 'ply18 1 m², glue 120 g, wood35 36, insert 8' },
      { n: 102, name: 'Lid', family: 'false floor', recipe: 'covered panel', size: 1.6, needs: 'ply12 0.9 m², foam5 1 m, vinyl 1.1 m, spray 140 mL', mass: '7 kg', removable: 'Lifts out by a strap.', take: '2 min', isFitted: true },
      { n: 103, name: 'Side filler', family: 'false floor', fit: 2, recipe: 'covered panel', size: 0.7, needs: 'ply12 0.2 m², foam5 0.3 m, vinyl 0.3 m, spray 40 mL', removable: 'Two screws each.', take: '5 min', isFitted: true },
    ] }],
    lines: [
      { n: 1, zone: 'load', item: 'amp4', work: 'fit and wire', size: 1.4, from: 5, mounting: 'on the floor P-100', take: '15 min', cautions: 'power wiring', isFitted: true },
      { n: 2, zone: 'load', item: 'strip', quantity: 2, work: 'fit and wire', from: 5, mounting: 'under the edge of the lid', take: '5 min', isFitted: true },
      feed(3),
    ],
    factory: [loadFloor(), batteryCover()],
    edges: [
      { graph: 'as built', before: 'P102', after: 'E1 E2 P103' }, { graph: 'as built', before: 'E1 E2 P103', after: 'P100' },
      { graph: 'as built', before: 'P100', after: 'board' }, { graph: 'as built', before: 'batCover', after: 'E3' },
    ],
    predecessors: ['P100:20 > E1:10', 'P102:40 > E2:10', 'E1:20 > board:20'],
  },
  {
    title: 'Seat covers and door cards', kind: 'everyday build', reason: 'The cloth is through at the bolsters.', days: 13, zones: [SEATS, DOORS],
    parts: [{ zone: 'seats', from: 1, parts: [
      { n: 101, name: 'Front seat cover', family: 'cover', fit: 2, recipe: 'cover', size: 1.8, needs: 'hide 1.4 m², thread 50 m, foam5 0.8 m', cautions: 'airbag,seat or belt', removable: 'Hooks at the frame, zip at the back.', take: '40 min', isFitted: true, note: 'Seams beside the airbag as in the vehicle maker’s cover.' },
    ] }, { zone: 'doors', from: 2, parts: [
      { n: 102, name: 'Door card insert', family: 'insert', fit: 2, recipe: 'covered panel', needs: 'ply6 0.2 m², foam5 0.3 m, hide 0.3 m², spray 40 mL', removable: 'Six clips.', take: '10 min', isFitted: true },
    ] }],
    lines: [
      { n: 1, zone: 'doors', item: 'read', quantity: 2, work: 'fit and wire', from: 5, mounting: 'in the inserts', take: '6 min', isFitted: true },
      { n: 2, zone: 'doors', item: 'strip', quantity: 2, work: 'fit and wire', from: 5, mounting: 'below the inserts', take: '6 min', isFitted: true },
      { n: 3, zone: 'seats', name: 'Seat heating mats, left and right', isCustomers: true, quantity: 2, work: 'fit and wire', from: 5, mounting: 'under the cover', take: '15 min', cautions: 'seat or belt', isFitted: true },
    ],
    factory: [out('seats', [
      ['seatL', 'Front seat, left', '20 min', '4 seat', '', { cautions: 'airbag,seat or belt', connectors: 'one plug, yellow', work: 'zone out and back', size: 0.6 }],
      ['seatR', 'Front seat, right', '20 min', '4 seat', '', { cautions: 'airbag,seat or belt', connectors: 'one plug, yellow' }],
    ]), doors()],
    edges: [{ graph: 'as built', before: 'seatL seatR', after: 'P101' }, { graph: 'as built', before: 'P101', after: 'E3' }, { graph: 'as built', before: 'P102', after: 'E1 E2' }],
    predecessors: ['P102:40 > E1:10', 'E1:20 > panelL:30', 'seatL:10 > P101:40', 'P101:40 > seatL:20'],
  },
  {
    title: 'Rack with drawer', kind: 'everyday build', reason: 'Tools that stay where they are put.', days: 18, zones: [LOAD, ENGINE],
    parts: [{ zone: 'load', from: 0, parts: [
      { n: 101, name: 'Rack frame', family: 'frame', recipe: 'welded frame', size: 1.6, needs: 'tube30 7 m, flat30 1.2 m, primer 90 mL', mass: '17 kg', cautions: 'heavy item', removable: 'Four M8 bolts into the lashing-eye threads.', take: '30 min', isFitted: true },
      { n: 102, name: 'Drawer', family: 'drawer', into: [[101, 1]], recipe: 'box', size: 1.2, needs: 'ply12 1.1 m², glue 110 g, wood35 36', mass: '9 kg' },
      { n: 103, name: 'Drawer front', family: 'panel', into: [[102, 1]], recipe: 'painted panel', needs: 'ply18 0.2 m², primer 60 mL, paintG 50 mL, clear 40 mL' },
      { n: 104, name: 'Handle plate', family: 'plate', into: [[102, 1]], recipe: 'milled piece', size: 0.7, needs: 'alu10 0.01 m²' },
    ] }],
    lines: [
      { n: 1, zone: 'load', item: 'slide', work: 'fit only', from: 10, mounting: 'frame to drawer', take: '15 min', cautions: 'moving mechanism', isFitted: true },
      { n: 2, zone: 'load', item: 'latch', work: 'fit only', from: 10, mounting: 'in the drawer front', take: '6 min', isFitted: true },
      { n: 3, zone: 'load', item: 'work', quantity: 2, work: 'fit and wire', from: 10, mounting: 'under the rack', take: '8 min', isFitted: true, needs: 'wire4 6 m' },
    ],
    factory: [loadFloor(), batteryCover()],
    edges: [{ graph: 'as built', before: 'E1 E2 E3', after: 'P101' }, { graph: 'as built', before: 'P101', after: 'board' }],
    predecessors: ['P101:50 > E3:10', 'E1:10 > board:20'],
  },
  {
    title: 'Corner enclosure, molded', kind: 'everyday build', reason: 'Bass in the hollow beside the wheel well.', days: 17,
    zones: [{ key: 'sides', name: 'Cargo area side, right', place: 'side panels' }, ENGINE],
    parts: [{ zone: 'sides', from: 0, parts: [
      { n: 101, name: 'Corner box', family: 'enclosure', recipe: 'molded and painted', size: 1.7, mass: '9 kg', cautions: 'heavy item', removable: 'Three M6 bolts into the lashing-eye threads.', take: '20 min', isFitted: true,
        needs: 'fleece 0.7 m², mat450 3.2 m², resin 3.6 kg, hardener 70 g, filler 800 g, primer 160 mL, paintG 120 mL, clear 100 mL' },
      { n: 102, name: 'Baffle', family: 'baffle', into: [[101, 1]], recipe: 'ring', size: 1.5, needs: 'ply18 0.14 m²' },
      { n: 103, name: 'Grille', family: 'grille', recipe: 'grille', needs: 'ply6 0.08 m², perf 0.08 m², suede 0.2 m', removable: 'Four clips.', take: '3 min', isFitted: true },
    ] }],
    lines: [
      { n: 1, zone: 'sides', item: 'sub250s', work: 'fit and wire', from: 10, mounting: 'in box P-101', take: '10 min', cautions: 'heavy item', isFitted: true },
      { n: 2, zone: 'sides', item: 'amp1', work: 'fit and wire', from: 10, mounting: 'behind the side panel', take: '15 min', cautions: 'power wiring', isFitted: true },
      feed(3),
    ],
    factory: [out('sides', [
      ['side', 'Cargo area side panel, right', '18 min', '6 clipB, 4 pin, 2 s48', '', { connectors: 'lamp', work: 'zone out and back', size: 0.8 }],
    ]), batteryCover()],
    edges: [
      { graph: 'as built', before: 'P103', after: 'E1' }, { graph: 'as built', before: 'E1', after: 'P101' }, { graph: 'as built', before: 'P101', after: 'side' },
      { graph: 'as built', before: 'side', after: 'E2' }, { graph: 'as built', before: 'batCover', after: 'E3' },
    ],
    predecessors: ['P101:80 > E1:10', 'P103:30 > E1:20', 'E2:20 > side:20'],
  },
]
