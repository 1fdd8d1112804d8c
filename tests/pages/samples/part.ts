import type { PartData, PartOperation } from '../../../web/parts/part.tsx'
import type { StateName } from '../../../web/shared/marks.tsx'
import { hoursWorking, seconds } from './workings.ts'

type Row = readonly [number: number, kind: string, work: string, department: string, state: StateName, words: string, setUp: number, run: number, logged: number, rework: number, wait: number]

const ROWS: readonly Row[] = [
  [10, 'Design', 'drawing', 'drawing', 'done', '', 2.5, 0, 2.25, 0, 0],
  [20, 'Mock-up', '', 'fabrication', 'done', '', 0.5, 1.5, 2.5, 0, 0],
  [30, 'Cut', 'panels', 'wood room', 'done', '', 0.75, 2.47, 3.5, 0, 0],
  [40, 'Machine', 'joints', 'machining', 'done', '', 1.5, 4.11, 6.25, 0, 0],
  [50, 'Assemble', 'and glue', 'wood room', 'running', '7 of 12', 0.5, 4.94, 3, 0, 4],
  [60, 'Sand', '', 'finish', 'running', '3 of 12', 0.25, 4.52, 1.5, 0.5, 0],
  [65, 'Cure', 'oil, first coat', 'finish', 'not started', '', 0, 0, 0, 0, 12],
  [70, 'Finish', 'oil, two coats', 'finish', 'not started', '', 0.5, 2.06, 0, 0, 0],
  [80, 'Fit', 'to the frame', 'fabrication', 'waiting', 'waits for P-501', 0.5, 2.88, 0, 0, 0],
  [90, 'Check', '', 'manager', 'not started', '', 0.5, 0, 0, 0, 0],
]

const operations: PartOperation[] = ROWS.map(([number, kind, work, department, state, words, setUp, run, logged, rework, wait]) => ({
  id: `op-${number}`, number, kind, work, department, state, stateWords: words === '' ? undefined : words,
  hours: { setUp: seconds(setUp), run: seconds(run), allowance: number === 60 ? seconds(0.4) : 0, logged: seconds(logged), rework: seconds(rework), wait: seconds(wait) },
  curve: number === 60 ? '0.25 to 1.00 h a piece, most likely 0.38; later pieces go faster: 90 %, unit model' : '', runningOver: number === 60 ? 'over by 0.3 h: comes to 5.5 h, estimated 5.2 h' : '',
  estimate: hoursWorking(`Op ${number} ${kind}`, [['Set-up, once for the batch', 'operation', setUp], ['Run, 12 pieces', 'operation', run]], '(set-up + run × pieces) × people at once'),
  remaining: state === 'done' ? 0 : Math.max(seconds(setUp + run - logged), 0), href: `/operations/${number}`,
}))

