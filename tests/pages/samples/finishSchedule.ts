import type { FinishRow, ScheduleData } from '../../../web/finishes/schedule.tsx'
import { billOfMaterials } from './billOfMaterials.ts'

const row = (number: string, kind: string, more: Partial<FinishRow>): FinishRow => ({
  number, href: `/finishes/${number}`, kind, material: '', color: '', code: '', grain: '', thread: '', supplier: '', batch: '', sample: 'no sample yet', decided: '',
  note: '', laidOnBy: '', holds: '', ...more,
})

export const finishSchedule: ScheduleData = {
  titleBlock: { ...billOfMaterials.titleBlock, title: 'Finish schedule', documentType: 'Schedule', number: 'S-0162' },
  parts: [
    { name: 'P-411 Door card, left', href: '/parts/411', zone: 'zone 3 Front doors', finishes: [
      row('S-003', 'leather', { material: 'full grain, 1.2 mm', color: 'tan', thread: '40 sand', supplier: 'Sallow Hides', batch: 'hide lot 318', sample: 'refused', decided: 'I. Wick, Tue 12 Jan 2027, too yellow', laidOnBy: '70 sew, not started; 80 wrap, not started', holds: '70 sew, 80 wrap' }),
      row('S-004', 'paint', { material: 'satin clear', color: 'smoke', code: 'C 40', sample: 'approved', decided: 'I. Wick, Mon 11 Jan 2027', laidOnBy: '50 paint, done', note: 'Edges only.' }),
    ] },
  ],
  without: [{ name: 'P-510 Record bin', href: '/parts/510', addHref: '/finishes/new?partId=510', operations: '60 paint' }],
  waiting: 1, stopped: 2, addHref: '/finishes/new', backHref: '/builds/sample',
}
