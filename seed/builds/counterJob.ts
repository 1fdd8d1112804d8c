import type { BuildTables } from './tables.ts'

/** A counter job that is being done today. */
export const COUNTER_JOB: BuildTables = {
  number: 244, vehicle: 'trubridge', bay: 1,
  typed: {
    title: 'Dash camera and rear camera', kind: 'counter job',
    reason: 'Parking at night in a narrow yard.', budget: '700.00', consent: '700.00', consentBy: 'Ansel Trubridge, at the counter',
  },
  dates: { consentOn: -1, promisedOn: 0 },
  stages: [['intake', -2], ['wire and check', -1]],
  manual: 'Solvane service book, chapter 5',
  zones: [
    { key: 'dash', name: 'Windshield and dash', place: 'dash' },
    { key: 'rear', name: 'Rear bumper', place: 'outside' },
  ],
  bins: ['Tray on the bench, bay 1'],
  parts: [],
  lines: [
    { n: 1, zone: 'dash', item: 'dashcam', work: 'fit and wire', size: 1.6, done: 1, now: 'running', from: -1, received: -2, serials: 'LD2-88301', mounting: 'behind the mirror', kit: 'camera', isFitted: true, take: '10 min', cautions: 'driver view,driver assistance' },
    { n: 2, zone: 'rear', item: 'cam', work: 'fit and wire', size: 1.6, received: -2, mounting: 'above the plate', kit: 'camera', take: '20 min', cautions: 'driver assistance' },
  ],
  factory: [
    { zone: 'dash', state: 'out and stored', bin: 1, by: 'e.dunmoor', day: -1, parts: [
      ['endCap', 'Dash end cap, left', '2 min', '3 clipA', '', { cautions: 'airbag' }],
    ] },
    { zone: 'rear', state: 'fitted', by: 'e.dunmoor', day: -1, parts: [
      ['plateLamp', 'Plate lamp, left', '3 min', '1 s42', '', { connectors: 'one plug' }],
    ] },
  ],
  edges: [{ graph: 'as built', before: 'plateLamp', after: 'E2' }],
  alterations: [],
  points: [{ zone: 'rear', text: 'Show Ansel where the line on the screen is not the bumper.', person: 'n.corvane' }],
  predecessors: [],
  remarks: [],
}
