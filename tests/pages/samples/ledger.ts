import type { LedgerData, LedgerItem, LedgerPart, LedgerZone } from '../../../web/builds/ledger.tsx'
import type { StateName } from '../../../web/shared/marks.tsx'
import type { ZonePlace } from '../../../web/shared/zonePlaces.ts'
import { hoursWorking, money, seconds } from './workings.ts'

const id = (kind: string, number: number): string => `/${kind}/0190a000-0000-7000-8000-${String(number).padStart(12, '0')}`
const STATES: readonly StateName[] = ['done', 'done', 'running', 'waiting', 'rework', 'not started']

interface Sketch {
  readonly name: string
  readonly place: ZonePlace
  readonly out: readonly string[]
  readonly in: readonly string[]
  readonly made: readonly (readonly [name: string, pieces: number])[]
  readonly points: readonly string[]
}

const SKETCHES: readonly Sketch[] = [
  { name: 'Dash and console top', place: 'dash', out: ['Radio surround', 'Center vent panel', 'Glovebox', 'Lower dash trim, left', 'Lower dash trim, right', 'Cluster bezel'], in: ['Source unit, two-DIN', 'Sound processor, ten channels'], made: [['Control pod, walnut face', 3]], points: [] },
  { name: 'Front doors', place: 'front doors', out: ['Door panel, left', 'Door panel, right', 'Door membrane, left', 'Door membrane, right', '2 × Factory speaker', 'Mirror corner, left', 'Mirror corner, right'], in: ['2 × Midbass 165 mm', '2 × Tweeter 28 mm', 'Damping sheet 2 mm, 3.2 m²'], made: [['2 × Speaker ring', 0], ['Door pod, left', 4], ['Door pod, right', 4]], points: ['Door pod right: lining foil short by 0.4 m, ordered, due Thu 14 Jan'] },
  { name: 'Rear doors', place: 'rear doors', out: ['Rear door panel, left', 'Rear door panel, right', 'Rear membrane, left', 'Rear membrane, right', '2 × Factory speaker, rear'], in: ['2 × Coaxial 130 mm'], made: [['2 × Speaker ring, rear', 0]], points: [] },
  { name: 'Roof console', place: 'headliner', out: ['Headliner, three pieces', 'Map lamp', 'Sun visor, left', 'Sun visor, right', '4 × Grab handle', 'Pillar trim, A left', 'Pillar trim, A right'], in: ['3 × Lamp strip', 'Overhead screen 13 in', 'Rotary control'], made: [['Roof console, laminated', 9], ['Lamp tray', 2]], points: ['Roof bow 3: far side not yet looked at, drilling waits', 'Screen sample color not approved'] },
  { name: 'Rear wall, upper', place: 'rear wall', out: ['Rear wall panel', 'Rear wall mat', 'Rear seat back', 'Rear seat cushion', '3 × Child seat anchor cover', 'Belt guide, left', 'Belt guide, right', 'Pillar trim, C left', 'Pillar trim, C right', 'Rear window trim', 'Vent, cab', 'Upper wall trim'], in: ['2 × Subwoofer 300 mm', 'Amplifier, mono', 'Amplifier, six channels', 'Distribution block, 4 way', 'Fuse holder 150 A', 'Grille cloth 1.5 m'], made: [['Rebuilt rear wall', 14], ['Baffle left, curved', 5], ['Baffle right, curved', 5], ['Amplifier tray', 3]], points: ['Baffle right: filler cures until 15:30, then sand again', 'Amplifier E-11: serial number not written down', 'Forecast 12.0 h above the estimate, most of it sanding'] },
  { name: 'Seats', place: 'seats', out: ['Driver seat', 'Passenger seat', '4 × Seat side shield', '8 × Seat rail cover'], in: ['2 × Shaker'], made: [['2 × Shaker bracket', 2]], points: [] },
  { name: 'Pillars', place: 'pillars', out: ['Pillar trim, B upper left', 'Pillar trim, B upper right', 'Pillar trim, B lower left', 'Pillar trim, B lower right'], in: ['2 × Tweeter 19 mm'], made: [['Pillar pod, left', 3], ['Pillar pod, right', 3]], points: ['Airbag in both pillars: waiting time to write down'] },
  { name: 'Bed box', place: 'bed', out: ['Bed liner', '4 × Tie-down eye', 'Bed lamp', 'Tailgate cover'], in: ['4 × Outside speaker', 'Second battery, 100 Ah', 'Charger, DC to DC', 'Refrigerator 40 L'], made: [['Bed box, welded', 16], ['Sliding tray', 6], ['Lid, gas struts', 4]], points: ['P-720 goes in before the lid: order agreed, not yet entered', 'Two people or a hoist for P-700: hoist not booked for Thu 14 Jan'] },
  { name: 'Engine bay', place: 'engine bay', out: ['Battery cover', 'Cowl, left'], in: ['Feed cable 50 mm², 6 m', 'Fuse 150 A, bolt-in'], made: [['Fuse bracket', 1]], points: [] },
  { name: 'Underbody', place: 'underbody', out: ['Splash shield, rear'], in: ['2 × Ground strap'], made: [['2 × Cable tray', 1]], points: ['Ground strap: measured drop 0.31 V, limit 0.25 V'] },
  { name: 'Wheel wells', place: 'wheel wells', out: [], in: [], made: [], points: [] },
]

