import type { BuildFigures } from '../builds/figures.ts'
import { operationKeys } from '../builds/operationWorkings.ts'
import { groupBy, sumOf } from '../calc/grouping.ts'
import type { HoursThere } from '../../web/takeovers/previewData.ts'

export interface HoursIn {
  /** Null where there is no such operation. */
  ofOperation(id: string | undefined): HoursThere | null
  /** Of all operations on a part, line or factory part. */
  ofOwner(id: string | undefined): HoursThere | null
}

/** Person-seconds estimated, worked and worked again, as the costing of the build has them. */
export function costingHours({ costing }: BuildFigures, buildNumber: number): HoursIn {
  const keys = operationKeys(costing)
  const rows = costing.operations.map(({ operation, figures }) => ({
    id: operation.id, owner: operation.partId ?? operation.equipmentLineId ?? operation.factoryPartId ?? '',
    how: `${buildNumber}.${keys.get(operation.id) ?? ''}`, estimate: figures.estimatedS, work: figures.workS, rework: figures.reworkS,
  }))
  const byId = new Map(rows.map((row) => [row.id, row]))
  const byOwner = groupBy(rows, ({ owner }) => owner)
  return {
    ofOperation: (id) => byId.get(id ?? '') ?? null,
    ofOwner: (id) => {
      const own = byOwner.get(id ?? '')
      return own ? { how: own[0]?.how.split('.').slice(0, 2).join('.') ?? '', estimate: sumOf(own, ({ estimate }) => estimate), work: sumOf(own, ({ work }) => work), rework: sumOf(own, ({ rework }) => rework) } : null
    },
  }
}
