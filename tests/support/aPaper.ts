import { totalsOf } from '../../server/calc/quotes/paperTotals.ts'
import type { PaperContent } from '../../server/quotes/content.ts'

const LABOR = { code: 'LABOR', name: 'work', rateThousandthsOfPercent: 6_250 }
const GOODS = { code: 'GOODS', name: 'goods sold', rateThousandthsOfPercent: 7_250 }

/** A frozen quote of three lines with a yes or no and an either or. */
export function aPaper(changes: Partial<PaperContent> = {}): PaperContent {
  const line = (key: string, text: string, amountMinor: number, taxCode: typeof LABOR, option: number | null = null): PaperContent['lines'][number] =>
    ({ key, text, quantity: 1000, eachMinor: amountMinor, amountMinor, taxCode, option })
  const lines = [
    line('zone:1/LABOR', 'Rear wall: work', 742_000, LABOR), line('zone:1/GOODS', 'Rear wall: material and equipment', 318_450, GOODS), line('supplies', 'Shop supplies', 22_260, GOODS),
    line('option:1', 'Second row of lamps', 18_500, GOODS, 1), line('option:2', 'Cover in leather', 92_000, GOODS, 2), line('option:3', 'Cover in felt', -4_000, GOODS, 3),
  ]
  const option = (number: number, name: string, insteadOf: string): PaperContent['options'][number] =>
    ({ id: `0190aaaa-0000-7000-8000-00000000000${number}`, number, name, note: '', insteadOf, totals: totalsOf(lines.filter((each) => each.option === number)) })
  return {
    format: 1, kind: 'quote', number: 'Q-0147-1', revision: 1, replaces: '', title: 'Rear wall and lamps', shop: { name: 'Tidewater Works', address: '4 Slip Lane', phone: '555-0147' },
    customer: { name: 'Dessa Varnholt', address: '' }, vehicle: 'Corvane Tern, wagon, 2030', build: { number: 'B-0147', title: 'Rear wall and lamps' }, currency: 'USD',
    issuedOn: '2031-03-03', validUntil: '2031-04-02', createdBy: 'C. Oake', reason: '', daysLater: null, lines,
    options: [option(1, 'Second row of lamps', ''), option(2, 'Leather', 'cover'), option(3, 'Felt', 'cover')],
    totals: totalsOf(lines.filter((each) => each.option === null)), supplies: { share: 30, mostMinor: null },
    deposits: [{ number: 1, share: 300, due: 'On signing', amountMinor: 0 }], exclusions: 'Paint of the bed.', assumptions: 'The wall is sound.', replacedParts: 'wanted back', note: '', ...changes,
  }
}
