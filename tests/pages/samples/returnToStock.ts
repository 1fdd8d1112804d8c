import type { ChecklistPhase, ChecklistStep } from '../../../server/calc/restoration/checklist.ts'
import type { SheetFastener, SheetTorque } from '../../../server/calc/removal/fastenerText.ts'
import type { ReturnToStockData } from '../../../web/restoration/returnToStock.tsx'
import { hoursWorking, money, seconds } from './workings.ts'

const nm = (newtonMeters: number): SheetTorque => ({ mNm: newtonMeters * 1000, source: 'maker’s manual, section 7-12' })
const bolt = (text: string, torque: SheetTorque): SheetFastener => ({ text, torque })

type Sketch = readonly [phase: ChecklistPhase, zone: string, text: string, fasteners: readonly SheetFastener[], place: string, cautions: readonly string[], note?: string]

const SKETCHES: readonly Sketch[] = [
  ['cautions', '', 'Read cautions C1 to C3 with everybody who works on the vehicle.', [], '', []],
  ['take out', '', 'Note odometer, warning lights, fault codes and what does not work before anything is disconnected.', [], '', []],
  ['take out', '', 'Make the vehicle safe as its cautions say, and keep the waiting time.', [], '', ['C1', 'C2']],
  ['take out', 'Bed box', 'Take out P-720 Lid, gas struts for good.', [bolt('4 × M6 × 20 bolt, hex 10', 'when refitting')], 'label it, note the bin', []],
  ['take out', 'Bed box', 'Take out P-700 Bed box, welded for good.', [bolt('8 × M8 × 25 bolt, class 8.8', 'when refitting')], 'pallet 1', ['C3'], 'in front of F-055, F-056'],
  ['take out', 'Rear wall, upper', 'Take out P-400 Rebuilt rear wall for good. Unplug: X7, then the ground strap.', [bolt('10 × M6 × 20 bolt, hex 10', 'when refitting'), bolt('2 × M8 flange nut', 'when refitting')], 'pallet 2', ['C3']],
  ['take out', 'Roof console', 'Take out P-310 Roof console, laminated for good.', [bolt('12 × clip', 'none applies')], 'label it, note the bin', ['C1']],
  ['take out', 'Pillars', 'Loosen F-071 Pillar trim, B upper left; it stays in the vehicle.', [bolt('5 × clip, gray', 'none applies')], '', ['C1']],
  ['repair', 'Rear wall, upper', 'Undo alteration A-1 (4 rivet nuts M8 in the rail): plug kit K-1, seal bare metal.', [], '', [], 'new: 4 × plug, K-1'],
  ['repair', 'Underbody', 'Undo alteration A-2 (grommet hole 25 mm in the floor): sealed plug K-2.', [], '', [], 'new: 1 × plug, K-2, with sealer'],
  ['reinstall', 'Front doors', 'Refit F-017 Door membrane, left.', [], 'bin 4, rack C', []],
  ['reinstall', 'Front doors', '2 × Refit F-018 Factory speaker. Connect: X21, X22.', [bolt('8 × 4.2 × 16 screw, cross recess', 'maker\'s manual')], 'bin 4, rack C', []],
  ['reinstall', 'Front doors', 'Refit F-013 Door panel, left. Connect: X20, lock cable.', [bolt('3 × M6 × 20 bolt, hexalobular no. 30', nm(9)), bolt('9 × clip, blue', 'none applies')], 'rack C-2', [], 'new: 9 × clip, blue, and 2 for those that break'],
  ['reinstall', 'Rear wall, upper', 'Refit F-051 Rear wall mat.', [], 'shelf D-1', []],
  ['reinstall', 'Rear wall, upper', 'Refit F-050 Rear wall panel.', [bolt('2 × M6 × 20 bolt, hex 10', nm(9)), bolt('16 × clip, gray', 'none applies')], 'rack C-4', []],
  ['reinstall', 'Seats', 'Refit F-052 Rear seat back.', [bolt('4 × M10 × 30 bolt, hexalobular no. 50', { mNm: 47_000, source: 'maker’s manual, section 11-3' })], 'rack C-1', ['C1']],
  ['reinstall', 'Seats', 'Refit F-055 Belt guide, left.', [bolt('1 × belt anchor bolt', 'maker\'s manual')], 'bin 6', ['C1']],
  ['reinstall', 'Headliner', 'Refit F-026 Headliner, three pieces.', [bolt('14 × clip, gray', 'none applies')], 'rack C-1, upright', ['C1']],
  ['reinstall', 'Bed box', '4 × Refit F-078 Tie-down eye.', [bolt('4 × M8 × 25 bolt, hexalobular no. 40', nm(22))], 'bin 11', []],
  ['reconnect and relearn', '', 'Take every feed of what stays out (E-08, E-11, E-22) off at its source, and close the harness as the factory had it.', [], '', ['C2']],
  ['reconnect and relearn', '', 'Reconnect in the maker’s order, the battery last; nobody sits in front of an airbag when the ignition goes on.', [], '', ['C1']],
  ['reconnect and relearn', '', 'Relearn by the maker’s procedure what has lost its memory: windows, steering angle, clock, codes.', [], '', []],
  ['function test', '', 'Ignition on: the warning lights behave as noted before the work; fault codes read and compared.', [], '', []],
  ['function test', '', 'The airbag lamp goes out after its self-check and no fault of the restraint system is stored. If not: stop, go on by the maker’s procedure.', [], '', []],
  ['function test', '', 'Doors: window up and down with its pinch stop, lock, latch, handles inside and out, mirror, door lamp.', [], '', []],
  ['function test', '', 'Road test: nothing rattles, whistles or leaks.', [], '', []],
  ['signature', '', 'Work done by: name, date, signature.', [], '', []],
]

