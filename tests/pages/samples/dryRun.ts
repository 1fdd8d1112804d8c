import type { DryRunData } from '../../../web/imports/dryRun.tsx'

const KIND = [{ value: 'number', label: 'Number' }, { value: 'maker', label: 'Maker' }, { value: 'model', label: 'Model' }, { value: 'price', label: 'Price' }]

/** A list that has one row of each sort, and one column nobody knows. */
export const dryRun: DryRunData = {
  kindName: 'catalog item', plural: 'equipment catalog', buildName: null, encoding: 'Windows-1252', faults: [], stale: null,
  columns: [
    { index: 0, letter: 'A', heading: 'Brand', field: 'maker', remark: '', sample: 'Ostwen' },
    { index: 1, letter: 'B', heading: 'Model', field: 'model', remark: '', sample: 'Fenn 25' },
    { index: 2, letter: 'C', heading: 'Sell', field: 'price', remark: '', sample: '109' },
    { index: 3, letter: 'D', heading: 'shelf', field: '', remark: 'left out unless you choose', sample: 'C2' },
  ],
  fields: KIND, separator: 'semicolon', separators: [{ value: 'comma', label: 'comma' }, { value: 'semicolon', label: 'semicolon' }],
  counts: { rows: 5, create: 1, change: 1, skip: 2, error: 1 },
  lines: [
    { line: 2, action: 'create', number: '', title: 'Ostwen Fenn 25', values: [{ label: 'Price', before: null, after: '109.00 USD' }], problems: [], remark: '' },
    { line: 3, action: 'change', number: 'K-012', title: 'Ostwen Fenn 80', values: [{ label: 'Price', before: '129.00 USD', after: '135.00 USD' }], problems: [], remark: '' },
    { line: 5, action: 'error', number: '', title: 'Ostwen', values: [], problems: ['Model is needed.', 'Price: "1,5" is unclear: write the decimal with a point, as 2.5, and thousands with a comma, as 1,250.'], remark: '' },
  ],
  unshown: ['Skip, because they are the same as in the shop: lines 4, 6.'],
  hidden: [['kind', 'catalog'], ['build', ''], ['readSeparator', 'semicolon']],
  text: 'Brand;Model;Sell;shelf\nOstwen;Fenn 25;109;C2\nOstwen;<Fenn 80>;135;\n', key: 'a-key', fingerprint: 'f00d',
}

export const dryRunReady: DryRunData = { ...dryRun, encoding: 'UTF-8', counts: { ...dryRun.counts, error: 0 }, lines: dryRun.lines.slice(0, 2) }
