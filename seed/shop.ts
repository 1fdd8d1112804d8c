import { bay, department, skill, taxCode } from '../server/settings/records.ts'
import { TIME_ZONE } from './days.ts'
import type { Columns, Rows } from './rows.ts'

export const SHOP: Columns = {
  name: 'Sallow Creek Vehicle Fitting', address: '41 Tannery Row\nSallow Creek', phone: '555-0142',
  currency: 'USD', timeZone: TIME_ZONE, units: 'inch', opensAt: 8 * 3600, closesAt: 17 * 3600, pauseFrom: 12 * 3600, pauseTo: 12.5 * 3600, holidays: 'US',
  suppliesShare: 30, suppliesMost: 15_000, quoteValidDays: 30,
  quoteExclusions: 'Calibration of the maker’s driver assistance, should it be needed. Damage seen at intake.',
  quoteAssumptions: 'The vehicle is as it was at intake. What teardown shows and nobody could see is offered as a change order.',
  entered: JSON.stringify({ suppliesShare: '3 %' }),
}

// Cost and price of an hour, the allowance for rework, and the skills of the department.
const DEPARTMENTS: readonly (readonly [name: string, cost: string, price: string, rework: string, ...skills: string[]])[] = [
  ['Design office', '52.00', '125.00', '0 %', 'drawing'],
  ['Wood room', '41.00', '98.00', '3 %', 'joinery'],
  ['Machining', '47.00', '118.00', '2 %', 'milling', 'welding', 'printing'],
  ['Laminating', '44.00', '108.00', '5 %', 'mold making', 'laminating'],
  ['Finishing', '42.00', '104.00', '8 %', 'filling and sanding', 'painting'],
  ['Upholstery', '43.00', '106.00', '4 %', 'sewing', 'covering'],
  ['Wiring', '45.00', '112.00', '3 %', 'wiring'],
  ['Fitting', '40.00', '96.00', '0 %', 'disassembly', 'fitting'],
  ['Tuning', '48.00', '128.00', '0 %', 'tuning', 'final check'],
]

const BAYS = ['Bay 1, two-post lift', 'Bay 2', 'Bay 3, extraction', 'Bay 4', 'Bay 5, long, at the gate']

const TAX_CODES = [
  { code: 'GOODS', name: 'Goods sold', rate: '7.25 %' },
  { code: 'LABOR', name: 'Labor on a vehicle', rate: 0 },
  { code: 'EXEMPT', name: 'Sold for resale, certificate on file', rate: 0 },
]

/** A skill, and the department it belongs to. */
export interface SkillIds {
  readonly skillId: string
  readonly departmentId: string
}

export interface Settings {
  readonly skills: ReadonlyMap<string, SkillIds>
  readonly departments: ReadonlyMap<string, string>
  readonly bays: readonly string[]
  readonly goodsTaxId: string
  readonly laborTaxId: string
}

export function addSettings(rows: Rows): Settings {
  const skills = new Map<string, SkillIds>()
  const departments = new Map<string, string>()
  for (const [name, costRate, sellRate, reworkAllowance, ...names] of DEPARTMENTS) {
    const departmentId = rows.add(department, { name, costRate, sellRate, reworkAllowance })
    departments.set(name, departmentId)
    for (const one of names) skills.set(one, { skillId: rows.add(skill, { name: one, departmentId }), departmentId })
  }
  const bays = BAYS.map((name) => rows.add(bay, { name }))
  const [goodsTaxId = '', laborTaxId = ''] = TAX_CODES.map((code) => rows.add(taxCode, code))
  return { skills, departments, bays, goodsTaxId, laborTaxId }
}
