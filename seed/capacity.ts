import { absence, closing, machine, outsideFinisher } from '../server/capacity/records.ts'
import type { Days } from './days.ts'
import type { Worker } from './people.ts'
import type { Rows } from './rows.ts'
import type { Settings } from './shop.ts'

/** What an operation has to itself, and where it goes, by a short name. */
export interface Capacity {
  readonly machines: ReadonlyMap<string, string>
  readonly finishers: ReadonlyMap<string, string>
}

const MACHINES = [
  { key: 'milling', name: 'Mill', count: 1, holdsWork: true },
  { key: 'printing', name: '3D printer', count: 2, holdsWork: true },
] as const

const FINISHERS = [
  { key: 'anodize', name: 'Ferrow Anodizing', does: 'anodizing', leadDays: 9, shipDays: 1, sendsOn: '2,4', note: 'Thread is masked by us. They call when a lot is short.' },
  { key: 'powder coat', name: 'Dun Mesa Coating', does: 'powder coat', leadDays: 4, shipDays: 0, sendsOn: '', note: 'Brought and fetched by us; racks in the yard.' },
] as const

export function addMachinesAndFinishers(rows: Rows): Capacity {
  return {
    machines: new Map(MACHINES.map(({ key, ...typed }) => [key, rows.add(machine, typed)])),
    finishers: new Map(FINISHERS.map(({ key, ...typed }) => [key, rows.add(outsideFinisher, { ...typed, workdays: '1,2,3,4,5' })])),
  }
}

/** Who is away and what is closed in the weeks to come. */
export function addDaysOff(rows: Rows, { bays }: Settings, people: ReadonlyMap<string, Worker>, days: Days): void {
  const away = (signInName: string, from: number, to: number, hours: object = {}): void =>
    void rows.add(absence, { personId: people.get(signInName)!.id, fromOn: days.workday(from), toOn: days.workday(to), ...hours })
  away('b.tarrow', 6, 10)
  away('s.penhale', 2, 2, { fromAt: '13:00', toAt: '17:00' })
  away('r.istead', 12, 13)
  rows.add(closing, { name: 'The lift is inspected', fromOn: days.workday(4), toOn: days.workday(4), bayId: bays[0] })
  rows.add(closing, { name: 'Stocktaking', fromOn: days.workday(21), toOn: days.workday(21) })
}