const counters = { factoryPart: 10, line: 0, part: 100, alteration: 0 }

function items(names: readonly string[], letter: 'F' | 'E', kind: string, details: readonly string[]): LedgerItem[] {
  return names.map((name, index) => {
    const number = letter === 'F' ? ++counters.factoryPart : ++counters.line
    return { number: `${letter}-${String(number).padStart(letter === 'F' ? 3 : 2, '0')}`, name, href: id(kind, number), detail: details[index % details.length] }
  })
}

function madePart([name, count]: readonly [string, number]): LedgerPart {
  counters.part += 10
  const base = counters.part
  const pieces = Array.from({ length: count }, (_, index) => ({
    number: `P-${base + index + 1}`, name: ['Side', 'Front', 'Brace', 'Back', 'Rail', 'Cover'][index % 6] ?? 'Piece', href: id('parts', base + index + 1),
    state: STATES[(base / 10 + index) % STATES.length] ?? 'done' as const,
  }))
  counters.part += Math.floor(count / 10) * 10
  return { number: `P-${base}`, name, href: id('parts', base), state: STATES[(base / 10) % STATES.length] ?? 'running', pieces }
}

function goesBack(zone: number, out: readonly LedgerItem[]): LedgerItem[] {
  const alteration = zone === 5 ? [{ number: 'A-1', name: '4 rivet nuts M8 in the rail', href: id('alterations', 1), state: 'altered' as const, detail: 'consent 3 Nov; plugged on return' }] : []
  return [
    ...out.map(({ number }, index) => ({ number, name: index % 3 === 0 ? 'as it is' : `${index + 2} clips to buy` })),
    ...alteration, { number: 'work', name: `${out.length * 0.5} h` },
  ]
}

const zones: LedgerZone[] = SKETCHES.map((sketch, index) => {
  const number = index + 1
  const cameOut = items(sketch.out, 'F', 'factory-parts', [`rack C-${number}; 12 clips, 4 single-use`, `bin ${number + 2}`, `shelf D-${number}`])
  const add = `/builds/sample/zones/${number}`
  return {
    number, name: sketch.name, place: sketch.place, href: `${add}/edit`, cameOut,
    goesIn: items(sketch.in, 'E', 'equipment-lines', ['4 Ω, channels 3 and 4', 'serial 7Q-20418', 'not received, due Thu 14 Jan', 'supplied by the customer']),
    madeHere: sketch.made.map(madePart),
    goesBack: cameOut.length === 0 ? [] : goesBack(number, cameOut),
    points: sketch.points.map((text, point) => ({ number: `${number}.${point + 1}`, text, person: ['R. Fennick', 'M. Oduyal', 'S. Brandvik'][point % 3] ?? '', stopsWork: number === 5 && point === 0, href: id('open-points', number * 10 + point) })),
    hours: { estimate: seconds(18 + number * 4), logged: seconds(number * 3.5), forecast: seconds(19 + number * 4) },
    add: { point: `${add}/point`, factoryPart: `${add}/factory-part`, equipmentLine: `${add}/line`, madePart: `${add}/part`, alteration: `${add}/alteration` },
  }
})