const steps: ChecklistStep[] = SKETCHES.map(([phase, zoneName, text, fasteners, place, cautionNumbers, note], index) => ({
  number: index + 1, phase, zoneName, itemNumber: '', text, fasteners, place, cautionNumbers, notes: note === undefined ? [] : [note],
}))

const hours = hoursWorking('Hours of the restoration', [['take out: 31', 'times noted on the parts', 14], ['undo alterations: 2', 'times noted on the alterations', 3.5], ['put back: 64', 'times noted on the parts', 21]], 'take out + undo alterations + put back')

export const returnToStock: ReturnToStockData = {
  titleBlock: {
    owner: 'Quayside Fitting Works', ownerMore: 'Slip 4, Eastquay', title: 'Return-to-stock sheet', subtitle: 'Field cab, Orrin Pellam, pickup, 2024, VIN ending 004417', documentType: 'Work instruction',
    number: 'R-0162-1', revision: 'C', dateOfIssue: '2027-01-12', language: 'en', createdBy: 'R. Fennick', approvedBy: 'I. Carreg', build: 'B-0162', replaces: 'revision B, 2026-12-04',
  },
  factoryOptions: 'Curtain airbags over both doors.', scope: 'the whole vehicle',
  verdict: {
    kind: 'restorable with these parts and repairs', reasons: ['Alteration X-001 (4 rivet nuts M8 in the rail) has to be undone.', 'Alteration X-002 (grommet hole 25 mm in the floor) has to be undone.'], needs: [],
    hours: { outS: seconds(14), repairS: seconds(3.5), backS: seconds(21), totalS: seconds(38.5) },
    cost: { laborMinor: 238_700, outsideMinor: 0, partsMinor: 13_800, totalMinor: 252_500, unpricedCount: 1 }, leadDays: 9,
    leadWorking: { title: 'Longest wait, days', inputs: [{ label: 'Headliner clip, gray', source: 'lead time, parts to buy', amount: { kind: 'count', value: 9 } }], result: { kind: 'count', value: 9 }, formula: 'the longest of the lead times', assumed: '', source: 'common practice, no source' },
    partsToBuy: [
      { name: 'Headliner clip, gray', count: 5, priceMinor: 760, leadDays: 9, reason: 'breaks', forNumbers: ['F-026'], from: [] },
      { name: 'Trim clip, single-use', count: 4, priceMinor: 350, leadDays: 3, reason: 'single-use', forNumbers: ['F-050'], from: [] },
      { name: 'Lining clip, long', count: 8, priceMinor: 280, leadDays: 3, reason: 'breaks', forNumbers: ['F-056', 'F-061'], from: [] },
      { name: 'Door panel clip, blue', count: 11, priceMinor: 180, leadDays: 3, reason: 'breaks', forNumbers: ['F-013'], from: [] },
      { name: 'Plug, K-1', count: 4, priceMinor: 650, leadDays: 0, reason: 'repair', forNumbers: ['A-1'], from: [] },
      { name: 'Plug, K-2, with sealer', count: 1, priceMinor: null, leadDays: 0, reason: 'repair', forNumbers: ['A-2'], from: [] },
    ],
    hoursWorking: hours,
    costWorking: { title: 'Cost of the restoration', inputs: [{ label: 'labor', source: 'hours × rate', amount: money(238_700) }, { label: 'parts', source: 'parts to buy', amount: money(13_800) }], result: money(252_500), formula: 'hours × rate + parts', assumed: '1 of the parts to buy has no known price: this is the least it costs.', source: 'common practice, no source' },
  },
  checklist: {
    cautions: [
      { trigger: 'airbag', signalWord: 'warning', number: 'C1', title: 'Airbags and belt pretensioners', text: 'Only trained people, by the maker’s manual. Disconnect the battery, then keep 3 min (recorded for this vehicle). Never put a meter or test lamp on a squib circuit. Carry a module with its cover away from you and store it face up, alone.' },
      { trigger: 'second battery', signalWord: 'warning', number: 'C2', title: 'Second battery and feed cable', text: 'The feed is live at both ends. Take out both fuses first.' },
      { trigger: 'heavy item', signalWord: 'caution', number: 'C3', title: 'Heavy parts', text: 'Two people or a hoist. Do not drive with anything loose.' },
    ],
    steps,
  },
  whereabouts: {
    body: 'pickup',
    zones: [
      { number: 1, name: 'Dash and console top', place: 'dash' }, { number: 2, name: 'Front doors', place: 'front doors' }, { number: 3, name: 'Rear doors', place: 'rear doors' },
      { number: 4, name: 'Roof console', place: 'headliner' }, { number: 5, name: 'Rear wall, upper', place: 'rear wall' }, { number: 6, name: 'Seats', place: 'seats' },
      { number: 7, name: 'Pillars', place: 'pillars' }, { number: 8, name: 'Bed box', place: 'bed' }, { number: 9, name: 'Engine bay', place: 'engine bay' }, { number: 10, name: 'Underbody', place: 'underbody' },
    ],
    places: [{ place: 'rack C', holds: 'F-013, F-026, F-050, F-052' }, { place: 'bin 4', holds: 'F-017, F-018' }, { place: 'shelf D-1', holds: 'F-051' }, { place: 'bin 6', holds: 'F-055' }, { place: 'bin 11', holds: 'F-078' }],
    tools: ['hex 10', 'hexalobular no. 30, 40, 50', 'cross recess', 'trim levers', 'torque wrench 9 to 47 N·m'],
  },
  showsMoney: true, openPoints: ['F-055: the torque of the belt anchor is not on record.'], standing: 'Frozen on 12 Jan 2027 from build B-0162; later changes make a new revision.', backHref: '/builds/sample',
}
