import type { NowData } from '../../../web/now/now.tsx'
import { hoursWorking, seconds } from './workings.ts'

const post = (action: string) => ({ action, idempotencyKey: `key${action}` })

export const now: NowData = {
  running: {
    build: 'B-0162 Field cab', item: 'P-510 Record bin', itemHref: '/parts/510', operation: 'Op 50, assemble and glue', kind: 'work', since: '09:48',
    startedAt: '2027-01-12T08:48:00Z', now: '2027-01-12T10:12:07Z', logged: seconds(4.4), estimate: seconds(5.4), leftWords: '1.0 h left of 5.4 h: say what is still to do', asksLeft: true,
    stop: post('/timer/stop'), done: post('/operations/50/done'),
    answers: [{ kind: 'rework', post: { ...post('/timer/kind'), values: [['kind', 'rework']] } }, { kind: 'waiting', post: { ...post('/timer/kind'), values: [['kind', 'waiting']] } }],
  },
  cautions: [{ signal: 'caution', title: 'Glue and solvents', text: 'Slow wood glue: gloves on. Clamps stay until 15:30.' }],
  next: [
    { item: 'P-420 Baffle right', itemHref: '/parts/420', operation: 'Op 60, sand again', build: 'B-0162', planned: 'By the plan at 13:00.', key: 'op1.5', remaining: hoursWorking('Remaining', [['Estimate', 'operation', 1.5]], 'estimate − logged'), waitsFor: 'filler cures until 15:30', start: post('/timers/1') },
    { item: 'P-710 Raised floor', itemHref: '/parts/710', operation: 'Op 40, edge joints', build: 'B-0162', planned: 'Planned for Ruben Istead Wed 13 Jan 08:00.', key: 'op2', remaining: hoursWorking('Remaining', [['Estimate', 'operation', 2]], 'estimate − logged'), waitsFor: '', start: post('/timers/2') },
    { item: 'P-411 Door card', itemHref: '/parts/411', operation: 'Op 80, wrap', build: 'B-0162', planned: '', key: 'op1.2', remaining: null, waitsFor: '', heldBy: { words: 'Held by S-003 leather, tan: no sample was shown yet.', href: '/finishes/3', name: 'S-003 leather, tan' } },
    { item: 'F-081 Rear door linings', itemHref: '/factory-parts/81', operation: '2 × Take out', build: 'B-0158', planned: '', key: 'op0.8', remaining: hoursWorking('Remaining', [['Estimate', 'operation', 0.8]], 'estimate − logged'), waitsFor: '', start: post('/timers/3') },
  ],
  today: [
    { when: '08:00 to 08:20', what: 'P-510 Record bin, op 60', kind: 'rework', seconds: seconds(0.33) },
    { when: '08:20 to 09:35', what: 'P-510 Record bin, op 50', kind: 'work', seconds: seconds(1.25) },
  ],
  teardowns: [{ name: 'Teardown of B-0162', href: '/builds/162/teardown' }],
  logHref: '/time-entries/new', myHoursHref: '/time-entries', find: { action: '/find', text: '' },
}

export const idleNow: NowData = { ...now, running: null, cautions: [], today: [], next: [] }
