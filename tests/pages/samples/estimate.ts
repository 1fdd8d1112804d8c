import type { EstimateData, EstimateLine } from '../../../web/builds/estimate.tsx'
import { ledger } from './ledger.ts'
import { hoursWorking, money, seconds } from './workings.ts'

let lines = 0
function line(label: string, level: number, estimate: number, logged: number, remaining: number, anchor?: string): EstimateLine {
  return {
    how: `p${lines++}`, label, level, anchor, href: '/parts/1', hours: { estimate: seconds(estimate), logged: seconds(logged), remaining: seconds(remaining), forecast: seconds(logged + remaining) },
    money: { price: Math.round(estimate * 7_800), cost: Math.round(estimate * 4_200), margin: Math.round(estimate * 7_800) - Math.round(estimate * 4_200) },
  }
}

const labor = (title: string, value: number) => ({ title, inputs: [{ label: 'Wood room', source: '120.0 h × rate', amount: money(Math.round(value / 3)) }, { label: 'Others', source: '292.0 h × rates', amount: money(value - Math.round(value / 3)) }], result: money(value), formula: 'sum over departments of hours × rate', assumed: '', source: 'common practice, no source' })

export const estimate: EstimateData = {
  trail: [{ name: 'B-0162 Field cab', href: '/builds/sample' }, { name: 'Estimate and costing' }],
  number: 'B-0162', title: 'Field cab', hours: {
    ...ledger.hours, withoutRework: hoursWorking('Without rework', [['Wood room', 'estimate', 380]], 'sum'), rework: hoursWorking('Allowed for rework', [['Wood room', 'estimate', 32]], 'sum'),
    elapsed: hoursWorking('Elapsed', [['1 person at once', '140 operations', 372], ['2 people at once', '8 operations', 20]], 'person-hours ÷ people at once'),
    giveOrTake: hoursWorking('Give or take', [['P-410 Baffle left: 20 mold', 'worst − best', 6]], '√ of the sum of ((worst − best) ÷ 6)²'),
  },
  money: { laborCost: labor('Labor, cost', 1_730_400), laborPrice: labor('Labor, price', 3_213_600), forecastCost: labor('Cost at completion', 3_239_100), laborMargin: labor('Margin on labor', -25_500), price: labor('Price', 5_286_100), cost: labor('Cost when finished', 3_239_100), earningRule: 'nothing until done', margin: labor('Margin', 2_047_000) },
  alarm: ledger.alarm,
  runningOver: [{ name: 'P-510 Record bin: 60 sand', words: 'over by 0.3 h: comes to 5.0 h, estimated 4.7 h', href: '/operations/60' }],
  by: 'zone',
  sides: [{ name: 'By zone', of: 'Zone', how: 'zt', lines: ledger.zones.map(({ number, name, hours }) => line(`${number} ${name}`, 0, hours.estimate / 3600, hours.logged / 3600, (hours.forecast - hours.logged) / 3600, `zone-${number}`)) }, { name: 'By department', of: 'Department', how: 'dt', lines: [line('Wood room', 0, 120, 80, 52), line('Laminating', 0, 96, 61.5, 40), line('Wiring', 0, 74, 22, 50), line('Finish', 0, 122, 73, 57)] }, { name: 'Made parts', of: 'Part', how: 'pt', lines: [line('P-400 Rebuilt rear wall', 0, 96, 71.5, 36.5), line('P-500 Record wall', 1, 44, 30, 16), line('P-510 Record bin × 12', 2, 30, 19, 12.1), line('P-410 Baffle left, curved', 1, 26, 22, 4), line('E-08 Subwoofer 300 mm', 0, 4, 1, 3), line('F-050 Rear wall panel', 0, 2.5, 2.25, 0)] }],
  notes: [], ledgerHref: '/builds/sample',
}

/** The same as a technician sees it. */
export const estimateWithoutMoney: EstimateData = { ...estimate, money: undefined, hours: { ...estimate.hours, giveOrTake: undefined, logged: hoursWorking('Logged hours', [['Work', '3 entries', 9]], 'work + rework') } }
