import type { CounterJobData } from '../../../web/counter/counterJob.tsx'
import type { FitData } from '../../../web/fit/fit.tsx'

const typed: Readonly<Record<string, string>> = { customerName: 'Tamsin "Tam" Lowe', make: '<Corvane>', energy: 'fuel', quantity1: '1', quantity2: 'two', fittingId2: 'f2', promisedOn: '2027-01-12' }

export const counterJob: CounterJobData = {
  action: '/counter-jobs', key: 'k', value: (name) => typed[name] ?? '', isCut: true, lines: [1, 2, 3], isAsked: true, currency: 'USD',
  problems: [{ field: 'quantity2', message: 'Quantity is a whole number from 1 to 100.' }],
  vehicles: [{ value: 'v1', label: 'I. Carreg: Brannoch Hewer 2023, V-001' }], customers: [{ value: 'c1', label: 'I. Carreg, C-001' }],
  fittings: [{ value: 'f1', label: 'Rear camera: 0.75 h + 1.5 h each' }, { value: 'f2', label: 'Speaker in a front door: 0.5 h + 0.75 h each' }],
  items: ['K-001 Ostwen Lode 165 & grille'], bays: [{ value: 'b1', label: 'Bay 2: B-0162' }],
}

export const noFittings: CounterJobData = { ...counterJob, problems: [], fittings: [] }

export const fit: FitData = {
  build: 'B-0162 Field cab', buildHref: '/builds/sample', addHref: '/mounting-places/new', listHref: '/mounting-places', cautions: [{ signal: 'warning', title: 'Drilling', text: 'Look at the far side first.' }],
  unchecked: [{ name: 'E-04 Main fuse', href: '/equipment-lines/4' }],
  lines: [
    { line: 'E-01 Midbass', href: '/equipment-lines/1', place: 'L-001 Lower <door>', placeHref: '/mounting-places/1', spacer: 'none noted', state: 'fits with a spacer', words: 'Fits with a spacer: without one it is short in window drop. At least 12 mm.', checks: [{ kind: 'window drop', words: 'short by 12 mm', how: 'e1-window-drop' }, { kind: 'grille clearance', words: 'open: room to the grille in front not recorded' }] },
    { line: 'E-02 Amplifier', href: '/equipment-lines/2', place: 'L-002 Seat', placeHref: '/mounting-places/2', spacer: '6 mm', state: 'does not fit', words: 'Does not fit: short in seat travel.', checks: [{ kind: 'seat travel', words: 'short by 4 mm', how: 'e2-seat-travel' }] },
  ],
}

export const noFit: FitData = { ...fit, lines: [], unchecked: [], cautions: [] }
