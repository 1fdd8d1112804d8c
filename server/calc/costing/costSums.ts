import type { Amount, Working, WorkingInput } from '../amounts.ts'
import { marginOf } from '../quotes/margin.ts'
import type { Sums } from '../shares.ts'

export const COST_KEYS = [
  'withoutReworkS', 'allowanceS', 'workS', 'reworkS', 'waitingS', 'uncostedS', 'remainingS', 'estimatedCostMinor', 'estimatedSellMinor',
  'loggedCostMinor', 'loggedSellMinor', 'remainingCostMinor', 'remainingSellMinor', 'earnedMinor',
  'boughtCostMinor', 'boughtSellMinor',
] as const
export type CostKey = typeof COST_KEYS[number]
export type CostSums = Sums<CostKey>

/** What follows from the sums; all seconds are person-seconds. The allowance for rework is within the estimate. */
export interface CostFigures extends CostSums {
  /** Without rework, and the allowance for it. */
  readonly estimatedS: number
  /** Work and rework. Waiting stands apart: it costs, but brings nothing forward. */
  readonly loggedS: number
  readonly forecastS: number
  readonly forecastCostMinor: number
  readonly forecastSellMinor: number
  /** Estimated price less forecast cost. */
  readonly marginMinor: number
  /** Of the estimated price; null when there is none. */
  readonly marginThousandths: number | null
  /** Labor and what is bought together: price as estimated, cost at completion, and what is between them. */
  readonly whole: WholeMoney
}

export interface WholeMoney {
  readonly priceMinor: number
  readonly costMinor: number
  readonly marginMinor: number
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
  /** What it is summed from: operations, hours on none and what is bought, or departments. */
  readonly entries: readonly CostEntry[]
  readonly workings: Readonly<Record<'forecast' | 'cost' | 'margin' | 'wholePrice' | 'wholeCost' | 'wholeMargin', Working>>
}

export function toCostFigures(sums: CostSums): CostFigures {
  const loggedS = sums.workS + sums.reworkS
  const forecastCostMinor = sums.loggedCostMinor + sums.remainingCostMinor
  return {
    ...sums, estimatedS: sums.withoutReworkS + sums.allowanceS, loggedS, forecastS: loggedS + sums.remainingS, forecastCostMinor,
    forecastSellMinor: sums.loggedSellMinor + sums.remainingSellMinor,
    marginMinor: sums.estimatedSellMinor - forecastCostMinor,
    marginThousandths: marginOf(forecastCostMinor, sums.estimatedSellMinor),
    whole: toWholeMoney(forecastCostMinor + sums.boughtCostMinor, sums.estimatedSellMinor + sums.boughtSellMinor),
  }
}

function toWholeMoney(costMinor: number, priceMinor: number): WholeMoney {
  return { priceMinor, costMinor, marginMinor: priceMinor - costMinor, marginThousandths: marginOf(costMinor, priceMinor) }
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
      assumed: 'Rework counts against the estimate like work and uses up the allowance that is in it. Waiting is not in it. What is done has nothing remaining.', source,
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
    ...wholeWorkings(label, figures),
  }
}

function wholeWorkings(label: string, figures: CostFigures): Pick<CostTotal['workings'], 'wholePrice' | 'wholeCost' | 'wholeMargin'> {
  const money = (name: string, source: string, value: number): WorkingInput => ({ label: name, source, amount: { kind: 'money', value } })
  const working = (title: string, value: number, inputs: WorkingInput[], formula: string, assumed: string): Working =>
    ({ title: `${label}: ${title}`, inputs, result: { kind: 'money', value }, formula, assumed, source: 'common practice, no source' })
  const { priceMinor, costMinor, marginMinor } = figures.whole
  const bought = 'bill of materials, packs shared by what each takes'
  return {
    wholePrice: working('price', priceMinor, [
      money('Labor as estimated', 'estimate', figures.estimatedSellMinor), money('Bought', bought, figures.boughtSellMinor),
    ], 'labor + bought', 'Tax is not in it.'),
    wholeCost: working('cost at completion', costMinor, [
      money('Labor logged, waiting included', 'time entries', figures.loggedCostMinor), money('Labor remaining', 'costing', figures.remainingCostMinor),
      money('Bought', bought, figures.boughtCostMinor),
    ], 'labor logged + labor remaining + bought', 'Material costs what the bill says.'),
    wholeMargin: working('margin', marginMinor, [money('Price', 'estimate', priceMinor), money('Cost at completion', 'costing', costMinor)],
      'price − cost', 'The customer pays what was estimated; material costs what the bill says. Tax is not in it.'),
  }
}
