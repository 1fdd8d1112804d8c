import { counted } from '../../web/shared/text.ts'
import { formatQuantity } from '../calc/figures.ts'
import type { Reads } from '../shared/database/database.ts'
import type { Row } from '../shared/database/delegate.ts'
import { CORRECTED, ratioFor } from './toOperation.ts'

/** What a manager accepted of the shop's hours for each of these operations, by id, as “× 1.34 from 17 records”. */
export async function ratiosOf(reads: Reads, rows: readonly Row[]): Promise<ReadonlyMap<string, string>> {
  const counting = rows.filter(({ removedAt, visitId }) => !removedAt && !visitId)
  const builds = [...new Set(counting.map(({ buildId }) => String(buildId)))]
  const corrections = builds.length === 0 ? [] : await reads.hourCorrection.findMany({ where: { buildId: { in: builds }, removedAt: null }, select: CORRECTED })
  return new Map(counting.flatMap(({ id, buildId, kind, departmentId }): [string, string][] => {
    const own = corrections.filter((correction) => correction.buildId === buildId)
    const ratio = ratioFor({ kind: String(kind), departmentId: String(departmentId) }, own)
    return ratio === null ? [] : [[id, ratioInWords(ratio)]]
  }))
}

export const ratioInWords = ({ thousandths, records }: { readonly thousandths: number, readonly records: number }): string =>
  `× ${formatQuantity(thousandths, 'times', 'metric')} from ${counted(records, 'record', 'records')}`
