import type { LinksData } from '../../../web/links/links.tsx'
import type { ClosingData } from '../../../web/sheets/closing.tsx'
import type { MarkListData, SheetListData } from '../../../web/sheets/list.tsx'
import type { SheetPageData, ShownStep } from '../../../web/sheets/sheetData.ts'

const trail = [{ name: 'B-0147 Two-way front', href: '/builds/147' }, { name: 'Sheets', href: '/builds/147/restorations' }, { name: 'R-0147-1' }]

const step: ShownStep = {
  key: '12', text: 'Refit F-022 door speaker. Connect: two-way, gray.', place: 'bin A-07, rack C', notes: ['1 new: M6 × 20 bolt is single-use'], cautions: ['C1'], isDone: false, isSigned: false,
  fasteners: [
    { text: '4 × M6 × 20 bolt, hexalobular', torque: '9 N·m, 6.6 lbf·ft (79.7 lbf·in)', source: 'workshop manual, page 31', asks: { name: 'torque_1' }, applied: '80 lbf·in, R. Fennick, Tue 12 Jan 2027 09:12: as noted' },
    { text: '9 × clip', torque: 'no torque', source: '', asks: null, applied: '' },
  ],
  pictures: [{ src: '/restorations/1/photos/aa?size=small', href: '/restorations/1/photos/aa', says: 'clips along the lower edge', width: 160, height: 120 }],
  by: '', signature: '', waitsFor: ['4', '7'], skipped: [], why: '', deviations: [{ text: 'one clip <b>was</b> broken', by: 'R. Fennick, Tue 12 Jan 2027 09:15' }], id: '0190a000-0000-7000-8000-0000000000aa',
}

export const frozenSheet: SheetPageData = {
  trail, id: '0190a000-0000-7000-8000-0000000000a1', number: 'R-0147-1', title: 'the whole vehicle', done: 4, count: 31, frozen: 'Mon 11 Jan 2027', hash: 'ab'.repeat(32), closed: '',
  differences: ['Step, changed: Refit F-022 door speaker, now bin A-09.'],
  cautions: [{ signal: 'warning', title: 'Airbags and belt pretensioners', text: 'Only trained people, by the maker’s manual.', number: 'C1' }, { signal: 'caution', title: 'Heavy item', text: 'Two people.', number: 'C2' }],
  groups: [{ name: 'Before you begin', href: '/restorations/1?part=1', done: 1, count: 1, isHere: false }, { name: 'Put back: Front doors', href: '/restorations/1?part=2', done: 3, count: 30, isHere: true }],
  here: { name: 'Put back: Front doors', steps: [
    step,
    { ...step, key: '13', isDone: true, by: 'R. Fennick, Tue 12 Jan 2027 09:20', waitsFor: [], skipped: ['9'], why: 'came out together', deviations: [], fasteners: [], pictures: [] },
    { ...step, key: '14', text: 'Work done by: name, date, signature.', isSigned: true, waitsFor: [], fasteners: [], deviations: [], pictures: [] },
    { ...step, key: '15', isSigned: true, isDone: true, by: 'R. Fennick, taken down by R. Fennick, Tue 12 Jan 2027 09:20', signature: 'M10 10L200 90', fasteners: [], deviations: [], pictures: [] },
  ] },
  nextHref: '/restorations/1?part=3', action: '/restorations/1/marks', links: [{ name: 'PDF, A4', href: '/restorations/1/sheet.pdf' }], closing: { href: '/restorations/1/closings/new' },
  stopped: { key: '12', warning: 'Not ticked yet: steps 4 and 7 should be done first.', problems: [{ field: 'torque_1', message: 'Write the unit of the wrench with it.' }], typed: { torque_1: '9', text: 'it "was" never out' } },
}

export const sheetClosing: ClosingData = {
  trail, number: 'R-0147-1', title: 'the whole vehicle', done: 30, count: 31, changes: ['F-022 door speaker: out and stored → fitted'], action: '/restorations/1/closings', backHref: '/restorations/1', key: 'k', isClosed: false,
  note: '', problems: [{ field: 'note', message: '1 of 31 steps are not done. Say why the sheet ends here.' }],
}

export const sheetList: SheetListData = {
  trail, number: 'B-0147', restoreHref: '/builds/147/restoration', sheets: [{ href: '/restorations/1', number: 'R-0147-1', title: 'the whole vehicle', frozen: 'Mon 11 Jan 2027', done: '4 of 31', state: 'open' }],
}

export const sheetMarks: MarkListData = {
  trail, number: 'R-0147-1', isCut: true, marks: [{ step: '12.1', what: 'torque', words: '80 lbf·in', who: 'R. Fennick', when: 'Tue 12 Jan 2027 09:12', isLate: true }],
}

export const links: LinksData = {
  trail, number: 'B-0147', action: '/builds/147/links', key: 'k', usualDays: 90, offered: [{ value: 'return-to-stock sheet:1', label: 'return-to-stock sheet R-0147-1 (at most 3653 days)' }],
  typed: { subject: '', note: '', days: '90' }, made: { name: 'return-to-stock sheet R-0147-1, for Imre', address: 'https://shop.example/l/secret' },
  links: [{ id: '1', to: 'return-to-stock sheet R-0147-1', forWhom: 'Imre', made: 'Mon 11 Jan 2027, I. Carreg', until: 'Sun 11 Apr 2027', state: 'open', key: 'k' }, { id: '2', to: 'x', forWhom: 'Ida', made: 'Mon 11 Jan 2027', until: 'Sun 11 Apr 2027', state: 'withdrawn', key: null }],
}
