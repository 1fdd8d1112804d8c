import type { LedgerZone } from '../../web/builds/ledgerData.ts'
import type { Workings } from '../shared/workings.ts'
import { hourWorkings, totalOf } from './costWorkings.ts'
import type { BuildFigures } from './figures.ts'
import type { StoredBuild } from './store.ts'
import { loggedWorking, remainingWorking } from './workings.ts'

/** What hours open on the ledger and the list of builds: z4e is the estimate of zone 4, ze that of all zones, e that of the build. */
export function ledgerWorkings({ zones }: StoredBuild, { costing }: BuildFigures, shown: readonly LedgerZone[]): Workings {
  const all = (name: string, key: 'estimate' | 'logged' | 'forecast') =>
    totalOf(`All zones: ${name}`, shown.map(({ number, name: zone, hours }) => ({ label: `${number} ${zone}`, value: hours[key] })), 'time', 'zone')
  return new Map([
    ...zones.flatMap(({ id, number, name }) => hourWorkings(`z${number}`, `Zone ${number} ${name}`,
      costing.byZone.find((total) => total.id === id), costing.estimate.byZone.find((total) => total.id === id))),
    ['e', costing.estimate.total.workings.labor], ['l', loggedWorking(costing.labor, costing.byDepartment)],
    ['r', remainingWorking(costing.labor, costing.byDepartment)], ['f', costing.labor.workings.forecast],
    ['ze', all('person-hours estimated', 'estimate')], ['zl', all('person-hours logged', 'logged')], ['zf', all('person-hours at completion', 'forecast')],
  ])
}
