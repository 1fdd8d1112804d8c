import type { LedgerZone } from '../../web/builds/ledgerData.ts'
import type { Workings } from '../shared/workings.ts'
import { hourWorkings, totalOf } from './costWorkings.ts'
import type { BuildFigures } from './figures.ts'
import type { StoredBuild } from './store.ts'

/** What the hours of the zones on the ledger open: z4e is the estimate of zone 4, ze that of all zones. */
export function ledgerWorkings({ zones }: StoredBuild, { costing }: BuildFigures, shown: readonly LedgerZone[]): Workings {
  const all = (name: string, key: 'estimate' | 'logged' | 'forecast') =>
    totalOf(`All zones: ${name}`, shown.map(({ number, name: zone, hours }) => ({ label: `${number} ${zone}`, value: hours[key] })), 'time', 'zone')
  return new Map([
    ...zones.flatMap(({ id, number, name }) => hourWorkings(`z${number}`, `Zone ${number} ${name}`,
      costing.byZone.find((total) => total.id === id), costing.estimate.byZone.find((total) => total.id === id))),
    ['ze', all('person-hours estimated', 'estimate')], ['zl', all('person-hours logged', 'logged')], ['zf', all('person-hours at completion', 'forecast')],
  ])
}
