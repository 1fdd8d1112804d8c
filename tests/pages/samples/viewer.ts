import type { Viewer } from '../../../web/shared/viewer.ts'

export const manager: Viewer = {
  personId: '0190a000-0000-7000-8000-000000000001', name: 'I. Carreg', role: 'manager', units: 'metric', theme: 'light',
  csrfToken: 'sample-token', shopName: 'Quayside Fitting Works', currency: 'EUR', today: '2027-01-12',
}

export const technician: Viewer = { ...manager, personId: '0190a000-0000-7000-8000-000000000002', name: 'R. Fennick', role: 'technician' }
