import type { AmountKind, Working, WorkingInput } from '../calc/amounts.ts'
import type { BillOfMaterials } from '../calc/parts/billOfMaterials.ts'
import type { Costing } from '../calc/costing/costing.ts'
import type { OperationCosting } from '../calc/costing/costRows.ts'
import type { CostFigures, CostTotal } from '../calc/costing/costSums.ts'
import type { Estimate } from '../calc/estimate/estimate.ts'
import { groupBy, sumOf } from '../calc/grouping.ts'
import { counted } from '../../web/shared/text.ts'

const SOURCE = 'common practice, no source'

const input = (label: string, source: string, kind: AmountKind, value: number): WorkingInput => ({ label, source, amount: { kind, value } })

/** The clock of one crew after another, by how many people stand at it at once. */
export function elapsedWorking({ operations, total }: Estimate): Working {
  const crews = [...groupBy(operations.filter(({ sums }) => sums.elapsedS > 0), ({ operation }) => operation.crew)].toSorted(([a], [b]) => a - b)
  return {
    ...total.workings.elapsed,
    inputs: crews.map(([crew, own]) => input(`${counted(crew, 'person', 'people')} at once`, counted(own.length, 'operation', 'operations'), 'time', sumOf(own, ({ sums }) => sums.elapsedS))),
  }
}

/** Logged hours, by the departments they were logged in. */
export function loggedWorking(total: CostTotal, byDepartment: readonly CostTotal[]): Working {
  return {
    title: `${total.label}: person-hours logged`,
    inputs: byDepartment.filter(({ figures }) => figures.loggedS > 0).map(({ label, figures }) => input(label, 'time entries', 'time', figures.loggedS)),
    result: { kind: 'time', value: total.figures.loggedS },
    formula: 'work + rework',
    assumed: 'Of a corrected entry the correction counts. Waiting is not in it.',
    source: SOURCE,
  }
}

/** What is left to do, by department. */
export function remainingWorking(total: CostTotal, byDepartment: readonly CostTotal[]): Working {
  return {
    title: `${total.label}: person-hours remaining`,
    inputs: byDepartment.filter(({ figures }) => figures.remainingS > 0)
      .map(({ label, figures }) => input(label, 'operations not done', 'time', figures.remainingS)),
    result: { kind: 'time', value: total.figures.remainingS },
    formula: 'for each operation: the technician’s own figure, else estimate − logged, at least 0; 0 when done',
    assumed: 'Nobody is faster or slower than estimated from here on.',
    source: SOURCE,
  }
}

/** What is left to do on one part, by operation. */
export function remainingOfPart(label: string, operations: readonly OperationCosting[]): Working {
  return {
    title: `${label}: person-hours remaining`,
    inputs: operations.filter(({ figures }) => figures.remainingS > 0).map(({ operation, figures, remainingSource }) =>
      input(`${operation.number} ${operation.kind}`, remainingSource === 'technician' ? 'technician’s own figure' : 'estimate − logged', 'time', figures.remainingS)),
    result: { kind: 'time', value: sumOf(operations, ({ figures }) => figures.remainingS) },
    formula: 'sum over its operations that are not done',
    assumed: 'Nobody is faster or slower than estimated from here on.',
    source: SOURCE,
  }
}

/** Logged hours of one part, in their kinds. */
export function loggedOfPart(label: string, { workS, reworkS, loggedS }: CostFigures): Working {
  return {
    title: `${label}: person-hours logged`,
    inputs: [input('Work', 'time entries', 'time', workS), input('Rework', 'time entries', 'time', reworkS)],
    result: { kind: 'time', value: loggedS },
    formula: 'work + rework',
    assumed: 'Of a corrected entry the correction counts. Waiting is not in it. Hours on the pieces that go into it stand on their own pages.',
    source: SOURCE,
  }
}

/** The price as estimated: labor, and all that is bought. */
export function priceWorking({ labor, build }: Costing, { sell }: BillOfMaterials): Working {
  return {
    title: 'Price as estimated',
    inputs: [
      input('Labor', 'estimate', 'money', labor.figures.estimatedSellMinor),
      input('Materials', 'bill of materials', 'money', sell.materialsMinor),
      input('Equipment', 'bill of materials', 'money', sell.equipmentMinor),
      input('Single-use parts', 'bill of materials', 'money', sell.singleUseMinor),
    ],
    result: { kind: 'money', value: build.priceMinor },
    formula: 'labor + materials + equipment + single-use parts',
    assumed: 'Tax is not in it.',
    source: SOURCE,
  }
}
