import type { PartOperation } from '../../web/parts/partData.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { writeHours } from '../../web/shared/amount.ts'
import { BENCH } from '../shared/roles.ts'
import { toPartHolds } from './partFinishes.ts'
import { scaleHalfAway } from '../calc/rounding.ts'
import type { Operation } from '../calc/estimate/operations.ts'
import { runningOverInWords } from '../builds/runningOver.ts'
import { ratioInWords } from '../operations/ratioStore.ts'
import type { PartSources } from './partPage.ts'

/** The operations of a part in their order, with what each was estimated at, has taken and still takes. */
export function toPartOperations(sources: PartSources, { role }: Viewer): PartOperation[] {
  const { stored, figures, operations } = sources
  const holds = toPartHolds(sources)
  const rows = new Map(stored.operations.map((row) => [row.id, row]))
  const departments = new Map(stored.departments.map(({ id, name }) => [id, name]))
  const estimates = new Map(figures.costing.estimate.operations.map((estimate) => [estimate.operation.id, estimate]))
  return operations.flatMap((costing) => {
    const { operation, figures: own } = costing
    const [row, estimate] = [rows.get(operation.id), estimates.get(operation.id)]
    if (!row || !estimate) return []
    // All pieces are one batch: its set-up counts once for each person at it.
    const setUp = estimate.pieces === 0 ? 0 : scaleHalfAway(operation.setUpS, operation.ratio?.thousandths ?? 1000, 1000) * operation.crew
    return [{
      id: operation.id, number: operation.number, kind: operation.kind, work: row.work, department: departments.get(operation.departmentId) ?? '',
      state: operation.state, ...(own.reworkS > 0 ? { stateWords: `${operation.state}, ${writeHours(own.reworkS)} h rework` } : {}),
      hours: { setUp, run: own.withoutReworkS - setUp, allowance: own.allowanceS, logged: own.loggedS, rework: own.reworkS, wait: estimate.sums.waitS },
      curve: curveOf(operation), runningOver: runningOverInWords(costing),
      estimate: estimate.working, remaining: own.remainingS, heldBy: holds.get(operation.id), earlier: sources.earlier?.get(operation.id),
      href: BENCH.includes(role) ? `/operations/${operation.id}/form` : `/operations/${operation.id}`,
    }]
  })
}

/** What the shop’s hours make of it, what of one piece is unsure, and how later ones go faster, in words; empty for most. */
function curveOf({ runS, spread, learning, ratio }: Operation): string {
  return [
    ratio === null ? '' : ratioInWords(ratio),
    spread === null ? '' : `${writeHours(spread.bestS, 2)} to ${writeHours(spread.worstS, 2)} h a piece, most likely ${writeHours(runS, 2)}`,
    learning === null ? '' : `later pieces go faster: ${learning.rateThousandths / 10} %, ${learning.model} model`,
  ].filter((words) => words !== '').join('; ')
}
