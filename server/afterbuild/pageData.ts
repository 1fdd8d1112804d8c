import type { AfterAllData, AfterBuildData } from '../../web/afterbuild/after.tsx'
import { writeHours } from '../../web/shared/amount.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { toTotal, tookWorkings, type TookTotal } from '../calc/afterBuild.ts'
import type { Working, WorkingInput } from '../calc/amounts.ts'
import type { WholeMoney } from '../calc/costSums.ts'
import { formatQuantity } from '../calc/figures.ts'
import { sumOf } from '../calc/grouping.ts'
import { marginOf } from '../calc/margin.ts'
import { formatMoneyFigure } from '../calc/money.ts'
import type { Workings } from '../shared/workings.ts'
import { byDepartment, byKind, byOwner, byRework, sideWorkings, toSide, type SideOf } from './sides.ts'
import type { TookBuild } from './tookOf.ts'

const sidesOfBuild = ({ rows }: TookBuild): SideOf[] => [byRework(rows, ({ label }) => label), byOwner(rows), byDepartment(rows), byKind(rows)]
const sidesOfAll = (builds: readonly TookBuild[]): SideOf[] => {
  const rows = builds.flatMap((build) => build.rows)
  return [byRework(rows, ({ kind, department }) => `${kind}, ${department}`), byDepartment(rows), byKind(rows)]
}
const wholeOf = (build: TookBuild): TookTotal => toTotal('The build', build.rows)
const allOf = (builds: readonly TookBuild[]): TookTotal => toTotal('All closed builds', builds.flatMap(({ rows }) => rows))

const NOTES = [
  'Est. h is the estimate as it stands, with the allowance for rework; Logged is work and rework. Over is logged less estimated.',
  'Price is what was estimated, labor and bought; cost is hours logged and what is bought. What the customer accepted and paid stands on the account.',
]

export function toAfterBuildPage(build: TookBuild): AfterBuildData {
  const workings = moneyWorkings('m', build.label, build.money)
  return {
    build: build.label, buildHref: `/builds/${build.id}`, isDelivered: build.isDelivered,
    money: workings.map(([, working]) => ({ label: working.title.slice(build.label.length + 2).replace(/^./, (letter) => letter.toUpperCase()), working })),
    sides: sidesOfBuild(build).map((side) => toSide(side, side.key === 'w' ? null : wholeOf(build), false)),
    notes: [...(build.rows.some(({ reworkS }) => reworkS > 0) ? ['Why something was done again stands at the hours of the part.'] : ['Nothing was done again.']), ...NOTES],
  }
}

export function afterBuildWorkings(build: TookBuild): Workings {
  return new Map([...sidesOfBuild(build).flatMap((side) => sideWorkings(side, 'operation')), ...tookWorkings('t', wholeOf(build), 'operation'), ...moneyWorkings('m', build.label, build.money)])
}

export function toAfterAllPage(builds: readonly TookBuild[], { currency, units }: Viewer): AfterAllData {
  const hours = ({ estimatedS, tookS, overS, reworkS }: TookTotal) => ({ estimate: writeHours(estimatedS), took: writeHours(tookS), over: writeHours(overS), rework: writeHours(reworkS) })
  const money = ({ priceMinor, costMinor, marginMinor, marginThousandths }: WholeMoney) => ({
    price: formatMoneyFigure(priceMinor, currency), cost: formatMoneyFigure(costMinor, currency), margin: formatMoneyFigure(marginMinor, currency),
    share: marginThousandths === null ? '' : formatQuantity(marginThousandths, 'share', units),
  })
  return {
    count: builds.length,
    builds: builds.slice(0, MOST_LISTED).map((build) => ({ name: build.label, href: `/builds/${build.id}/after`, ...hours(wholeOf(build)), ...money(build.money) })),
    whole: { ...hours(allOf(builds)), ...money(moneyOf(builds)) },
    sides: sidesOfAll(builds).map((side) => toSide(side, side.key === 'w' || builds.length === 0 ? null : allOf(builds), true)),
    worth: builds.length === 0 || builds.length >= FEW ? '' : `These are ${builds.length === 1 ? 'the hours of one build' : `the hours of ${builds.length} builds`}: one more or less changes every figure, so take none of them as a rule yet.`,
    notes: NOTES,
  }
}

const FEW = 10
// So that the page stays quick on a poor network.
const MOST_LISTED = 40

export function afterAllWorkings(builds: readonly TookBuild[]): Workings {
  return new Map([...sidesOfAll(builds).flatMap((side) => sideWorkings(side, 'build')), ...tookWorkings('t', allOf(builds), 'build'), ...summedMoney(builds)])
}

export function moneyOf(builds: readonly TookBuild[]): WholeMoney {
  const sum = (of: (money: WholeMoney) => number): number => sumOf(builds, (build) => of(build.money))
  const [priceMinor, costMinor] = [sum((money) => money.priceMinor), sum((money) => money.costMinor)]
  return { priceMinor, costMinor, marginMinor: priceMinor - costMinor, marginThousandths: marginOf(costMinor, priceMinor) }
}

const SOURCE = 'common practice, no source'
const input = (label: string, source: string, value: number): WorkingInput => ({ label, source, amount: { kind: 'money', value } })

/** mp the price, mc the cost, mm the margin, ms its share of the price. */
function moneyWorkings(key: string, name: string, { priceMinor, costMinor, marginMinor, marginThousandths }: WholeMoney): [string, Working][] {
  const [price, cost] = [input('Price', 'estimate, labor and bought', priceMinor), input('Cost', 'hours logged and remaining, and what is bought', costMinor)]
  const money = (title: string, value: number, inputs: WorkingInput[], formula: string): Working =>
    ({ title: `${name}: ${title}`, inputs, result: { kind: 'money', value }, formula, assumed: 'The customer pays what was estimated; material costs what the bill says. Tax is not in it.', source: SOURCE })
  return [
    [`${key}p`, money('price', priceMinor, [price], 'as the estimate has it')], [`${key}c`, money('cost', costMinor, [cost], 'as the costing has it')],
    [`${key}m`, money('margin', marginMinor, [price, cost], 'price − cost')],
    ...(marginThousandths === null ? [] : [[`${key}s`, {
      title: `${name}: margin of the price`, inputs: [input('Margin', 'price − cost', marginMinor), price], result: { kind: 'share', value: marginThousandths },
      formula: 'margin ÷ price', assumed: 'Margin is a share of the price, markup one of the cost.', source: SOURCE,
    }] as [string, Working]]),
  ]
}

function summedMoney(builds: readonly TookBuild[]): [string, Working][] {
  const whole = moneyOf(builds)
  const [, , margin, share] = moneyWorkings('t', 'All closed builds', whole)
  const sum = (title: string, value: number, of: (money: WholeMoney) => number): Working => ({
    title: `All closed builds: ${title}`, inputs: builds.map((build) => input(build.label, 'its page', of(build.money))), result: { kind: 'money', value }, formula: 'sum over builds', assumed: 'Tax is not in it.', source: SOURCE,
  })
  return [
    ['tp', sum('price', whole.priceMinor, ({ priceMinor }) => priceMinor)], ['tc', sum('cost', whole.costMinor, ({ costMinor }) => costMinor)],
    ...(margin ? [margin] : []), ...(share ? [share] : []),
  ]
}
