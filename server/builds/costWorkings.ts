import type { AmountKind, Working } from '../calc/amounts.ts'
import type { CostFigures, CostTotal } from '../calc/costing/costSums.ts'
import { toCostFigures } from '../calc/costing/costSums.ts'
import type { EstimateTotal } from '../calc/estimate/estimate.ts'

const SOURCE = 'common practice, no source'

type Shown = readonly [key: string, working: Working]

/**
 * The hours of one total, each with all that goes into it, by a letter after the prefix: e estimate, l logged,
 * r remaining, f forecast. The name is what the page calls it, as "Zone 4".
 */
export function hourWorkings(prefix: string, name: string, total: CostTotal | undefined, estimate: EstimateTotal | undefined): Shown[] {
  return [
    [`${prefix}e`, estimate ? { ...estimate.workings.labor, title: `${name}: person-hours estimated` } : nothing(`${name}: person-hours estimated`)],
    [`${prefix}l`, total ? loggedOf(name, total) : nothing(`${name}: person-hours logged`)],
    [`${prefix}r`, total ? remainingOf(name, total) : nothing(`${name}: person-hours remaining`)],
    [`${prefix}f`, total ? { ...total.workings.forecast, title: `${name}: person-hours at completion` } : nothing(`${name}: person-hours at completion`)],
  ]
}

function loggedOf(name: string, total: CostTotal): Working {
  return {
    ...summed(`${name}: person-hours logged`, 'time', total, 'time entries', ({ loggedS }) => loggedS),
    formula: 'sum of work and rework', assumed: 'Of a corrected entry the correction counts. Waiting is not in it. Things that stand in several zones are shared by their pieces.',
  }
}

function remainingOf(name: string, total: CostTotal): Working {
  return {
    ...summed(`${name}: person-hours remaining`, 'time', total, 'not done', ({ remainingS }) => remainingS),
    formula: 'sum of what remains of each',
    assumed: 'Of an operation the technician’s own figure remains, else estimate less logged, never below 0, and 0 when done. Nobody is faster or slower than estimated from here on.',
  }
}

/** The sum of one figure over all that a total is made of; what adds nothing is left out. */
export function summed(title: string, kind: AmountKind, total: CostTotal, source: string, of: (figures: CostFigures) => number): Working {
  const inputs = total.entries.map(({ label, sums }) => ({ label, source, amount: { kind, value: of(toCostFigures(sums)) } }))
  return {
    title, inputs: inputs.filter(({ amount }) => amount.value !== 0), result: { kind, value: of(total.figures) },
    formula: 'sum', assumed: '', source: SOURCE,
  }
}

/** The last line of a table: the sum of the lines above it. */
export function totalOf(title: string, lines: readonly { readonly label: string, readonly value: number }[], kind: AmountKind, source: string): Working {
  return {
    title, inputs: lines.map(({ label, value }) => ({ label, source, amount: { kind, value } })),
    result: { kind, value: lines.reduce((sum, { value }) => sum + value, 0) }, formula: 'sum of the lines above', assumed: '', source: SOURCE,
  }
}

function nothing(title: string): Working {
  return { title, inputs: [], result: { kind: 'time', value: 0 }, formula: 'sum', assumed: 'Nothing is planned or logged here yet.', source: SOURCE }
}
