import type { AsBuiltData } from '../../../web/service/asBuilt.tsx'

const titleBlock = {
  owner: 'Rivet Lane', ownerMore: '4 Rivet Lane', title: 'As-built record', subtitle: 'Survey wagon, Corvane Plover 2021', documentType: 'As-built record', number: 'Y-0058',
  revision: 'not frozen', status: 'as of 2026-05-06, 2 changes since delivery', dateOfIssue: '2026-11-25', language: 'en', createdBy: 'Casimir Oake', approvedBy: '', build: 'B-0058', replaces: '',
} as const

export const asBuilt: AsBuiltData = {
  titleBlock, standing: 'As delivered on Mon 27 Nov 2023; last changed on Wed 6 May 2026.',
  lines: [
    { number: 'E-04', name: 'Slate 4.100 <amplifier>', zone: '5 Load floor', serials: ['VS4-00388'], before: ['VS4-00127 until Wed 6 May 2026, then VS4-00388 (W-002); old unit: sent to the maker'], warranty: ['Thu 27 Nov 2025 (delivered 2023-11-27 + 24 months)', 'VS4-00388: Thu 6 May 2027 (the replacement’s own date)'] },
    { number: 'E-03', name: 'Interface', zone: '5 Load floor', serials: [], before: [], warranty: ['not recorded in the catalog'] },
  ],
  parts: [{ number: 'P-101', name: '2 × Speaker ring', zone: '1 Front doors', removable: '' }],
  alterations: [{ number: 'X-001', what: 'drilled: four holes 4 mm', zone: '1 Front doors', consent: 'nobody’s consent is recorded', way: 'plugs' }],
  kept: [{ number: 'F-021', name: 'Door speaker', state: 'out and stored', condition: 'as new', where: '' }],
  visits: [{ number: 'W-002', href: '/service-visits/w2', when: 'Mon 4 May 2026 still here', complaint: 'Channel 3 is dead', cause: 'equipment', found: '', paidBy: 'maker’s warranty' }],
  changes: [{ when: 'Wed 6 May 2026', who: 'Saskia Penhale', what: 'E-04 Slate 4.100 changed: serial numbers', href: '/equipment-lines/e4' }], backHref: '/builds/b58',
}

export const emptyAsBuilt: AsBuiltData = {
  ...asBuilt, standing: 'Not delivered yet: this is what is recorded as fitted now.', lines: [], parts: [], alterations: [], kept: [], visits: [], changes: [],
  titleBlock: { ...titleBlock, status: 'not delivered yet' },
}
