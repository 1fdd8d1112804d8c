import type { VisitPageData } from '../../../web/service/visit.tsx'

const hours = {
  title: 'Hours after delivery', result: { kind: 'time', value: 5400 }, formula: 'sum over the operations of service visits',
  inputs: [{ label: 'F-020 Door panel, Op 10, check', source: 'logged, work and rework', amount: { kind: 'time', value: 5400 } }],
  assumed: 'They are in no figure of the build itself: its estimate and costing ended with delivery.', source: 'common practice, no source',
} as const

export const visit: VisitPageData = {
  trail: [{ name: 'B-0058 Survey wagon', href: '/builds/b58' }, { name: 'service visits', href: '/service-visits?build=b58' }],
  number: 'W-002', title: 'Channel 3 is dead <again>', saved: 'W-002 Channel 3 is dead, created', isRemoved: false,
  facts: [{ label: 'Came on', text: 'Mon 4 May 2026' }, { label: 'Cause', text: 'equipment' }, { label: 'Left on', text: '' }, { label: 'Paid by', text: 'maker’s warranty' }],
  deliveredOn: 'Mon 27 Nov 2023', billing: 'Not billed to the customer: the maker is asked to make good.', hours, cost: { ...hours, title: 'Cost of the hours after delivery', result: { kind: 'money', value: 7600 }, inputs: [] },
  operations: [{ item: 'F-020 Door panel', itemHref: '/factory-parts/f20', operation: 'Op 10, check, find the rattle', href: '/operations/o1', department: 'Fitting', state: 'running' }],
  claims: [{ href: '/maker-claims/c1', line: 'E-04 Slate 4.100', reference: 'RMA 4471', state: 'accepted', on: 'Tue 5 May 2026', answeredOn: '', credited: '310.00 USD', warning: 'Outside the warranty: that of E-04 ended Thu 27 Nov 2025.' }],
  swaps: [{ href: '/serial-swaps/s1', line: 'E-04 Slate 4.100', lineHref: '/equipment-lines/e4', oldSerial: 'VS4-00127', newSerial: 'VS4-00388', on: 'Wed 6 May 2026', warrantyUntil: 'Thu 6 May 2027', oldUnit: 'sent to the maker' }],
  add: { operation: '/operations/new?build=b58', claim: '/maker-claims/new?build=b58', swap: '/serial-swaps/new?build=b58' },
  changeHref: '/service-visits/w2/form', removal: { action: '/service-visits/w2/removal', key: 'k' }, asBuiltHref: '/builds/b58/as-built',
  history: [{ when: 'Mon 4 May 2026 09:10', who: 'Nell Corvane', action: 'created', changes: [] }],
}

export const firstVisit: VisitPageData = {
  ...visit, saved: null, operations: [], claims: [], swaps: [], cost: null, changeHref: null, removal: null, history: [],
  hours: { ...hours, inputs: [], result: { kind: 'time', value: 0 } }, add: { operation: null, claim: null, swap: null },
}
