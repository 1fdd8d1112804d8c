import type { PartGroup } from '../tables.ts'

/** Made parts of the cab: dash, console, doors, pillars and seats. */
export const CAB_PARTS: readonly PartGroup[] = [
  { zone: 'dash', from: -15, parts: [
    { n: 110, name: 'Screen frame', family: 'dash frame', recipe: 'sub-assembly', mass: '0.9 kg', drawing: 'D-110', done: 0,
      removable: 'Two M5 screws behind the vent, frame tips out.', take: '10 min', cautions: 'driver view' },
    { n: 111, name: 'Screen frame shell', family: 'dash frame', into: [[110, 1]], recipe: 'molded and painted', size: 0.6, done: 5, now: 'running',
      needs: 'fleece 0.2 m², mat450 0.4 m², resin 420 g, hardener 8 g, filler 180 g, primer 60 mL, paintG 40 mL' },
    { n: 112, name: 'Screen bezel', family: 'bezel', into: [[110, 1]], recipe: 'printed piece', needs: 'filament 85 g', done: 3 },
    { n: 113, name: 'Screen bracket', family: 'bracket', into: [[110, 2]], recipe: 'bracket', needs: 'alu2 0.03 m², m6x20 2', done: 3 },
  ] },
  { zone: 'console', from: -13, parts: [
    { n: 210, name: 'Console tray', family: 'console', recipe: 'sub-assembly', drawing: 'D-210', mass: '1.4 kg', removable: 'Four clips and one M6 under the mat.', take: '10 min' },
    { n: 211, name: 'Tray shell', family: 'console', into: [[210, 1]], recipe: 'molded and covered', size: 0.65, done: 4, now: 'waiting',
      needs: 'fleece 0.25 m², mat450 0.6 m², resin 640 g, hardener 12 g, filler 200 g, foam5 0.3 m, hide 0.35 m², spray 60 mL' },
    { n: 212, name: 'Tray mat', family: 'lining', into: [[210, 1]], recipe: 'carpeted panel', size: 0.5, needs: 'ply6 0.06 m², suede 0.2 m', done: 1 },
    { n: 213, name: 'Knob plate', family: 'plate', into: [[210, 1]], recipe: 'milled piece', size: 0.6, needs: 'alu10 0.01 m²', done: 3, now: 'waiting' },
  ] },
  { zone: 'frontDoors', from: -18, parts: [
    { n: 310, name: 'Door pod, left', family: 'pod', recipe: 'sub-assembly', mass: '2.8 kg', drawing: 'D-310', done: 2, removable: 'Five M5 screws through the map pocket.', take: '15 min' },
    { n: 311, name: 'Pod shell, left', family: 'pod', into: [[310, 1]], recipe: 'molded and covered', size: 1.1, done: 8,
      needs: 'fleece 0.45 m², mat450 1.3 m², resin 1.5 kg, hardener 30 g, filler 420 g, foam5 0.5 m, vinyl 0.6 m, spray 110 mL' },
    { n: 312, name: 'Midbass ring', family: 'ring', into: [[310, 1], [320, 1]], recipe: 'ring', size: 1.2, needs: 'ply18 0.09 m²', done: 2 },
    { n: 313, name: 'Pod grille', family: 'grille', into: [[310, 1], [320, 1]], recipe: 'grille', needs: 'ply6 0.07 m², perf 0.05 m², suede 0.2 m', done: 3 },
    { n: 320, name: 'Door pod, right', family: 'pod', recipe: 'sub-assembly', mass: '2.8 kg', drawing: 'D-310', removable: 'Five M5 screws through the map pocket.', take: '15 min' },
    { n: 321, name: 'Pod shell, right', family: 'pod', into: [[320, 1]], recipe: 'molded and covered', size: 1.1, done: 5, now: 'running', from: -9,
      needs: 'fleece 0.45 m², mat450 1.3 m², resin 1.5 kg, hardener 30 g, filler 420 g, foam5 0.5 m, vinyl 0.6 m, spray 110 mL' },
  ] },
  { zone: 'rearDoors', from: -12, parts: [
    { n: 410, name: 'Speaker ring, rear door', family: 'ring', fit: 2, recipe: 'ring', needs: 'ply18 0.07 m²', done: 2, isFitted: true, mass: '0.5 kg', removable: 'Four M5 screws into the factory holes.', take: '10 min' },
    { n: 420, name: 'Grille, rear door', family: 'grille', fit: 2, recipe: 'grille', needs: 'ply6 0.06 m², perf 0.05 m², suede 0.15 m', done: 1, removable: 'Four clips.', take: '5 min' },
  ] },
  { zone: 'pillars', from: -20, parts: [
    { n: 510, name: 'Pillar pod, left', family: 'pod', recipe: 'molded and covered', size: 1.15, mass: '1.1 kg', drawing: 'D-510', done: 8, cautions: 'airbag,driver view',
      needs: 'fleece 0.3 m², mat450 0.7 m², resin 760 g, hardener 15 g, filler 300 g, foam5 0.3 m, suede 0.4 m, spray 70 mL',
      removable: 'Clips of the factory trim and one bolt; outside the airbag’s way.', take: '12 min', note: 'Fit to a bought second pair of trims: the factory pair is stored.' },
    { n: 520, name: 'Pillar pod, right', family: 'pod', recipe: 'molded and covered', size: 1.15, mass: '1.1 kg', drawing: 'D-510', done: 6, now: 'running', cautions: 'airbag,driver view',
      needs: 'fleece 0.3 m², mat450 0.7 m², resin 760 g, hardener 15 g, filler 300 g, foam5 0.3 m, suede 0.4 m, spray 70 mL',
      removable: 'Clips of the factory trim and one bolt; outside the airbag’s way.', take: '12 min' },
    { n: 511, name: 'Midrange cup', family: 'cup', into: [[510, 1], [520, 1]], recipe: 'printed piece', size: 0.8, needs: 'filament 110 g', done: 3 },
  ] },
  { zone: 'seats', from: -8, parts: [
    { n: 710, name: 'Rear backrest cover', family: 'cover', recipe: 'cover', size: 1.3, needs: 'hide 1.6 m², thread 60 m, foam5 1.1 m', done: 1, removable: 'Zip at the lower edge.', take: '20 min' },
    { n: 711, name: 'Backrest spacer', family: 'bracket', fit: 4, recipe: 'bracket', needs: 'flat30 0.12 m', done: 3, cautions: 'seat or belt',
      note: 'Carries the trim only: seat and belt stay on their own anchorages.', removable: 'One M8 each.', take: '5 min' },
    { n: 720, name: 'Box under the rear seat', family: 'box', recipe: 'box', size: 0.9, needs: 'ply12 0.9 m², glue 90 g, wood35 28, absorb 0.4 m²', mass: '8 kg', removable: 'Four M6 screws.', take: '15 min', done: 2 },
    { n: 721, name: 'Lid of the seat box', family: 'lid', into: [[720, 1]], recipe: 'carpeted panel', needs: 'ply12 0.35 m², carpet 0.5 m, spray 50 mL' },
  ] },
]
