import type { FactoryGroup } from '../tables.ts'

const BELT = { cautions: 'airbag,seat or belt' }

/** Factory parts from the rear seat backward, and outside. */
export const BODY_FACTORY: readonly FactoryGroup[] = [
  { zone: 'seats', state: 'out and stored', bin: 7, by: 'r.istead', day: -31, parts: [
    ['headrestL', 'Headrest, rear left', '1 min', '', ''],
    ['headrestM', 'Headrest, rear middle', '1 min', '', ''],
    ['headrestR', 'Headrest, rear right', '1 min', '', ''],
    ['cushionL', 'Rear seat cushion, left', '8 min', '2 m8, 2 clipB', '', BELT],
    ['cushionR', 'Rear seat cushion, right', '8 min', '2 m8, 2 clipB', '', BELT],
    ['buckles', 'Rear belt buckles', '10 min', '3 belt', 'cushionL cushionR', BELT],
    ['backrest', 'Rear backrest', '18 min', '4 seat, 2 m8x, 2 nut8', 'headrestL headrestM headrestR buckles', { ...BELT, cautions: 'airbag,seat or belt,heavy item', number: 'BH-C4000', work: 'zone out and back', size: 1.4, done: 1 }],
    ['beltRL', 'Lower belt anchor, rear left', '5 min', '1 belt', 'cushionL', { ...BELT, state: 'loosened' }],
    ['beltRR', 'Lower belt anchor, rear right', '5 min', '1 belt', 'cushionR', { ...BELT, state: 'loosened' }],
    ['jackCover', 'Jack cover under the seat', '2 min', '2 pin, 1 clipA', 'cushionR', { cautions: 'spare wheel' }],
    ['jack', 'Jack and tools', '3 min', '1 nut8', 'jackCover', { state: 'out with the customer', place: 'Larkmoor, in the mews', cautions: 'spare wheel' }],
    ['ampFactory', 'Factory amplifier', '8 min', '3 nut6, 1 m6x', 'cushionL', { connectors: 'two plugs', number: 'BH-S1100' }],
  ] },
  { zone: 'wall', state: 'out and stored', bin: 8, by: 'r.istead', day: -31, parts: [
    ['pillarCL', 'C pillar trim, left', '8 min', '5 clipB, 1 s48, 1 pin', 'backrest ~beltRL', { ...BELT, number: 'BH-T2301' }],
    ['pillarCR', 'C pillar trim, right', '8 min', '5 clipB, 1 s48, 1 pin', 'backrest ~beltRR', { ...BELT, number: 'BH-T2302' }],
    ['sillRL', 'Sill trim, rear left', '4 min', '4 clipA, 1 pin', 'cushionL'],
    ['sillRR', 'Sill trim, rear right', '4 min', '4 clipA, 1 pin', 'cushionR'],
    ['tether', 'Child-seat tether covers', '3 min', '3 clipA', 'backrest', BELT],
    ['wallTrim', 'Rear wall lining', '12 min', '9 clipB, 4 pin, 2 s48', 'backrest pillarCL pillarCR tether', { bin: 13, number: 'BH-T4000', cost: '298.00', lead: 14, condition: 'two cutouts made', work: 'zone out and back', size: 1.1, done: 1 }],
    ['wallFelt', 'Felt behind the lining', '5 min', '6 pin', 'wallTrim', { bin: 13 }],
    ['ventL', 'Cab air outlet, left', '4 min', '4 clipA', 'wallFelt', { state: 'fitted' }],
    ['ventR', 'Cab air outlet, right', '4 min', '4 clipA', 'wallFelt', { state: 'fitted' }],
    ['jackBox', 'Storage tray behind the seat', '6 min', '4 m6x, 2 nut6', 'backrest'],
    ['windowTrim', 'Rear window lower trim', '5 min', '5 clipB, 2 s42', 'wallTrim'],
  ] },
  { zone: 'bed', state: 'out and stored', bin: 9, by: 'r.istead', day: -28, parts: [
    ['tailgateTrim', 'Tailgate inner cover', '8 min', '8 m6x, 4 clipB', '', { bin: 14 }],
    ['bedMat', 'Bed mat', '4 min', '', '', { state: 'disposed with consent', bin: null, condition: 'worn through, thrown away as agreed', cost: '145.00', lead: 7 }],
    ['tieFL', 'Tie-down, front left', '3 min', '1 m8', 'bedMat'],
    ['tieFR', 'Tie-down, front right', '3 min', '1 m8', 'bedMat'],
    ['tieML', 'Tie-down, middle left', '3 min', '1 m8', 'bedMat'],
    ['tieMR', 'Tie-down, middle right', '3 min', '1 m8', 'bedMat'],
    ['tieRL', 'Tie-down, rear left', '3 min', '1 m8', 'bedMat'],
    ['tieRR', 'Tie-down, rear right', '3 min', '1 m8', 'bedMat'],
    ['railL', 'Bed rail cap, left', '8 min', '8 clipB, 2 m6x', '', { bin: 14 }],
    ['railR', 'Bed rail cap, right', '8 min', '8 clipB, 2 m6x', '', { bin: 14 }],
    ['bedLamp', 'Bed lamp', '4 min', '2 s42, 1 clipA', 'railL', { connectors: 'one plug' }],
    ['bedLiner', 'Bed liner', '25 min', '10 m6x, 4 pin', 'tieFL tieFR tieML tieMR tieRL tieRR bedLamp railL railR', { bin: 14, cautions: 'heavy item', number: 'BH-B0100', work: 'zone out and back', size: 1.1, done: 1 }],
    ['gateHandle', 'Tailgate handle with camera', '8 min', '2 nut6, 2 clipA', 'tailgateTrim', { state: 'fitted', cautions: 'driver assistance', connectors: 'camera, lock' }],
  ] },
  { zone: 'engine', state: 'loosened', by: 'e.dunmoor', day: -16, parts: [
    ['batCover', 'Battery cover', '1 min', '', '', { state: 'fitted' }],
    ['batClamp', 'Battery clamp', '4 min', '1 m8, 1 nut8', 'batCover', { cautions: 'power wiring' }],
    ['wiperArms', 'Wiper arms', '6 min', '2 nut8', '', { state: 'out and stored', bin: 10, note: 'Their rest marked on the glass with tape.' }],
    ['cowl', 'Cowl cover', '10 min', '6 clipB, 2 pin, 2 s48', 'wiperArms'],
    ['grommetMain', 'Harness grommet in the firewall', '5 min', '', 'cowl', { note: 'Cable passes beside the factory harness; sealed again.' }],
  ] },
  { zone: 'under', state: 'fitted', by: 'e.dunmoor', day: -16, backDay: -12, parts: [
    ['shieldF', 'Under shield, front', '10 min', '8 m6x, 4 pin', '', { cautions: 'lift' }],
    ['shieldM', 'Under shield, middle', '8 min', '6 m6x, 2 pin', 'shieldF', { cautions: 'lift', work: 'zone out and back', size: 0.7, done: 2 }],
    ['heatPlate', 'Heat plate above the muffler', '8 min', '4 nut6, 1 m6x', 'shieldM', { cautions: 'lift' }],
    ['mudFlapL', 'Mud flap, rear left', '4 min', '3 s50, 1 pin', ''],
    ['mudFlapR', 'Mud flap, rear right', '4 min', '3 s50, 1 pin', ''],
  ] },
]
