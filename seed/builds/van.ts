import type { BuildTables } from './tables.ts'

/** Only quoted: an electric van for a mobile library, nothing begun. */
export const VAN: BuildTables = {
  number: 243, vehicle: 'library',
  typed: {
    title: 'Story-hour van', kind: 'everyday build', holding: 'owned',
    reason: 'Reading aloud from the open side door; light and power for the stops.',
    wishes: 'Clear speech for thirty children outside. Nothing into the floor: the traction battery lies under it.',
    budget: '9,500.00',
    note: 'High-voltage vehicle: every job begins with the maker’s isolation procedure, by a qualified person. Second battery charges from the 12 V side only.',
  },
  dates: { deadline: 53, promisedOn: 43 },
  stages: [['intake', -7], ['scope', -6], ['quote', -2]],
  manual: 'Emmeridge rescue and service sheet 3',
  zones: [
    { key: 'doors', name: 'Cab doors', place: 'front doors' },
    { key: 'sides', name: 'Book wall, left', place: 'side panels' },
    { key: 'wall', name: 'Cab divider', place: 'rear wall' },
    { key: 'roof', name: 'Reading light', place: 'headliner' },
    { key: 'load', name: 'Battery box', place: 'load floor', note: 'Fixed to the factory rails alone; no hole in the floor.' },
  ],
  places: [
    { key: 'column', zone: 'sides', typed: { name: 'Column, upper opening', checks: 'mounting depth,grille clearance,cutout', depth: '55 mm', grille: '30 mm', length: '143 mm', width: '143 mm', largestSpacer: '12 mm',
      measured: 'From the drawing of P-101' } },
  ],
  bins: [],
  parts: [
    { zone: 'sides', from: 0, parts: [
      { n: 101, name: 'Speaker column', family: 'enclosure', fit: 2, recipe: 'box', size: 1.2, needs: 'ply12 0.8 m², glue 90 g, wood35 30, absorb 0.3 m²', mass: '6.5 kg', drawing: 'D-101', removable: 'Two bolts into the factory rail.', take: '10 min', cautions: 'heavy item' },
      { n: 102, name: 'Column grille', family: 'grille', into: [[101, 1]], recipe: 'grille', needs: 'ply6 0.1 m², perf 0.12 m², suede 0.3 m' },
    ] },
    { zone: 'load', from: 0, parts: [
      { n: 103, name: 'Battery box', family: 'box', recipe: 'box', size: 1.4, needs: 'ply18 0.7 m², glue 80 g, wood35 32', mass: '9 kg', removable: 'Four clamps on the factory rails.', take: '25 min', cautions: 'second battery' },
    ] },
    { zone: 'wall', from: 0, parts: [
      { n: 104, name: 'Device board', family: 'amplifier board', recipe: 'amplifier board', needs: 'ply12 0.3 m², carpet 0.4 m, insert 12, m6x20 12', mass: '4 kg', removable: 'Four M6 into the divider’s own threads.', take: '15 min' },
    ] },
  ],
  lines: [
    { n: 1, zone: 'sides', item: 'cx165', quantity: 4, work: 'fit and wire', mounting: 'two in each column P-101', take: '10 min', kit: 'speaker', adjusted: 'wire25 4 m', at: 'column' },
    { n: 2, zone: 'wall', item: 'amp4', work: 'fit and wire', mounting: 'on board P-104', take: '10 min', cautions: 'power wiring' },
    { n: 3, zone: 'wall', item: 'mic', work: 'set up', mounting: 'on board P-104', take: '5 min' },
    { n: 4, zone: 'load', item: 'lfp', work: 'fit and wire', size: 1.4, mounting: 'in box P-103, strap', take: '30 min', cautions: 'second battery,heavy item' },
    { n: 5, zone: 'load', item: 'dcdc', work: 'run and wire', mounting: 'on box P-103', take: '40 min', cautions: 'power wiring,high voltage', needs: 'wire35 4 m, wire35b 4 m, lug 6, grommet 1, sleeve 4 m' },
    { n: 6, zone: 'load', item: 'bladeblk', work: 'fit and wire', mounting: 'on box P-103', take: '10 min', cautions: 'power wiring', needs: 'wire4 9 m' },
    { n: 9, zone: 'load', item: 'mainfuse', work: 'fit only', mounting: 'at the lithium battery, 120 mm', take: '10 min', cautions: 'power wiring', needs: 'lug 2' },
    { n: 7, zone: 'roof', item: 'strip', quantity: 4, work: 'fit only', mounting: 'in the roof rails', take: '10 min' },
    { n: 8, zone: 'doors', item: 'cam', isCustomers: true, work: 'fit and wire', mounting: 'rear door', take: '20 min', cautions: 'driver assistance' },
  ],
  factory: [
    { zone: 'doors', state: 'fitted', by: 's.penhale', day: -2, parts: [
      ['panelL', 'Cab door panel, left', '15 min', '8 clipA, 2 s48', '', { number: 'EC-T0101' }],
      ['panelR', 'Cab door panel, right', '15 min', '8 clipA, 2 s48', '', { number: 'EC-T0102' }],
    ] },
    { zone: 'sides', state: 'fitted', by: 's.penhale', day: -2, parts: [
      ['sideUpper', 'Side lining, upper left', '15 min', '12 pin, 4 s48', '', { number: 'EC-T0401', work: 'zone out and back', size: 0.8 }],
      ['sideLower', 'Side lining, lower left', '12 min', '10 pin, 4 s48', 'sideUpper'],
    ] },
    { zone: 'wall', state: 'fitted', by: 's.penhale', day: -2, parts: [
      ['divider', 'Divider lining', '12 min', '8 pin, 2 m6', ''],
    ] },
    { zone: 'roof', state: 'fitted', by: 's.penhale', day: -2, parts: [
      ['roofLining', 'Roof lining, middle', '18 min', '10 clipC, 2 s48', 'sideUpper', { cautions: 'airbag', work: 'zone out and back', size: 0.7 }],
      ['loadLamp', 'Load lamp', '3 min', '', '', { connectors: 'one plug' }],
    ] },
  ],
  edges: [
    { graph: 'as built', before: 'P101', after: 'sideUpper', note: 'The columns will stand in front of the lining.' },
    { graph: 'as built', before: 'P104', after: 'divider', note: 'The board will hang on the divider.' },
    { graph: 'as built', before: 'E7', after: 'roofLining', kind: 'loosened' },
    { graph: 'going back', before: 'sideLower', after: 'sideUpper' },
  ],
  alterations: [],
  points: [
    { zone: 'load', text: 'Current that the 12 V side of the vehicle may give: ask the maker in writing.', person: 'e.dunmoor', stopsWork: true },
    { zone: 'sides', text: 'Consent for four holes in the lining goes with the quote.', person: 'c.oake' },
    { zone: 'doors', text: 'Shelf plan comes from the library: Anselm sends it.', person: 'n.corvane' },
  ],
  predecessors: ['P101:50 > E1:10', 'P104:40 > E2:10', 'P103:50 > E4:10'],
  remarks: [],
}
