import type { PartGroup } from '../tables.ts'

/** The rebuilt rear wall: bass, amplifiers and the glove locker behind the rear seat. */
export const WALL_PARTS: readonly PartGroup[] = [
  { zone: 'wall', from: -26, parts: [
    { n: 800, name: 'Rear wall', family: 'rear wall', recipe: 'assembly', size: 4, mass: '58 kg', drawing: 'D-800', cautions: 'heavy item,added mass',
      removable: 'Eight M8 bolts into the factory threads of the rear wall, after the facing and both subwoofer enclosures.', take: '1:15' },
    { n: 810, name: 'Steel frame behind the seat', family: 'frame', into: [[800, 1]], recipe: 'welded frame', size: 2.4, needs: 'tube30 7.4 m, flat30 1.6 m, primer 120 mL', mass: '14.5 kg', done: 5, drawing: 'D-810' },
    { n: 811, name: 'Frame foot', family: 'plate', into: [[810, 6]], recipe: 'milled piece', size: 0.6, needs: 'alu10 0.008 m²', done: 4, from: -31 },
    { n: 820, name: 'Subwoofer enclosure, left', family: 'enclosure', into: [[800, 1]], recipe: 'box', size: 1.3, needs: 'mdf18 0.9 m², glue 160 g, wood35 44, absorb 0.5 m²', mass: '13 kg', done: 5, cautions: 'heavy item' },
    { n: 821, name: 'Bass baffle', family: 'baffle', into: [[820, 1], [830, 1]], recipe: 'ring', size: 1.5, needs: 'ply18 0.16 m²', done: 2 },
    { n: 822, name: 'Brace', family: 'brace', into: [[820, 2], [830, 2]], recipe: 'ring', size: 0.8, needs: 'mdf18 0.06 m²', done: 2 },
    { n: 830, name: 'Subwoofer enclosure, right', family: 'enclosure', into: [[800, 1]], recipe: 'box', size: 1.3, needs: 'mdf18 0.9 m², glue 160 g, wood35 44, absorb 0.5 m²', mass: '13 kg', done: 4, cautions: 'heavy item' },
    { n: 840, name: 'Amplifier board', family: 'amplifier board', into: [[800, 1]], recipe: 'amplifier board', size: 1.7, needs: 'ply12 0.5 m², carpet 0.6 m, m6x20 24, insert 24', mass: '6 kg', done: 2, now: 'running', drawing: 'D-840', cautions: 'power wiring' },
    { n: 841, name: 'Cable duct', family: 'duct', into: [[840, 2]], recipe: 'sheetwork', size: 0.7, needs: 'alu2 0.08 m²', done: 3 },
    { n: 850, name: 'Padded facing', family: 'cover', into: [[800, 1]], recipe: 'sub-assembly', size: 2, drawing: 'D-850' },
    { n: 851, name: 'Facing, middle', family: 'facing', into: [[850, 1]], recipe: 'covered panel', size: 2, needs: 'ply6 0.5 m², foam5 0.6 m, hide 0.6 m², spray 90 mL', done: 2, now: 'waiting' },
    { n: 852, name: 'Facing, left', family: 'facing', into: [[850, 1]], recipe: 'covered panel', size: 1.6, needs: 'ply6 0.3 m², foam5 0.4 m, hide 0.4 m², spray 60 mL', done: 2 },
    { n: 853, name: 'Facing, right', family: 'facing', into: [[850, 1]], recipe: 'covered panel', size: 1.6, needs: 'ply6 0.3 m², foam5 0.4 m, hide 0.4 m², spray 60 mL', done: 2 },
    { n: 854, name: 'Bass grille', family: 'grille', into: [[852, 1], [853, 1]], recipe: 'grille', size: 1.2, needs: 'ply6 0.1 m², perf 0.08 m², suede 0.25 m', done: 3, from: -24 },
    { n: 860, name: 'Glove locker', family: 'locker', into: [[800, 1]], recipe: 'sub-assembly', size: 1.2, drawing: 'D-860', note: 'Holds six gauntlets and the lures; airs to the cab.', done: 1 },
    { n: 861, name: 'Locker carcass', family: 'locker', into: [[860, 1]], recipe: 'box', size: 0.7, needs: 'ply12 0.7 m², glue 70 g, wood35 20', done: 5 },
    { n: 862, name: 'Locker door', family: 'door', into: [[860, 1]], recipe: 'painted panel', size: 0.8, needs: 'ply12 0.16 m², walnut 0.2 m², primer 40 mL, clear 50 mL', done: 4, from: -24 },
    { n: 863, name: 'Locker shelf', family: 'shelf', into: [[860, 2]], recipe: 'panel', size: 0.6, needs: 'ply6 0.12 m²', done: 3 },
  ] },
]
