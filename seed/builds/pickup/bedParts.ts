import type { PartGroup } from '../tables.ts'

/** The bed box: drawers, announcement horns and the folding lectern for flying displays. */
export const BED_PARTS: readonly PartGroup[] = [
  { zone: 'bed', from: -17, parts: [
    { n: 900, name: 'Bed box', family: 'bed box', recipe: 'assembly', size: 3.5, mass: '96 kg', drawing: 'D-900', cautions: 'heavy item,added mass',
      removable: 'Six M8 bolts into the tie-down threads; four people or the hoist.', take: '1:30' },
    { n: 910, name: 'Box carcass', family: 'bed box', into: [[900, 1]], recipe: 'sub-assembly', size: 3, needs: 'glue 300 g, wood35 120, m6x20 16', drawing: 'D-910', done: 1 },
    { n: 911, name: 'Carcass side', family: 'panel', into: [[910, 2]], recipe: 'painted panel', size: 1.5, needs: 'ply18 0.85 m², primer 160 mL, bedliner 400 mL', done: 4 },
    { n: 912, name: 'Carcass floor', family: 'panel', into: [[910, 1]], recipe: 'painted panel', size: 1.6, needs: 'ply18 1.5 m², primer 280 mL, bedliner 700 mL', done: 4 },
    { n: 913, name: 'Bulkhead', family: 'panel', into: [[910, 1]], recipe: 'painted panel', size: 0.9, needs: 'ply18 0.6 m², primer 120 mL, bedliner 280 mL', done: 4 },
    { n: 920, name: 'Drawer, left', family: 'drawer', into: [[900, 1]], recipe: 'sub-assembly', size: 1.2, needs: 'glue 90 g, wood35 40', drawing: 'D-920' },
    { n: 921, name: 'Drawer side', family: 'panel', into: [[920, 2], [930, 2]], recipe: 'panel', needs: 'ply12 0.28 m²', done: 3 },
    { n: 922, name: 'Drawer floor', family: 'panel', into: [[920, 1], [930, 1]], recipe: 'carpeted panel', size: 1.2, needs: 'ply12 0.6 m², carpet 0.7 m, spray 90 mL', done: 2 },
    { n: 923, name: 'Drawer front', family: 'panel', into: [[920, 1], [930, 1]], recipe: 'painted panel', needs: 'ply18 0.2 m², primer 50 mL, paintB 40 mL, clear 40 mL', done: 3, now: 'waiting' },
    { n: 924, name: 'Drawer pull', family: 'pull', into: [[920, 1], [930, 1]], recipe: 'milled piece', size: 0.7, needs: 'alu10 0.01 m²', done: 3, now: 'waiting' },
    { n: 930, name: 'Drawer, right', family: 'drawer', into: [[900, 1]], recipe: 'sub-assembly', size: 1.2, needs: 'glue 90 g, wood35 40', drawing: 'D-920' },
    { n: 940, name: 'Horn cabinet', family: 'enclosure', into: [[900, 2]], recipe: 'box', size: 1.1, needs: 'ply18 0.5 m², glue 80 g, wood35 26, bedliner 200 mL', mass: '7 kg', done: 2 },
    { n: 941, name: 'Horn baffle', family: 'baffle', into: [[940, 1]], recipe: 'ring', size: 1.3, needs: 'ply18 0.12 m²', done: 2 },
    { n: 950, name: 'Lid', family: 'lid', into: [[900, 1]], recipe: 'sub-assembly', size: 2.2, drawing: 'D-950', cautions: 'moving mechanism' },
    { n: 951, name: 'Lid skin', family: 'lid', into: [[950, 1]], recipe: 'sheetwork', size: 1.6, needs: 'alu2 1.9 m²', done: 1 },
    { n: 952, name: 'Lid frame', family: 'frame', into: [[950, 1]], recipe: 'welded frame', size: 1.3, needs: 'tube30 6.2 m, primer 90 mL', done: 3, now: 'running', from: -6 },
    { n: 953, name: 'Strut bracket', family: 'bracket', into: [[952, 4]], recipe: 'bracket', needs: 'flat30 0.14 m', done: 3 },
    { n: 960, name: 'Folding lectern', family: 'lectern', recipe: 'sub-assembly', size: 1.2, drawing: 'D-960', mass: '6.5 kg', removable: 'Lifts out of its socket, one pin.', take: '2 min' },
    { n: 961, name: 'Lectern top', family: 'panel', into: [[960, 1]], recipe: 'painted panel', size: 0.9, needs: 'ply12 0.25 m², walnut 0.3 m², clear 70 mL' },
    { n: 962, name: 'Lectern post', family: 'frame', into: [[960, 1]], recipe: 'welded frame', size: 0.6, needs: 'tube30 1.3 m, primer 20 mL' },
    { n: 963, name: 'Lectern hinge block', family: 'block', into: [[960, 2]], recipe: 'milled piece', size: 0.7, needs: 'alu10 0.012 m²' },
    { n: 970, name: 'Tie-down plate', family: 'plate', fit: 6, recipe: 'bracket', size: 1.2, needs: 'flat30 0.2 m', done: 3, isFitted: true, removable: 'The factory’s own bolt.', take: '3 min' },
  ] },
  { zone: 'engine', from: -20, parts: [
    { n: 1010, name: 'Main fuse bracket', family: 'bracket', recipe: 'bracket', needs: 'flat30 0.15 m', done: 3, isFitted: true, removable: 'One nut M6 on the battery tray.', take: '5 min', cautions: 'power wiring' },
  ] },
  { zone: 'under', from: -19, parts: [
    { n: 1110, name: 'Cable guard', family: 'guard', fit: 3, recipe: 'sheetwork', size: 0.8, needs: 'alu2 0.09 m², rivetNut 4', done: 3, isFitted: true, removable: 'Two M6 bolts each.', take: '6 min', cautions: 'lift' },
  ] },
]
