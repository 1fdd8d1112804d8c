import type { FactoryGroup } from '../tables.ts'

/** The wagon's factory parts: most stand in the vehicle again, some lie in the store. */
export const WAGON_FACTORY: readonly FactoryGroup[] = [
  { zone: 'dash', state: 'fitted', by: 's.penhale', day: -790, backDay: -783, parts: [
    ['grilleL', 'Tweeter grille, left', '3 min', '2 clipA', ''],
    ['grilleR', 'Tweeter grille, right', '3 min', '2 clipA', ''],
    ['tweeterL', 'Factory tweeter, left', '5 min', '1 s42', 'grilleL', { state: 'out and stored', bin: 1, connectors: 'two-way, black', number: 'KL-R0871' }],
    ['tweeterR', 'Factory tweeter, right', '5 min', '1 s42', 'grilleR', { state: 'out and stored', bin: 1, connectors: 'two-way, black', number: 'KL-R0872' }],
    ['glovebox', 'Glovebox', '12 min', '5 s48, 2 pin', '', { cautions: 'airbag', connectors: 'lamp', work: 'zone out and back', size: 0.6, done: 2 }],
  ] },
  { zone: 'doors', state: 'fitted', by: 's.penhale', day: -790, backDay: -783, parts: [
    ['capL', 'Screw cover, grab handle left', '2 min', '', ''],
    ['capR', 'Screw cover, grab handle right', '2 min', '', ''],
    ['mirrorL', 'Mirror triangle, left', '3 min', '2 clipA', ''],
    ['mirrorR', 'Mirror triangle, right', '3 min', '2 clipA', ''],
    ['panelL', 'Door panel, left', '18 min', '10 clipA, 3 s48, 1 m6', 'capL mirrorL', { number: 'KL-T2201', connectors: 'window switches, mirror switch, lamp', needs: 'damping 1.4 m²', work: 'damp and back', size: 1.1, done: 3, cost: '346.00', lead: 8 }],
    ['panelR', 'Door panel, right', '18 min', '10 clipA, 3 s48, 1 m6', 'capR mirrorR', { number: 'KL-T2202', connectors: 'window switch, lamp', cost: '346.00', lead: 8 }],
    ['speakerL', 'Factory speaker, left', '8 min', '4 rivet', 'panelL', { state: 'out and stored', bin: 1, connectors: 'two-way, gray', number: 'KL-R0860' }],
    ['speakerR', 'Factory speaker, right', '8 min', '4 rivet', 'panelR', { state: 'out and stored', bin: 1, connectors: 'two-way, gray', number: 'KL-R0861' }],
  ] },
  { zone: 'seats', state: 'fitted', by: 'b.tarrow', day: -790, backDay: -783, parts: [
    ['cushion', 'Rear seat cushion', '10 min', '2 m8', '', { cautions: 'seat or belt', connectors: 'seat heating' }],
    ['backL', 'Rear backrest, left', '15 min', '2 seat', 'cushion', { cautions: 'airbag,seat or belt' }],
    ['beltL', 'Belt anchor, left', '6 min', '1 belt', 'cushion', { cautions: 'airbag,seat or belt', work: 'zone out and back', size: 0.5, done: 2 }],
    ['cover', 'Luggage cover', '1 min', '', '', { state: 'out with the customer', place: 'Penbrook, Gideon Farrow’s office', number: 'KL-B0310', cost: '265.00', lead: 10 }],
  ] },
  { zone: 'sides', state: 'fitted', by: 's.penhale', day: -790, backDay: -783, bin: 2, parts: [
    ['gateTrimL', 'Tailgate pillar trim, left', '5 min', '3 clipB', ''],
    ['gateTrimR', 'Tailgate pillar trim, right', '5 min', '3 clipB', ''],
    ['eyesL', 'Lashing eyes, left', '5 min', '2 m8', ''],
    ['eyesR', 'Lashing eyes, right', '5 min', '2 m8', ''],
    ['sideL', 'Cargo area side panel, left', '20 min', '6 clipB, 4 pin, 2 s48', 'gateTrimL eyesL ~backL', { connectors: 'lamp, 12 V outlet', work: 'zone out and back', size: 1.2, done: 2, number: 'KL-T3301', cost: '412.00', lead: 15 }],
    ['sideR', 'Cargo area side panel, right', '20 min', '6 clipB, 4 pin, 2 s48', 'gateTrimR eyesR', { state: 'altered', condition: 'slot cut', number: 'KL-T3302', cost: '412.00', lead: 15 }],
    ['jackHolder', 'Jack and holder', '5 min', '1 nut8', 'sideL', { state: 'out and stored', bin: 2, cautions: 'spare wheel' }],
  ] },
  { zone: 'floor', state: 'out and stored', bin: 3, by: 'r.istead', day: -790, parts: [
    ['sillTrim', 'Load sill trim', '6 min', '8 clipA', 'cover', { state: 'damaged', bin: 2, condition: 'crack beside the latch, from the store', number: 'KL-T3340', cost: '94.00', lead: 6 }],
    ['floorBoard', 'Load floor board', '4 min', '', 'cover', { number: 'KL-T3310' }],
    ['tray', 'Foam tool tray', '2 min', '', 'floorBoard', { state: 'missing', condition: 'not in the store at the count in spring', cautions: 'spare wheel', number: 'KL-T3315', cost: '58.00', lead: 5 }],
    ['carpet', 'Cargo area carpet', '10 min', '6 pin', 'floorBoard sillTrim', { state: 'altered', condition: 'slit 40 mm', number: 'KL-T3320', cost: '188.00', lead: 12, work: 'zone out', size: 0.6, done: 1 }],
    ['plugCover', 'Cover of the service plug', '2 min', '2 clipA', 'floorBoard', { state: 'fitted', cautions: 'high voltage' }],
  ] },
  { zone: 'roof', state: 'fitted', by: 'b.tarrow', day: -790, backDay: -783, parts: [
    ['gripRL', 'Grab handle, rear left', '4 min', '2 s50', ''],
    ['gripRR', 'Grab handle, rear right', '4 min', '2 s50', ''],
    ['gateUpper', 'Tailgate upper trim', '5 min', '4 clipC', ''],
    ['linerRear', 'Headliner, rear edge', '15 min', '6 clipC', 'gripRL gripRR gateUpper', { cautions: 'airbag', work: 'zone out and back', size: 0.5, done: 2 }],
    ['lampRear', 'Cargo area lamp', '3 min', '', '', { state: 'out and stored', bin: 4, connectors: 'two-way, white', number: 'KL-L0114' }],
  ] },
]
