import type { PartGroup } from '../tables.ts'

/** The roof console: switches, two-way radio and light under the headliner. */
export const ROOF_PARTS: readonly PartGroup[] = [
  { zone: 'roof', from: -22, parts: [
    { n: 600, name: 'Roof console', family: 'roof console', recipe: 'assembly', size: 2.2, mass: '7.4 kg', drawing: 'D-600', cautions: 'airbag,heavy item',
      removable: 'Six M6 bolts into the two roof bows, two plugs at the front.', take: '40 min' },
    { n: 610, name: 'Switch panel', family: 'panel', into: [[600, 1]], recipe: 'sub-assembly', drawing: 'D-610', done: 1 },
    { n: 611, name: 'Switch plate', family: 'plate', into: [[610, 1]], recipe: 'milled piece', size: 0.8, needs: 'alu10 0.02 m²', done: 4, from: -26 },
    { n: 612, name: 'Switch housing', family: 'housing', into: [[610, 1]], recipe: 'printed piece', needs: 'filament 140 g', done: 3 },
    { n: 613, name: 'Panel bracket', family: 'bracket', into: [[610, 2]], recipe: 'bracket', size: 0.8, needs: 'alu2 0.02 m²', done: 3 },
    { n: 620, name: 'Radio tray', family: 'tray', into: [[600, 1]], recipe: 'sub-assembly', drawing: 'D-620', done: 2 },
    { n: 621, name: 'Tray sheet', family: 'tray', into: [[620, 1]], recipe: 'sheetwork', needs: 'alu2 0.12 m²', done: 3 },
    { n: 622, name: 'Radio clamp', family: 'bracket', into: [[620, 2]], recipe: 'bracket', size: 0.8, needs: 'flat30 0.1 m', done: 3 },
    { n: 623, name: 'Radio cover', family: 'cover', into: [[620, 1]], recipe: 'covered panel', size: 0.7, needs: 'ply6 0.05 m², foam5 0.1 m, suede 0.2 m, spray 20 mL', done: 4 },
    { n: 630, name: 'Light bar', family: 'light bar', into: [[600, 1]], recipe: 'sub-assembly', drawing: 'D-630' },
    { n: 631, name: 'Light cover, opal', family: 'light bar', into: [[630, 1]], recipe: 'panel', size: 0.7, needs: 'acrylic5 0.11 m²', done: 3 },
    { n: 632, name: 'Light channel', family: 'light bar', into: [[630, 1]], recipe: 'sheetwork', size: 0.8, needs: 'alu2 0.14 m²', done: 2, now: 'running' },
    { n: 633, name: 'Reading-light ring', family: 'ring', into: [[630, 4]], recipe: 'printed piece', size: 0.6, needs: 'filament 22 g', done: 3 },
    { n: 640, name: 'Console shell', family: 'roof console', into: [[600, 1]], recipe: 'molded and covered', size: 2.4, done: 5, now: 'running', drawing: 'D-640',
      needs: 'fleece 0.9 m², mat450 2.6 m², resin 2.9 kg, hardener 58 g, filler 700 g, foam5 0.8 m, suede 0.9 m, spray 180 mL' },
    { n: 641, name: 'Roof carrier', family: 'frame', into: [[600, 1]], recipe: 'welded frame', size: 0.7, needs: 'flat30 2.2 m, primer 40 mL, rivetNut 6', done: 5, mass: '2.1 kg' },
  ] },
]
