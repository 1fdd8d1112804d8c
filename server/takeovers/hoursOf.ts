import type { BuildFigures } from '../builds/figures.ts'
import { groupBy, sumOf } from '../calc/grouping.ts'
import type { HoursThere } from '../../web/takeovers/previewData.ts'

export interface HoursIn {
  /** Null where there is no such operation. */
  ofOperation(id: string | undefined): HoursThere | null
  /** Of all operations on a part, line or factory part. */
  ofOwner(id: string | undefined): HoursThere | null
}

/** Person-seconds estimated, worked and worked again, as the costing of the build has them. */
export function costingHours({ costing }: BuildFigures): HoursIn {
  const rows = costing.operations.map(({ operation, figures }) => ({
    id: operation.id, owner: operation.partId ?? operation.equipmentLineId ?? operation.factoryPartId ?? '',
    estimate: figures.estimatedS, work: figures.workS, rework: figures.reworkS,
  }))
  const byId = new Map(rows.map((row) => [row.id, row]))
  const byOwner = groupBy(rows, ({ owner }) => owner)
  return {
    ofOperation: (id) => byId.get(id ?? '') ?? null,
    ofOwner: (id) => {
      const own = byOwner.get(id ?? '')
      return own ? { estimate: sumOf(own, ({ estimate }) => estimate), work: sumOf(own, ({ work }) => work), rework: sumOf(own, ({ rework }) => rework) } : null
    },
  }
}
