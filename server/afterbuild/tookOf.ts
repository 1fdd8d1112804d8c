import type { TookRow } from '../calc/estimate/afterBuild.ts'
import type { LeftOut } from '../calc/costing/agreedForecast.ts'
import { priceTaken, type PriceSources, type PriceTaken } from '../calc/quotes/priceTaken.ts'
import type { BuildFigures } from '../builds/figures.ts'
import type { StoredBuild } from '../builds/store.ts'
import { sumOf } from '../calc/grouping.ts'
import { label } from '../shared/records/kind.ts'

/** One build after the fact. */
export interface TookBuild {
  readonly id: string
  readonly label: string
  readonly isDelivered: boolean
  readonly rows: readonly TookRow[]
  readonly money: PriceTaken
  /** Options that were said no to: what they do not cost. */
  readonly spared: readonly LeftOut[]
}

/** Hours on operations that were taken away since have no estimate any more and stand as one row. */
export function tookOf({ head, papers }: StoredBuild, { costing }: BuildFigures, names: ReadonlyMap<string, string>, invoices: PriceSources['invoices']): TookBuild {
  const build = `${label('B', head.number)} ${head.title}`
  const nameOf = (id: string | null): string => (id === null ? 'no department' : names.get(id) ?? 'no department')
  const spared = costing.agreed?.leftOut ?? []
  const { priceMinor, costMinor } = costing.build
  return {
    id: head.id, label: build, isDelivered: head.stage === 'delivered', spared,
    money: priceTaken({ estimateMinor: priceMinor, acceptedMinor: papers?.netMinor ?? null, invoices, costMinor: costMinor - sumOf(spared, (one) => one.costMinor) }),
    rows: [
      ...costing.operations.map(({ label: name, owner, departmentId, operation, figures }): TookRow => ({
        buildId: head.id, build, label: name, owner: owner.label, department: nameOf(departmentId), kind: operation.kind,
        estimatedS: figures.estimatedS, workS: figures.workS, reworkS: figures.reworkS, waitingS: figures.waitingS,
      })),
      ...costing.otherHours.map(({ label: name, owner, departmentId, figures }): TookRow => ({
        buildId: head.id, build, label: name, owner: owner.label, department: nameOf(departmentId), kind: 'taken away since',
        estimatedS: 0, workS: figures.workS, reworkS: figures.reworkS, waitingS: figures.waitingS,
      })),
    ],
  }
}
