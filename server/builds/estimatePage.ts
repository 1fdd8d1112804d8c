import { sumOf } from '../calc/grouping.ts'
import type { EstimateBy, EstimateData, EstimateLine } from '../../web/builds/estimate.tsx'
import { writeHours } from '../../web/shared/amount.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { label } from '../shared/records/kind.ts'
import { toAfterDelivery } from './afterDelivery.ts'
import { correctionsIn } from './corrections.ts'
import { estimateSides } from './estimateSides.ts'
import type { SideLine, Sides } from './estimateSides.ts'
import { seesMoney } from './figures.ts'
import type { BuildFigures } from './figures.ts'
import { listRunningOver } from './runningOver.ts'
import type { StoredBuild } from './store.ts'
import { elapsedWorking, loggedWorking, priceWorking, remainingWorking } from './workings.ts'

/** The estimate as this viewer sees it: hours for all, money for those who see it. */
export function toEstimatePage(stored: StoredBuild, figures: BuildFigures, by: EstimateBy, viewer: Viewer): EstimateData {
  const { head } = stored
  const { costing } = figures
  const after = toAfterDelivery(stored)
  const showsMoney = seesMoney(viewer)
  const sides = estimateSides(stored, figures)
  const lines = (side: readonly SideLine[]): EstimateLine[] => side.filter((line) => showsMoney || isOfHours(line)).map((line) => toLine(line, showsMoney))
  const number = label('B', head.number)
  const ledgerHref = `/builds/${head.id}`
  return {
    trail: [{ name: `${number} ${head.title}`, href: ledgerHref }, { name: 'Estimate and costing' }],
    number, title: head.title,
    hours: {
      estimate: costing.estimate.total.workings.labor, withoutRework: costing.estimate.total.workings.withoutRework,
      rework: costing.estimate.total.workings.rework, elapsed: elapsedWorking(costing.estimate), giveOrTake: costing.estimate.giveOrTake?.working,
      logged: loggedWorking(costing.labor, costing.byDepartment), remaining: remainingWorking(costing.labor, costing.byDepartment),
      forecast: costing.labor.workings.forecast,
    },
    ...(after ? { afterDelivery: { hours: after.hours, ...(showsMoney ? { cost: after.cost } : {}) } } : {}),
    ...(showsMoney ? { money: moneyOf(figures) } : {}),
    alarm: head.stage === 'delivered' ? '' : costing.alarm?.words ?? '',
    runningOver: listRunningOver(costing).map(({ costing: { operation, label: name }, words }) => ({ name, words, href: `/operations/${operation.id}` })),
    sides: SIDES[by].map(({ key, ...side }) => ({ ...side, lines: lines(sides[key]) })), by,
    notes: [...correctionsIn(stored), ...notesOf(figures, showsMoney)],
    ledgerHref,
  }
}

interface Side extends Omit<EstimateData['sides'][number], 'lines'> {
  readonly key: keyof Sides
}

const SIDES: Readonly<Record<EstimateBy, readonly Side[]>> = {
  zone: [{ key: 'zones', name: 'By zone', of: 'Zone', how: 'zt' }, { key: 'departments', name: 'By department', of: 'Department', how: 'dt' }],
  part: [{ key: 'parts', name: 'Made parts', of: 'Part', how: 'pt', note: 'An assembly counts what goes into it, itself stands below; only the outermost lines are summed. With equipment and factory parts they come to the build.' }],
  equipment: [{ key: 'others', name: 'Equipment and factory parts', of: 'Item', how: 'ot', note: 'With the made parts they come to the build.' }],
}

// What is bought and never worked on is a line of money alone.
const isOfHours = ({ total: { figures } }: SideLine): boolean => figures.estimatedS + figures.forecastS + figures.waitingS > 0 || figures.boughtSellMinor + figures.boughtCostMinor === 0

function toLine({ how, label: name, level, href, anchor, ratios, total: { figures } }: SideLine, showsMoney: boolean): EstimateLine {
  const { priceMinor, costMinor, marginMinor } = figures.whole
  return {
    how, label: name, level, href, anchor, ratios,
    hours: { estimate: figures.estimatedS, logged: figures.loggedS, remaining: figures.remainingS, forecast: figures.forecastS },
    ...(showsMoney ? { money: { price: priceMinor, cost: costMinor, margin: marginMinor } } : {}),
  }
}

function moneyOf({ costing, bill }: BuildFigures): NonNullable<EstimateData['money']> {
  const { labor, build, estimate, earned, earningRule, alarm } = costing
  return {
    laborCost: estimate.total.workings.cost, laborPrice: estimate.total.workings.sell, forecastCost: labor.workings.cost,
    laborMargin: labor.workings.margin, price: priceWorking(costing, bill), cost: labor.workings.wholeCost, margin: build.working,
    earningRule, earned: earned.working ?? undefined, consentLeft: alarm?.working,
  }
}

function notesOf({ inputs, costing }: BuildFigures, showsMoney: boolean): string[] {
  const otherS = sumOf(costing.otherHours, ({ figures }) => figures.loggedS)
  return [
    ...(otherS === 0 ? [] : [`${writeHours(otherS)} h were logged on operations that have been taken away since. They stay hours of the build.`]),
    ...(costing.labor.figures.waitingS === 0 ? [] : [`${writeHours(costing.labor.figures.waitingS)} h of waiting were logged beside that: they cost, but bring nothing forward.`]),
    ...(showsMoney ? ['Price is labor as estimated and what is bought; cost is that of the hours logged and remaining and of what is bought.'] : []),
    ...(showsMoney ? (costing.agreed?.leftOut ?? []).map(({ number, name }) => `Option ${number}, ${name}, was said no to. It stands in the estimate; what the consent leaves is without it.`) : []),
    ...(showsMoney && inputs.unpriced > 0 ? [`${inputs.unpriced} single-use parts have no price yet and count nothing.`] : []),
  ]
}
