import type { AfterAllData, AfterBuildData } from '../../web/afterbuild/after.tsx'
import { writeHours } from '../../web/shared/amount.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { toTotal, tookWorkings, type TookTotal } from '../calc/estimate/afterBuild.ts'
import type { Working } from '../calc/amounts.ts'
import { formatQuantity } from '../calc/figures.ts'
import { formatMoneyFigure } from '../calc/money.ts'
import type { Workings } from '../shared/workings.ts'
import { BASIS_WORDS, basesInWords, moneyFigures, moneyOf, summedMoney, type MoneySums } from './money.ts'
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
  'Price is what was invoiced less credit notes, where nothing is invoiced what was accepted, else the estimate’s; without tax. Cost is hours logged and remaining, and what is bought.',
]

export function toAfterBuildPage(build: TookBuild): AfterBuildData {
  return {
    build: build.label, buildHref: `/builds/${build.id}`, isDelivered: build.isDelivered,
    money: moneyFigures(build).filter(([key]) => key !== 'mp').map(([, label, working]) => ({ label, working })),
    sides: sidesOfBuild(build).map((side) => toSide(side, side.key === 'w' ? null : wholeOf(build), false)),
    notes: [...partlyInvoiced(build), ...(build.rows.some(({ reworkS }) => reworkS > 0) ? ['Why something was done again stands at the hours of the part.'] : ['Nothing was done again.']), ...NOTES],
  }
}

export function afterBuildWorkings(build: TookBuild): Workings {
  return new Map([...sidesOfBuild(build).flatMap((side) => sideWorkings(side, 'operation')), ...tookWorkings('t', wholeOf(build), 'operation'), ...moneyFigures(build).map(([key, , working]): [string, Working] => [key, working])])
}

export function toAfterAllPage(builds: readonly TookBuild[], leftOut: readonly string[], { currency, units }: Viewer): AfterAllData {
  const hours = ({ estimatedS, tookS, overS, reworkS }: TookTotal) => ({ estimate: writeHours(estimatedS), took: writeHours(tookS), over: writeHours(overS), rework: writeHours(reworkS) })
  const money = ({ estimateMinor, priceMinor, costMinor, marginMinor, marginThousandths }: MoneySums) => ({
    estimated: formatMoneyFigure(estimateMinor, currency), price: formatMoneyFigure(priceMinor, currency), cost: formatMoneyFigure(costMinor, currency), margin: formatMoneyFigure(marginMinor, currency),
    share: marginThousandths === null ? '' : formatQuantity(marginThousandths, 'share', units),
  })
  return {
    count: builds.length,
    builds: builds.slice(0, MOST_LISTED).map((build) => ({ name: build.label, href: `/builds/${build.id}/after`, basis: `price ${BASIS_WORDS[build.money.basis]}`, ...hours(wholeOf(build)), ...money(build.money) })),
    whole: { ...hours(allOf(builds)), ...money(moneyOf(builds)) },
    sides: sidesOfAll(builds).map((side) => toSide(side, side.key === 'w' || builds.length === 0 ? null : allOf(builds), true)),
    worth: builds.length === 0 || builds.length >= FEW ? '' : `These are ${builds.length === 1 ? 'the hours of one build' : `the hours of ${builds.length} builds`}: one more or less changes every figure, so take none of them as a rule yet.`,
    notes: [...leftOut.map((name) => `${name} is left out: its figures cannot be made. Its estimate says why.`), ...NOTES, basesInWords(builds)].filter((words) => words !== ''),
  }
}

const FEW = 10
// So that the page stays quick on a poor network.
const MOST_LISTED = 40

export function afterAllWorkings(builds: readonly TookBuild[]): Workings {
  return new Map([...sidesOfAll(builds).flatMap((side) => sideWorkings(side, 'build')), ...tookWorkings('t', allOf(builds), 'build'), ...summedMoney(builds)])
}

/** A build that goes on is invoiced in part: its margin is of that part. */
function partlyInvoiced({ isDelivered, money: { acceptedMinor, basis, priceMinor } }: TookBuild): string[] {
  return !isDelivered && basis === 'invoiced' && acceptedMinor !== null && priceMinor < acceptedMinor ? ['Less is invoiced so far than was accepted: the margin is of what is invoiced.'] : []
}
