import type { BuildTables } from '../tables.ts'
import { BED_PARTS } from './bedParts.ts'
import { BODY_FACTORY } from './bodyFactory.ts'
import { CAB_FACTORY } from './cabFactory.ts'
import { CAB_PARTS } from './cabParts.ts'
import { PICKUP_EDGES } from './edges.ts'
import { PICKUP_LINES } from './lines.ts'
import { ROOF_PARTS } from './roofParts.ts'
import { WALL_PARTS } from './wallParts.ts'

const CONSENT_DAY = -49

/** The show build: a falconer's display truck in the middle of fabrication. */
export const PICKUP: BuildTables = {
  number: 231, vehicle: 'falconry', bay: 5,
  typed: {
    title: 'Display truck', kind: 'show build',
    reason: 'Flying displays at fairs: announcements over a field, music on arrival, order for gloves and lures.',
    wishes: 'A rear wall with bass and a glove locker, a roof console for the radio and light, a bed box with drawers, horns and a lectern. All of it must come out again before the truck is sold.',
    budget: '65,000.00', consent: '61,000.00', consentBy: 'Isolde Wick, signed estimate, second revision',
    note: 'Birds never ride in the bed. Horns face the rear only.',
  },
  dates: { consentOn: CONSENT_DAY, deadline: 38, promisedOn: 28 },
  stages: [['intake', -62], ['scope', -59], ['quote', -53], ['order', -48], ['teardown', -31], ['fabricate', -26]],
  manual: 'Brannoch service manual, chapter J, page 4',
  zones: [
    { key: 'dash', name: 'Dash', place: 'dash' },
    { key: 'console', name: 'Center console', place: 'console' },
    { key: 'frontDoors', name: 'Front doors', place: 'front doors' },
    { key: 'rearDoors', name: 'Rear doors', place: 'rear doors' },
    { key: 'pillars', name: 'A and B pillars', place: 'pillars' },
    { key: 'roof', name: 'Roof console', place: 'headliner' },
    { key: 'seats', name: 'Rear seat', place: 'seats' },
    { key: 'wall', name: 'Rear wall', place: 'rear wall', note: 'Cab air outlets behind it stay free.' },
    { key: 'bed', name: 'Bed box', place: 'bed' },
    { key: 'engine', name: 'Battery and firewall', place: 'engine bay' },
    { key: 'under', name: 'Underbody runs', place: 'underbody' },
  ],
  places: [
    { key: 'glovebox', zone: 'dash', typed: { name: 'Behind the glovebox', checks: 'lid hinges', note: 'To be measured once the interface is here.' } },
    { key: 'pod', zone: 'pillars', typed: { name: 'Pods P-510 and P-520, top', checks: 'mounting depth,cutout', depth: '26 mm', length: '50 mm', width: '50 mm', measured: 'From the drawing of P-510' } },
    { key: 'door', zone: 'frontDoors', typed: { name: 'Pods P-310 and P-320, lower', checks: 'mounting depth,window drop,grille clearance', depth: '88 mm', windowDrop: '82 mm', grille: '24 mm', measured: 'J. Maskell, right door, window all the way down' } },
    { key: 'ring', zone: 'rearDoors', typed: { name: 'Rear door, ring P-410', checks: 'mounting depth,window drop', depth: '64 mm', windowDrop: '2 1/4 in', largestSpacer: '12 mm', measured: 'S. Penhale, caliper, both sides alike' } },
    { key: 'box', zone: 'wall', typed: { name: 'Enclosures P-820 and P-830, front', checks: 'mounting depth,grille clearance,cutout', depth: '110 mm', grille: '18 mm', length: '238 mm', width: '238 mm', measured: 'From the drawing of P-820' } },
    { key: 'cabinet', zone: 'bed', typed: { name: 'Cabinets P-940', checks: 'mounting depth', depth: '205 mm', measured: 'E. Dunmoor, dry fit' } },
  ],
  bins: [
    'Rack B, shelf 1', 'Rack B, shelf 2', 'Rack B, shelf 3', 'Rack B, shelf 4', 'Rack C, shelf 1', 'Rack C, shelf 2', 'Pallet 1, loft',
    'Rack C, shelf 3', 'Rack C, shelf 4', 'Rack C, top', 'Cabinet by bay 5, drawer 1', 'Door stand, wood room', 'Rack D, shelf 1', 'Pallet 2, loft',
  ],
  parts: [...CAB_PARTS, ...ROOF_PARTS, ...WALL_PARTS, ...BED_PARTS],
  lines: PICKUP_LINES,
  factory: [...CAB_FACTORY, ...BODY_FACTORY],
  edges: PICKUP_EDGES,
  alterations: [
    { zone: 'wall', part: 'wallTrim', consentDay: CONSENT_DAY, typed: { kind: 'cut', what: 'Two cutouts 90 × 60 in the rear wall lining, as templates', consentBy: 'Isolde Wick', isReversible: false,
      partToBuy: 'Rear wall lining', partCost: '298.00', leadDays: 14 } },
    { zone: 'roof', consentDay: CONSENT_DAY, typed: { kind: 'drilled', what: 'Six holes 9 mm for rivet nuts in the roof bows', whereAt: 'second and third bow, 90 mm either side of the middle', why: 'Holds the roof console', consentBy: 'Isolde Wick', reversal: 'Drill out the rivet nuts.\nSeal the bare edges.\nLook that the headliner hides all six.', reverse: '1 h' } },
    { zone: 'bed', consentDay: CONSENT_DAY, typed: { kind: 'drilled', what: 'Cable hole 28 mm through the bed front, with grommet', whereAt: 'bed front, 140 mm right of the middle, 60 mm above the floor', why: 'Power feed to the bed box', consentBy: 'Isolde Wick', reversal: 'Body plug 28 mm set in sealer.', reverse: '25 min', partToBuy: 'Body plug 28 mm', partCost: '7.40', leadDays: 2 } },
    { zone: 'under', consentDay: CONSENT_DAY, typed: { kind: 'drilled', what: 'Twelve holes 9 mm for the cable guards, in the cross members', whereAt: 'cross members 2 to 4, lower flange', why: 'Holds the guards of the power cables', consentBy: 'Isolde Wick', reversal: 'Take the rivet nuts out.\nSeal the holes.\nWax the flange.', reverse: '1:15', outsideWork: 'Underbody wax over the sealed holes', outsideCost: '85.00', outsideDays: 2 } },
    { zone: 'dash', typed: { kind: 'trimmed', what: 'Rib behind the center vents taken down by 4 mm for the screen frame', isReversible: false, partToBuy: 'Vent carrier', partCost: '64.00', leadDays: 10 } },
    { zone: 'engine', consentDay: CONSENT_DAY, typed: { kind: 'cut', what: 'Second passage cut in the firewall grommet', consentBy: 'Isolde Wick', reversal: 'New grommet.', reverse: '40 min', partToBuy: 'Firewall grommet', partCost: '31.00', leadDays: 6 }, further: [{ name: 'Retaining ring of the grommet', count: '2', cost: '4.20', leadDays: '6' }] },
    { zone: 'seats', consentDay: -15, typed: { kind: 'spliced', what: 'Factory amplifier harness: outputs extended to the rear wall', consentBy: 'Isolde Wick, by phone, confirmed in writing', reversal: 'Extension unplugged: adapters at both ends, nothing cut.', reverse: '20 min' } },
  ],
  points: [
    { zone: 'dash', text: 'Rib behind the vents was trimmed without consent: write to Isolde before anything else is cut there.', person: 'c.oake' },
    { zone: 'dash', text: 'Interface still not shipped; the source unit cannot be tried without it.', person: 'c.oake' },
    { zone: 'frontDoors', text: 'Window drop, right door: measured 3 mm to the magnet. Spacer or other ring?', person: 'j.maskell', stopsWork: true },
    { zone: 'pillars', text: 'Path of the curtain airbag marked on both pods and checked by two people.', person: 's.penhale', closedDay: -11 },
    { zone: 'roof', text: 'Microsuede lot for the console: sample to Isolde, answer by Friday.', person: 'b.tarrow' },
    { zone: 'roof', text: 'License of the two-way radio: copy for the folder.', person: 'n.corvane' },
    { zone: 'seats', text: 'Does the backrest still latch with the spacers in? Try before the cover is sewn.', person: 'b.tarrow' },
    { zone: 'wall', text: 'Far side of the lower left bolt: brake line 20 mm away. Shorter bolt ordered.', person: 'r.istead' },
    { zone: 'wall', text: 'Air outlets free? Smoke test with the wall dry-fitted.', person: 'e.dunmoor' },
    { zone: 'bed', text: 'Remaining load with the box: weigh the truck before delivery.', person: 'r.istead' },
    { zone: 'bed', text: 'Lithium battery: the maker’s venting sheet is asked for.', person: 'e.dunmoor' },
    { zone: 'bed', text: 'Drawer fronts: body color sample approved by Isolde.', person: 'n.corvane', closedDay: -6 },
    { zone: 'under', text: 'Guards clear of the spare wheel winch: tried with the wheel up and down.', person: 's.penhale', closedDay: -10 },
  ],
  predecessors: [
    'P510:80 > E8:10', 'P520:80 > E8:10', 'P510:80 > E9:10', 'P310:20 > E10:10', 'P320:20 > E10:10', 'P410:20 > E11:10', 'E11:20 > P420:30',
    'P840:40 > E13:10', 'P840:20 > E14:10', 'P840:20 > E15:10', 'P840:20 > E16:10', 'P840:40 > E17:10', 'P800:20 > E12:10', 'P820:50 > E12:10', 'P1010:30 > E19:10',
    'E19:20 > E20:10', 'P1110:30 > E20:10', 'P1110:30 > E21:10', 'P970:30 > P900:20', 'P900:20 > E22:10', 'P950:20 > E29:10', 'P913:40 > E23:10', 'P913:40 > E24:10',
    'P620:20 > E34:10', 'P610:20 > E36:10', 'P632:30 > E37:10', 'P633:30 > E38:10', 'P600:20 > headliner:20', 'P800:20 > wallTrim:20', 'P800:20 > backrest:20',
    'E10:20 > fPanelL:30', 'P711:30 > backrest:20', 'P110:20 > E2:10', 'E3:20 > E1:20', 'E13:20 > E28:20', 'P940:50 > E26:10',
  ],
  samples: {
    by: 'Isolde Wick', day: -30, open: {
      P640: { state: 'sample shown' },
      P710: { state: 'refused', why: 'Too yellow beside the factory seats; the next hide darker.' },
    },
  },
  remarks: [
    { at: 'P510:60', kind: 'rework', minutes: 90, why: 'Pinholes after the first coat of filler; filled and sanded again.' },
    { at: 'P311:80', kind: 'rework', minutes: 55, why: 'Vinyl pulled a crease at the map pocket; lifted and laid again.' },
    { at: 'P820:30', kind: 'waiting', minutes: 30, why: 'All long clamps were on the right box.' },
    { at: 'P810:30', kind: 'rework', minutes: 70, why: 'Frame was 5 mm too wide at the left belt reel; cut and welded again.' },
    { at: 'P640:40', kind: 'waiting', minutes: 40, why: 'Extraction in bay 3 was taken.' },
    { at: 'E20:10', kind: 'waiting', minutes: 45, why: 'Lift was taken by the counter job.' },
    { at: 'P911:40', kind: 'rework', minutes: 60, why: 'Runs at the lower edge; flatted and coated again.' },
    { at: 'headliner:10', kind: 'waiting', minutes: 15, why: 'Airbag waiting time kept after the battery came off.' },
  ],
}