export const part: PartData = {
  trail: [{ name: 'B-0162 Field cab', href: '/builds/sample' }, { name: '5 Rear wall, upper', href: '/builds/sample#zone-5' }, { name: 'P-500 Record wall', href: '/parts/500' }, { name: 'P-510 Record bin' }],
  number: 'P-510', name: 'Record bin', family: 'Bin', quantity: '12 off, one batch', fitsTo: 'P-500 Record wall, 12 in each', drawing: 'D-510 revision B',
  mass: { kind: 'mass', value: 3_200 }, onItNow: 'R. Fennick, op 50; J. Lindqvar, op 60',
  hours: {
    estimate: hoursWorking('Estimate', [['Set-up', '9 operations', 7.5], ['Run', '9 operations, 12 pieces', 22.5]], 'set-up + run × pieces'),
    logged: hoursWorking('Logged hours', [['Work', '14 entries', 18.5], ['Rework', '1 entry', 0.5]], 'work + rework'),
    remaining: hoursWorking('Remaining hours', [['Estimate less logged', '5 operations', 12.1]], 'estimate − logged'),
    forecast: hoursWorking('Forecast', [['Logged', '15 entries', 19], ['Remaining', '5 operations', 12.1]], 'logged + remaining'),
  },
  cautions: [
    { signal: 'caution', title: 'Dust', text: 'Sanding and machining: extraction on, respirator, eye and ear protection.' },
    { signal: 'warning', title: 'Crash load', text: '240 records weigh about 74 kg. Fix the wall to structure; never leave it loose in the vehicle.' },
  ],
  operations,
  materials: [
    { name: 'Birch plywood 12 mm', boughtAs: 'sheet 2440 × 1220', net: { kind: 'area', value: 6_030_000 }, toTake: '3 sheets', where: 'here, rack W-2', isHere: true, href: '/materials/1' },
    { name: 'Wood glue, slow', boughtAs: 'can 1 kg', net: { kind: 'mass', value: 840 }, toTake: '1 can', where: 'here, shelf W-6', isHere: true, href: '/materials/2' },
    { name: 'Felt, gray, 3 mm', boughtAs: 'roll, 1400 wide', net: { kind: 'length', value: 900_000 }, toTake: '1 m', where: 'here, 3.2 m left', isHere: true, href: '/materials/3' },
    { name: 'Hard oil, matte', boughtAs: 'can 750 mL', net: { kind: 'volume', value: 480 }, toTake: '1 can', where: 'ordered, expected Thu 14 Jan', isHere: false, href: '/materials/4' },
    { name: 'Threaded insert M6', boughtAs: 'bag of 50', net: { kind: 'count', value: 48 }, toTake: '1 bag', where: 'here, drawer 14', isHere: true, href: '/materials/5' },
  ],
  entries: [
    { when: 'Tue 12 Jan 08:20', who: 'R. Fennick', operation: 50, kind: 'work', seconds: seconds(1.25), why: 'bins 5 to 7; clamps all in use', correction: '', correctHref: '/time-entries/1/correction' },
    { when: 'Tue 12 Jan 08:00', who: 'J. Lindqvar', operation: 60, kind: 'rework', seconds: seconds(0.5), why: 'glue squeezed out inside bins 1 and 2', correction: '' },
    { when: 'Mon 11 Jan 14:20', who: 'J. Lindqvar', operation: 60, kind: 'work', seconds: seconds(1), why: '', correction: '' },
    { when: 'Mon 11 Jan 10:05', who: 'R. Fennick', operation: 50, kind: 'work', seconds: seconds(1.75), why: 'bins 1 to 4', correction: 'was 2.0, corrected by R. Fennick 12 Jan' },
  ],
  tree: {
    number: 'P-500', name: 'Record wall', quantity: 1, href: '/parts/500', isThis: false, pieces: [
      { number: 'P-501', name: 'Frame, welded', quantity: 1, href: '/parts/501', isThis: false, pieces: [] },
      { number: 'P-510', name: 'Record bin', quantity: 12, isThis: true, pieces: [
        { number: 'P-511', name: 'Side', quantity: 2, href: '/parts/511', isThis: false, pieces: [] },
        { number: 'P-512', name: 'Front', quantity: 1, href: '/parts/512', isThis: false, pieces: [] },
        { number: 'P-514', name: 'Floor', quantity: 1, href: '/parts/514', isThis: false, pieces: [] },
      ] },
      { number: 'P-530', name: 'Retaining bar', quantity: 3, href: '/parts/530', isThis: false, pieces: [] },
    ],
  },
  goesBack: 'Twelve bins lift out after bar P-530; 4 × M6 × 20 each. Wall P-500 then lifts off its rail. Nothing is cut.', note: 'Front edge flush with the frame.\nGrain runs across all twelve fronts.',
  finishes: [{ name: 'S-004 paint, satin clear, smoke', href: '/finishes/4', state: 'sample shown', isApproved: false }],
  links: { schedule: '/builds/sample/finishes', edit: '/parts/510/edit', addOperation: '/parts/510/operations/new', addMaterial: '/parts/510/needs/new', addPiece: '/parts/510/pieces/new', log: '/parts/510/time-entries/new' },
  history: [{ when: 'Mon 11 Jan 2027 15:40', who: 'R. Fennick', action: 'changed', changes: [{ field: 'drawing', before: 'D-510 revision A', after: 'D-510 revision B' }, { field: 'note', before: '', after: 'Front edge flush with the frame.' }] }],
}
