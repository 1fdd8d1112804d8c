import type { Amount, Working } from '../calc/amounts.ts'
import { markupOf, marginOf, markupOfMargin, priceAtMargin } from '../calc/quotes/margin.ts'
import { figuresOf, type BuildFigures } from '../builds/figures.ts'
import { priceWorking } from '../builds/workings.ts'
import { furtherOf, hasFurther, type Further } from '../quotes/further.ts'
import type { WhatIfAsked, WhatIfBuild } from './asked.ts'
import { changedBuild } from './changed.ts'

/** One figure as the build is and as it would be; null where there is none to be a share of. */
export interface Compared {
  readonly key: string
  readonly name: string
  readonly asItIs: Working | null
  readonly whatIf: Working | null
}

export interface Target {
  /** Thousandths. */
  readonly margin: number
  readonly price: Working
  readonly markup: Working
}

export interface Comparison {
  readonly rows: readonly Compared[]
  readonly target: Target | null
}

export function compare(build: WhatIfBuild, asked: WhatIfAsked): Comparison {
  const isQuoted = hasFurther(build.quoted)
  const listed = ({ stored, quoted }: WhatIfBuild): Listed => {
    const figures = figuresOf(stored)
    return listFigures(figures, isQuoted ? furtherOf(quoted, figures) : null)
  }
  const [asItIs, whatIf] = [listed(build), listed(changedBuild(build, asked))]
  const changed = new Map(whatIf.map((each) => [each.key, each.working]))
  const cost = changed.get('c')?.result.value ?? 0
  return {
    rows: asItIs.map(({ key, name, working }) => ({ key, name, asItIs: working, whatIf: changed.get(key) ?? null })),
    target: asked.targetMargin === null ? null : targetOf(cost, asked.targetMargin),
  }
}

type Listed = readonly { readonly key: string, readonly name: string, readonly working: Working | null }[]

function listFigures({ costing, bill }: BuildFigures, further: Further | null): Listed {
  const { labor, withoutRework } = costing.estimate.total.workings
  const { figures } = costing.labor
  const { priceMinor: estimatedMinor } = costing.build
  const furtherMinor = further ? further.suppliesMinor + further.linesMinor : 0
  const priceMinor = estimatedMinor + furtherMinor
  const beyond: MoneyInput[] = further ? [['Further lines and supplies', 'quote', furtherMinor]] : []
  // As estimated: what is done already has no hours left, and would take none if there were twice as many.
  const costMinor = figures.estimatedCostMinor + figures.boughtCostMinor
  return [
    { key: 'h', name: 'Hours, with rework', working: labor }, { key: 'n', name: 'Hours, without rework', working: withoutRework },
    { key: 'p', name: 'Price', working: priceWorking(costing, bill) },
    ...(further ? [{ key: 'f', name: 'Further lines and supplies', working: moneyWorking('Further lines and supplies', furtherMinor, [['Shop supplies', 'terms of the quote', further.suppliesMinor], ['Further lines', 'quote', further.linesMinor]], 'supplies + further lines') }] : []),
    { key: 'c', name: 'Cost as estimated', working: moneyWorking('Cost as estimated', costMinor, [['Labor', 'estimate', figures.estimatedCostMinor], ['Bought', 'bill of materials', figures.boughtCostMinor]], 'labor + bought') },
    { key: 'm', name: 'Margin', working: moneyWorking('Margin', priceMinor - costMinor, [['Price', 'estimate, labor and bought', estimatedMinor], ...beyond, ['Cost', 'as estimated', costMinor]], further ? 'price + further lines and supplies − cost' : 'price − cost') },
    { key: 'g', name: 'Margin, of the price', working: shareWorking('Margin, of the price', marginOf(costMinor, priceMinor), { costMinor, priceMinor, formula: '(price − cost) ÷ price' }) },
    { key: 'k', name: 'Markup, on the cost', working: shareWorking('Markup, on the cost', markupOf(costMinor, priceMinor), { costMinor, priceMinor, formula: '(price − cost) ÷ cost' }) },
  ]
}

type MoneyInput = readonly [label: string, source: string, value: number]

function moneyWorking(title: string, value: number, inputs: readonly MoneyInput[], formula: string): Working {
  return {
    title, inputs: inputs.map(([label, source, amount]) => ({ label, source, amount: money(amount) })), result: money(value), formula,
    assumed: 'Tax is not in it. What was logged so far is not looked at.', source: 'common practice, no source',
  }
}

const money = (value: number): Amount => ({ kind: 'money', value })
const SOURCE = 'identity from the definitions, from memory'

function shareWorking(title: string, share: number | null, { costMinor, priceMinor, formula }: { costMinor: number, priceMinor: number, formula: string }): Working | null {
  if (share === null) return null
  return {
    title, inputs: [{ label: 'Price', source: 'labor, bought, further lines and supplies', amount: money(priceMinor) }, { label: 'Cost', source: 'as estimated', amount: money(costMinor) }],
    result: { kind: 'share', value: share }, formula, assumed: 'Margin is a share of the price, markup a share of the cost: the same money, never the same percentage.', source: SOURCE,
  }
}

function targetOf(costMinor: number, margin: number): Target {
  const [cost, wanted] = [{ label: 'Cost', source: 'as it would be', amount: money(costMinor) }, { label: 'Margin wanted', source: 'as typed', amount: { kind: 'share', value: margin } }] as const
  return {
    margin,
    price: { title: 'Price for that margin', inputs: [cost, wanted], result: money(priceAtMargin(costMinor, margin)), formula: 'cost ÷ (1 − margin)', assumed: 'Tax is not in it.', source: SOURCE },
    markup: { title: 'Markup that comes to', inputs: [wanted], result: { kind: 'share', value: markupOfMargin(margin) }, formula: 'margin ÷ (1 − margin)', assumed: 'Of the cost.', source: SOURCE },
  }
}

/** What the figures open: ha the hours as they are, hw as they would be, hd what is between; tp and tk of the margin wanted. */
export function whatIfWorkings({ rows, target }: Comparison): Map<string, Working> {
  return new Map([
    ...rows.flatMap(({ key, name, asItIs, whatIf }): [string, Working][] => [
      ...(asItIs ? [[`${key}a`, asItIs] as [string, Working]] : []), ...(whatIf ? [[`${key}w`, whatIf] as [string, Working]] : []),
      ...(asItIs && whatIf ? [[`${key}d`, {
        title: `${name}: what moves`, inputs: [{ label: 'As it would be', source: 'what is asked', amount: whatIf.result }, { label: 'As it is', source: 'the build', amount: asItIs.result }],
        result: { kind: asItIs.result.kind, value: whatIf.result.value - asItIs.result.value }, formula: 'as it would be − as it is', assumed: 'Nothing of it is written down.', source: 'common practice, no source',
      }] as [string, Working]] : []),
    ]),
    ...(target ? [['tp', target.price], ['tk', target.markup]] as [string, Working][] : []),
  ])
}
