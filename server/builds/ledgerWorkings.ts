import type { LedgerZone } from '../../web/builds/ledgerData.ts'
import type { Working } from '../calc/amounts.ts'
import type { ZoneStep } from '../calc/restoration/restorationByZone.ts'
import type { Workings } from '../shared/workings.ts'
import { hourWorkings, totalOf } from './costWorkings.ts'
import type { BuildFigures } from './figures.ts'
import type { GoingBack } from './goingBack.ts'
import type { StoredBuild } from './store.ts'
import { loggedWorking, remainingWorking } from './workings.ts'

/** What hours open on the ledger and the list of builds: z4e is the estimate of zone 4, z4b its way back, ze the estimate of all zones, e that of the build, p510 is made part P-510. */
export function ledgerWorkings({ zones, parts }: StoredBuild, { costing }: BuildFigures, back: GoingBack, shown: readonly LedgerZone[]): Workings {
  const all = (name: string, key: 'estimate' | 'logged' | 'forecast') =>
    totalOf(`All zones: ${name}`, shown.map(({ number, name: zone, hours }) => ({ label: `${number} ${zone}`, value: hours[key] })), 'time', 'zone')
  return new Map([
    ...zones.map(({ id, number, name }) => [`z${number}b`, backOf(`Zone ${number} ${name}`, back.steps.filter(({ zoneId }) => zoneId === id))] as const),
    ...parts.flatMap(({ id, number }) => {
      const total = costing.byPart.find(({ partId }) => partId === id)?.withPieces
      return total ? [[`p${number}`, { ...total.workings.forecast, title: `${total.label} with its pieces: person-hours at completion` }] as const] : []
    }),
    ...zones.flatMap(({ id, number, name }) => hourWorkings(`z${number}`, `Zone ${number} ${name}`,
      costing.byZone.find((total) => total.id === id), costing.estimate.byZone.find((total) => total.id === id))),
    ['e', costing.estimate.total.workings.labor], ['l', loggedWorking(costing.labor, costing.byDepartment)],
    ['r', remainingWorking(costing.labor, costing.byDepartment)], ['f', costing.labor.workings.forecast],
    ['ze', all('person-hours estimated', 'estimate')], ['zl', all('person-hours logged', 'logged')], ['zf', all('person-hours at completion', 'forecast')],
  ])
}

function backOf(name: string, steps: readonly ZoneStep[]): Working {
  return {
    ...totalOf(`${name}: person-hours of the way back`, steps.map(({ label, seconds }) => ({ label, value: seconds })), 'time', 'the record’s times'),
    assumed: 'The whole vehicle goes back to stock. Loosening takes half the time of taking out.',
  }
}
