import type { Working, WorkingInput } from '../calc/amounts.ts'
import { sumOf } from '../calc/grouping.ts'
import { marginOf } from '../calc/quotes/margin.ts'
import type { PriceBasis, PriceTaken } from '../calc/quotes/priceTaken.ts'
import type { TookBuild } from './tookOf.ts'

/** Sums over builds; the price of each is taken from what there is of it. Minor units, without tax. */
export interface MoneySums {
  readonly estimateMinor: number
  readonly priceMinor: number
  readonly costMinor: number
  readonly marginMinor: number
  readonly marginThousandths: number | null
}

export function moneyOf(builds: readonly TookBuild[]): MoneySums {
  const sum = (of: (money: PriceTaken) => number): number => sumOf(builds, ({ money }) => of(money))
  const [priceMinor, costMinor] = [sum((money) => money.priceMinor), sum((money) => money.costMinor)]
  return { estimateMinor: sum((money) => money.estimateMinor), priceMinor, costMinor, marginMinor: priceMinor - costMinor, marginThousandths: marginOf(costMinor, priceMinor) }
}

export const BASIS_WORDS: Readonly<Record<PriceBasis, string>> = { invoiced: 'as invoiced', accepted: 'as accepted', estimate: 'as estimated' }

const ASSUMED: Readonly<Record<PriceBasis, string>> = {
  invoiced: 'The price is what was invoiced less credit notes; what is not invoiced yet is not in it.', accepted: 'Nothing is invoiced yet: the price is what was accepted.',
  estimate: 'Nothing frozen was accepted and nothing invoiced: the price is the estimate’s.',
}
const SOURCE = 'common practice, no source'
const TAX = 'Tax is not in it.'
const input = (label: string, source: string, value: number): WorkingInput => ({ label, source, amount: { kind: 'money', value } })

/** A figure of money on the page: its key, its label and how it comes about. */
export type MoneyFigure = readonly [key: string, label: string, working: Working]

/** me the price of the estimate, ma what was accepted, mi what was invoiced, mp the price taken, mc the cost, mm the margin, ms its share. */
export function moneyFigures({ label: name, money, spared }: TookBuild): MoneyFigure[] {
  const { basis, estimateMinor, acceptedMinor, invoices, priceMinor, costMinor, marginMinor } = money
  const figure = (key: string, label: string, value: number, inputs: WorkingInput[], formula: string, assumed = TAX): MoneyFigure =>
    [key, label, { title: `${name}: ${label.toLowerCase()}`, inputs, result: { kind: 'money', value }, formula, assumed, source: SOURCE }]
  const price = input(`Price, ${BASIS_WORDS[basis]}`, BASIS_WORDS[basis], priceMinor)
  const cost = input('Cost', 'hours logged and remaining, and what is bought', costMinor)
  const takenFrom: Readonly<Record<PriceBasis, () => WorkingInput[]>> = {
    invoiced: () => [input('Invoiced', 'invoices', invoices?.invoicedMinor ?? 0), input('Credited', 'credit notes', -(invoices?.creditedMinor ?? 0))],
    accepted: () => [input('Accepted', 'accepted quote and change orders', priceMinor)], estimate: () => [input('Estimate', 'labor and bought', priceMinor)],
  }
  return [
    figure('me', 'Price of the estimate', estimateMinor, [input('Estimate', 'labor and bought, all options included', estimateMinor)], 'as the estimate has it'),
    ...(acceptedMinor === null ? [] : [figure('ma', 'Accepted', acceptedMinor, [input('Accepted', 'accepted quote and change orders', acceptedMinor)], 'accepted revision + accepted change orders')]),
    ...(invoices === null ? [] : [figure('mi', 'Invoiced less credited', invoices.invoicedMinor - invoices.creditedMinor, takenFrom.invoiced(), 'invoiced − credited')]),
    figure('mc', 'Cost', costMinor, [input('Cost when finished', 'as the costing has it', costMinor + spared.reduce((sum, one) => sum + one.costMinor, 0)), ...spared.map(({ number, name: option, costMinor: off }) => input(`Option ${number}, ${option}: said no to`, 'what is not made and not bought', -off))], 'as the costing has it, without what was said no to', `Material costs what the bill says. ${TAX}`),
    figure('mm', `Margin, ${BASIS_WORDS[basis]}`, marginMinor, [price, cost], 'price − cost', `${ASSUMED[basis]} ${TAX}`),
    ...shareFigure(name, money, price),
    figure('mp', `Price, ${BASIS_WORDS[basis]}`, priceMinor, takenFrom[basis](), basis === 'invoiced' ? 'invoiced − credited' : 'as it stands', `${ASSUMED[basis]} ${TAX}`),
  ]
}

function shareFigure(name: string, { marginMinor, marginThousandths }: Pick<MoneySums, 'marginMinor' | 'marginThousandths'>, price: WorkingInput): MoneyFigure[] {
  return marginThousandths === null ? [] : [['ms', 'Margin of the price', {
    title: `${name}: margin of the price`, inputs: [input('Margin', 'price − cost', marginMinor), price], result: { kind: 'share', value: marginThousandths },
    formula: 'margin ÷ price', assumed: 'Margin is a share of the price, markup one of the cost.', source: SOURCE,
  }]]
}

const ALL = 'All closed builds'

/** The same over builds: tq the price of the estimates, tp, tc, tm and ts. */
export function summedMoney(builds: readonly TookBuild[]): [string, Working][] {
  const whole = moneyOf(builds)
  const price = input('Price', 'sum over builds, each as it was taken', whole.priceMinor)
  const sum = (title: string, value: number, of: (money: PriceTaken) => WorkingInput['amount']['value'], from: (money: PriceTaken) => string): Working => ({
    title: `${ALL}: ${title}`, inputs: builds.map(({ label, money }) => input(label, from(money), of(money))), result: { kind: 'money', value }, formula: 'sum over builds', assumed: TAX, source: SOURCE,
  })
  return [
    ['tq', sum('price of the estimates', whole.estimateMinor, ({ estimateMinor }) => estimateMinor, () => 'estimate')],
    ['tp', sum('price', whole.priceMinor, ({ priceMinor }) => priceMinor, ({ basis }) => BASIS_WORDS[basis])], ['tc', sum('cost', whole.costMinor, ({ costMinor }) => costMinor, () => 'its page')],
    ['tm', { title: `${ALL}: margin`, inputs: [price, input('Cost', 'sum over builds', whole.costMinor)], result: { kind: 'money', value: whole.marginMinor }, formula: 'price − cost', assumed: `Each build at the price that was taken. ${TAX}`, source: SOURCE }],
    ...shareFigure(ALL, whole, price).map(([, , working]): [string, Working] => ['ts', working]),
  ]
}

/** How many builds have their price from where. */
export function basesInWords(builds: readonly TookBuild[]): string {
  const counts = (['invoiced', 'accepted', 'estimate'] as const).map((basis) => ({ basis, count: builds.filter(({ money }) => money.basis === basis).length })).filter(({ count }) => count > 0)
  return counts.length === 0 ? '' : `The price of ${counts.map(({ basis, count }) => `${count} ${BASIS_WORDS[basis]}`).join(', ')}.`
}