export const ledger: LedgerData = {
  number: 'B-0162', title: 'Field cab', kind: 'show build', customer: 'Dessa Varnholt', contact: '0100 555 0162', vehicle: 'Orrin Pellam, pickup, 2024',
  vehicleMore: 'show build · owned · 18,420 km · bay 2', body: 'pickup', stage: { name: 'Fabricate', index: 6, count: 9 },
  promisedOn: '2027-03-15', wantedBy: '2027-03-19',
  price: { title: 'Price of the build', inputs: [{ label: 'Labor', source: 'estimate × department rates', amount: money(4_210_000) }, { label: 'Equipment and materials', source: 'bill of materials', amount: money(1_974_000) }], result: money(6_184_000), formula: 'labor + equipment and materials', assumed: 'Tax is not in it.', source: 'common practice, no source' },
  consent: 'consent to 63,000.00 EUR by D. Varnholt, 3 Nov 2026',
  restoration: {
    verdict: 'Restorable with 6 parts to buy and 2 repairs.', href: '/builds/sample/return-to-stock',
    hours: hoursWorking('Hours of the restoration', [['take out', 'times noted on the parts', 14], ['undo alterations', 'times noted on the alterations', 3.5], ['put back', 'times noted on the parts', 21]], 'take out + undo + put back'),
    cost: { title: 'Cost of the restoration', inputs: [{ label: 'labor', source: 'hours × rate', amount: money(238_700) }, { label: 'parts', source: 'parts to buy', amount: money(13_800) }], result: money(252_500), formula: 'hours × rate + parts', assumed: '', source: 'common practice, no source' },
  },
  hours: {
    estimate: hoursWorking('Estimate', [['Made parts', '58 parts, 214 operations', 298.5], ['Equipment', '35 lines, 42 operations', 71.5], ['Factory parts', '100 parts', 42]], 'sum of (set-up + run × pieces) × people at once'),
    logged: hoursWorking('Logged hours', [['Work', '214 entries, 8 people', 221], ['Rework', '19 entries, 5 people', 15.5]], 'work + rework'),
    remaining: hoursWorking('Remaining hours', [['By the technician’s figure', '12 operations', 31], ['Estimate less logged', '88 operations', 168]], 'own figure, else estimate − logged, else 0'),
    forecast: hoursWorking('Forecast', [['Logged to Mon 11 Jan', '233 entries', 236.5], ['Remaining', '100 operations not finished', 199]], 'logged + remaining'),
    consent: seconds(450),
  },
  alarm: 'The forecast comes to 97 in 100 of what the customer agreed to: ask before it is reached.',
  cautions: [{ signal: 'warning', title: 'Airbags and belt pretensioners', text: 'Only trained people, by the maker’s manual. Disconnect the battery, then keep 3 min (recorded for this vehicle).' }],
  zones,
  sheets: [{ name: 'Bill of materials', href: '/builds/sample/bill-of-materials' }, { name: 'Estimate and costing', href: '/builds/sample/estimate' }, { name: 'Order of removal', href: '/builds/sample/removal' }, { name: 'Restore', href: '/builds/sample/restorations' }],
  editHref: '/builds/sample/edit', addZoneHref: '/builds/sample/zones/new',
  history: [{ when: 'Mon 11 Jan 2027 16:02', who: 'I. Carreg', action: 'changed', changes: [{ field: 'promised', before: 'Fri 12 Mar 2027', after: 'Mon 15 Mar 2027' }] }, { when: 'Tue 3 Nov 2026 09:14', who: 'I. Carreg', action: 'created', changes: [] }],
}

/** A build as it stands after its first form: a title, a vehicle, nothing else. */
export const emptyLedger: LedgerData = {
  ...ledger, number: 'B-0170', title: 'Four speakers and a camera', zones: [], cautions: [], alarm: '', promisedOn: '', history: [],
  hours: { estimate: hoursWorking('Estimate', [], 'sum'), logged: hoursWorking('Logged hours', [], 'sum'), remaining: hoursWorking('Remaining', [], 'sum'), forecast: hoursWorking('Forecast', [], 'logged + remaining') },
  restoration: { verdict: 'Nothing has come out yet.', href: '/builds/sample/return-to-stock' },
  saved: { what: 'build B-0170', csrfToken: 'sample-token', next: { href: '/builds/sample/zones/new', name: 'Add the first zone' } },
}
