import type { Amount, Working, WorkingInput } from './amounts.ts'
import { marginOf } from './margin.ts'
import type { Sums } from './shares.ts'

export const COST_KEYS = [
  'estimatedS', 'workS', 'reworkS', 'waitingS', 'uncostedS', 'remainingS', 'estimatedCostMinor', 'estimatedSellMinor',
  'loggedCostMinor', 'loggedSellMinor', 'remainingCostMinor', 'remainingSellMinor', 'earnedMinor',
] as const
export type CostKey = typeof COST_KEYS[number]
export type CostSums = Sums<CostKey>

/** What follows from the sums; all seconds are person-seconds. */
export interface CostFigures extends CostSums {
  /** Work and rework. Waiting stands apart: it costs, but brings nothing forward. */
  readonly loggedS: number
  readonly forecastS: number
  readonly forecastCostMinor: number
  readonly forecastSellMinor: number
  /** Estimated price less forecast cost. */
  readonly marginMinor: number
  /** Of the estimated price; null when there is none. */
  readonly marginThousandths: number | null
}

export interface CostEntry {
  readonly label: string
  readonly sums: CostSums
}

export interface CostTotal {
  readonly id: string | null
  readonly label: string
  readonly figures: CostFigures
  /** What it is summed from: operations and hours on none, or departments. */
  readonly entries: readonly CostEntry[]
  readonly workings: { readonly forecast: Working, readonly cost: Working, readonly margin: Working }
}

export function toCostFigures(sums: CostSums): CostFigures {
  const loggedS = sums.workS + sums.reworkS
  const forecastCostMinor = sums.loggedCostMinor + sums.remainingCostMinor
  return {
    ...sums, loggedS, forecastS: loggedS + sums.remainingS, forecastCostMinor,
    forecastSellMinor: sums.loggedSellMinor + sums.remainingSellMinor,
    marginMinor: sums.estimatedSellMinor - forecastCostMinor,
    marginThousandths: marginOf(forecastCostMinor, sums.estimatedSellMinor),
  }
}

export function toCostTotal(id: string | null, label: string, sums: CostSums, entries: readonly CostEntry[]): CostTotal {
  const figures = toCostFigures(sums)
  return { id, label, figures, entries, workings: toWorkings(label, figures) }
}

function toWorkings(label: string, figures: CostFigures): CostTotal['workings'] {
  const line = (kind: Amount['kind']) => (name: string, source: string, value: number): WorkingInput =>
    ({ label: name, source, amount: { kind, value } })
  const [time, money] = [line('time'), line('money')]
  const source = 'common practice, no source'
  return {
    forecast: {
      title: `${label}: person-hours at completion`,
      inputs: [
        time('Work', 'logged', figures.workS), time('Rework', 'logged', figures.reworkS),
        time('Remaining', 'technician’s own figure, else estimate − logged', figures.remainingS),
      ],
      result: { kind: 'time', value: figures.forecastS }, formula: 'work + rework + remaining',
      assumed: 'Rework counts against the estimate like work. Waiting is not in it. What is done has nothing remaining.', source,
    },
    cost: {
      title: `${label}: labor cost at completion`,
      inputs: [money('Logged, waiting included', 'hours × the department’s cost rate', figures.loggedCostMinor),
        money('Remaining', 'hours × the department’s cost rate', figures.remainingCostMinor)],
      result: { kind: 'money', value: figures.forecastCostMinor }, formula: 'logged + remaining',
      assumed: figures.uncostedS > 0 ? 'Some hours name no department and cost nothing here.' : '', source,
    },
    margin: {
      title: `${label}: margin on labor`,
      inputs: [money('Estimated price', 'estimate', figures.estimatedSellMinor), money('Cost at completion', 'this costing', figures.forecastCostMinor)],
      result: { kind: 'money', value: figures.marginMinor }, formula: 'price − cost',
      assumed: 'The customer pays what was estimated.', source,
    },
  }
}
