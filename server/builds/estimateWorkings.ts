import type { AmountKind, Working } from '../calc/amounts.ts'
import type { CostFigures } from '../calc/costing/costSums.ts'
import type { Workings } from '../shared/workings.ts'
import { hourWorkings, summed, totalOf } from './costWorkings.ts'
import { estimateSides } from './estimateSides.ts'
import type { SideLine } from './estimateSides.ts'
import type { BuildFigures } from './figures.ts'
import type { StoredBuild } from './store.ts'

type Column = readonly [letter: string, name: string, kind: AmountKind, of: (figures: CostFigures) => number]

const HOURS: readonly Column[] = [
  ['e', 'person-hours estimated', 'time', ({ estimatedS }) => estimatedS], ['l', 'person-hours logged', 'time', ({ loggedS }) => loggedS],
  ['r', 'person-hours remaining', 'time', ({ remainingS }) => remainingS], ['f', 'person-hours at completion', 'time', ({ forecastS }) => forecastS],
]
const MONEY: readonly Column[] = [
  ['p', 'price', 'money', ({ whole }) => whole.priceMinor], ['c', 'cost at completion', 'money', ({ whole }) => whole.costMinor],
  ['m', 'margin', 'money', ({ whole }) => whole.marginMinor],
]

/** What the figures of the estimate open: z4e is the estimate of zone 4, ztm the margin of all zones. */
export function estimateWorkings(stored: StoredBuild, figures: BuildFigures, showsMoney: boolean): Workings {
  const { zones, departments, parts, others } = estimateSides(stored, figures)
  const sides = [['zt', 'All zones', zones], ['dt', 'All departments', departments], ['pt', 'All made parts', parts], ['ot', 'All equipment and factory parts', others]] as const
  return new Map(sides.flatMap(([prefix, name, lines]) => [
    ...lines.flatMap((line) => [...hoursOf(line), ...(showsMoney ? moneyOf(line) : [])]),
    ...[...HOURS, ...(showsMoney ? MONEY : [])].map((column) => allOf(prefix, name, lines, column)),
  ]))
}

function hoursOf({ how, total }: SideLine): (readonly [string, Working])[] {
  const [, ...others] = hourWorkings(how, total.label, total, undefined)
  return [[`${how}e`, estimateOf(total.label, total)], ...others]
}

/** The estimate of one total, from all that it is made of. */
export function estimateOf(name: string, total: SideLine['total']): Working {
  return {
    ...summed(`${name}: person-hours estimated`, 'time', total, 'estimate', ({ estimatedS }) => estimatedS),
    formula: 'sum of person-hours, allowance for rework included',
    assumed: 'Waiting that needs nobody is not in it. Things that stand in several places are shared by their pieces.',
  }
}

function moneyOf({ how, total: { workings } }: SideLine): [string, Working][] {
  return [[`${how}p`, workings.wholePrice], [`${how}c`, workings.wholeCost], [`${how}m`, workings.wholeMargin]]
}

function allOf(prefix: string, name: string, lines: readonly SideLine[], [letter, title, kind, of]: Column): readonly [string, Working] {
  const outermost = lines.filter(({ level }) => level === 0).map(({ label, total }) => ({ label, value: of(total.figures) }))
  return [`${prefix}${letter}`, totalOf(`${name}: ${title}`, outermost.filter(({ value }) => value !== 0), kind, 'line above')]
}
