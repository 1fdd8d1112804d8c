import type { Amount } from '../../../server/calc/amounts.ts'
import type { BillLine, BillOfMaterialsData } from '../../../web/materials/billOfMaterials.tsx'
import { returnToStock } from './returnToStock.ts'
import { money } from './workings.ts'

const area = (value: number): Amount => ({ kind: 'area', value })
const count = (value: number): Amount => ({ kind: 'count', value })

function line(name: string, boughtAs: string, need: Amount, toTake: string, cost: number, pegs: readonly (readonly [string, string, Amount])[], more: Partial<BillLine> = {}): BillLine {
  return {
    key: name.slice(0, 4).trim(), name, boughtAs, need, toTake, fromStock: '', expectedOn: '', isReceived: false, suppliedBy: 'shop', cost: money(cost), price: money(Math.round(cost * 1.4)), href: '/materials/1',
    pegs: pegs.map(([from, zone, quantity]) => ({ from, zone, quantity })),
    working: { title: `${name}, to take`, inputs: [{ label: 'Net', source: 'sum of its needs', amount: need }, { label: 'Waste', source: 'material', amount: { kind: 'share', value: 100 } }], result: need, formula: 'net × (1 + waste), in whole packs', assumed: 'Waste is a share: no cut plan is made.', source: 'common practice, no source' },
    ...more,
  }
}

const total = (title: string, value: number) => ({ title, inputs: [{ label: 'Materials', source: 'sum of its lines', amount: money(Math.round(value * 0.2)) }, { label: 'Equipment', source: 'sum of its lines', amount: money(value - Math.round(value * 0.2)) }], result: money(value), formula: 'materials + equipment + single-use parts', assumed: 'Tax is not in it.', source: 'common practice, no source' })

export const billOfMaterials: BillOfMaterialsData = {
  titleBlock: { ...returnToStock.titleBlock, title: 'Bill of materials', subtitle: 'Field cab, Orrin Pellam, pickup, 2024', documentType: 'Parts list', number: 'M-0162', revision: '4', replaces: '' },
  materials: [
    line('Birch plywood 12 mm', 'sheet 2440 × 1220', area(14_030_000), '6 sheets', 42_600, [['P-510 Record bin', 'Rear wall, upper', area(6_030_000)], ['P-700 Bed box', 'Bed box', area(5_200_000)], ['P-710 Sliding tray', 'Bed box', area(2_800_000)]], { fromStock: '2 sheets' }),
    line('Glass mat 450 g/m²', 'roll 50 m²', area(22_400_000), '1 roll', 14_800, [['P-310 Roof console', 'Roof console', area(18_000_000)], ['P-410 Baffle left', 'Rear wall, upper', area(4_400_000)]], { expectedOn: '2027-01-14' }),
    line('Threaded insert M6', 'bag of 50', count(148), '3 bags', 3_900, [['P-510 Record bin', 'Rear wall, upper', count(48)], ['P-400 Rebuilt rear wall', 'Rear wall, upper', count(100)]], { isReceived: true }),
  ],
  equipment: [
    line('E-08 Subwoofer 300 mm', '', count(2), '2', 84_000, [['E-08', 'Rear wall, upper', count(2)]], { isReceived: true }),
    line('E-22 Refrigerator 40 L', '', count(1), '1', 0, [['E-22', 'Bed box', count(1)]], { suppliedBy: 'customer' }),
  ],
  singleUse: [line('Headliner clip, gray', '', count(17), '17', 12_920, [['F-026 Headliner', 'Roof console', count(17)]], { expectedOn: '2027-01-21' })],
  zones: ['1 Bed box', '2 Rear wall, upper'],
  parts: [
    { number: 'P-400', name: 'Rebuilt rear wall', href: '/parts/400', level: 0, each: 1, count: 1 },
    { number: 'P-500', name: 'Record wall', href: '/parts/500', level: 1, each: 1, count: 1 },
    { number: 'P-510', name: 'Record bin', href: '/parts/510', level: 2, each: 12, count: 12 },
    { number: 'P-511', name: 'Side', href: '/parts/511', level: 3, each: 2, count: 24 },
    { number: 'P-700', name: 'Bed box, welded', href: '/parts/700', level: 0, each: 1, count: 1 },
  ],
  totals: { cost: total('Bill of materials: cost', 1_410_000), sell: total('Bill of materials: price', 1_974_000), buy: total('Bill of materials: still to spend', 320_000) },
  backHref: '/builds/sample',
}
