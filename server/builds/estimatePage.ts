import { sumOf } from '../calc/grouping.ts'
import type { OwnerKind } from '../calc/owners.ts'
import { toCostFigures } from '../calc/costSums.ts'
import type { CostFigures } from '../calc/costSums.ts'
import type { EstimateData, EstimateLine } from '../../web/builds/estimate.tsx'
import { writeHours } from '../../web/shared/amount.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { label } from '../shared/records/kind.ts'
import { toAfterDelivery } from './afterDelivery.ts'
import { listTree } from './estimateTree.ts'
import { seesMoney } from './figures.ts'
import type { BuildFigures } from './figures.ts'
import type { StoredBuild } from './store.ts'
import { loggedWorking, remainingWorking } from './workings.ts'

const PAGE_OF: Readonly<Record<OwnerKind, string>> = { 'part': 'parts', 'equipment': 'equipment-lines', 'factory part': 'factory-parts', 'build': 'builds' }

/** The estimate as this viewer sees it: hours for all, money for those who see it. */
export function toEstimatePage(stored: StoredBuild, figures: BuildFigures, viewer: Viewer): EstimateData {
  const { head, zones } = stored
  const { costing } = figures
  const after = toAfterDelivery(stored)
  const showsMoney = seesMoney(viewer)
  const line = (name: string, of: CostFigures, more: Partial<EstimateLine> = {}): EstimateLine => ({
    label: name, level: 0, hours: { estimate: of.estimatedS, logged: of.loggedS, remaining: of.remainingS, forecast: of.forecastS },
    ...(showsMoney ? { money: { cost: of.estimatedCostMinor, price: of.estimatedSellMinor } } : {}), ...more,
  })
  const number = label('B', head.number)
  const ledgerHref = `/builds/${head.id}`
  const numberOf = new Map(zones.map((zone) => [zone.id, zone.number]))
  return {
    trail: [{ name: `${number} ${head.title}`, href: ledgerHref }, { name: 'Estimate and costing' }],
    number, title: head.title,
    hours: {
      estimate: costing.estimate.total.workings.labor, logged: loggedWorking(costing.labor, costing.byDepartment),
      remaining: remainingWorking(costing.labor, costing.byDepartment), forecast: costing.labor.workings.forecast,
    },
    ...(after ? { afterDelivery: { hours: after.hours, ...(showsMoney ? { cost: after.cost } : {}) } } : {}),
    ...(showsMoney ? { money: moneyOf(figures) } : {}),
    alarm: costing.alarm?.words ?? '',
    byItem: [
      ...listTree(figures).map(({ partId, label: name, level, sums }) => line(name, toCostFigures(sums), { level, href: `/parts/${partId}` })),
      ...costing.byOwner.filter(({ owner }) => owner.kind !== 'part')
        .map(({ owner, label: name, figures: own }) => line(name, own, owner.id === null ? {} : { href: `/${PAGE_OF[owner.kind]}/${owner.id}` })),
    ],
    byZone: costing.byZone.toSorted((a, b) => (numberOf.get(a.id ?? '') ?? Infinity) - (numberOf.get(b.id ?? '') ?? Infinity))
      .map(({ id, label: name, figures: own }) => {
        const zone = numberOf.get(id ?? '')
        return line(zone === undefined ? name : `${zone} ${name}`, own, zone === undefined ? {} : { anchor: `zone-${zone}`, href: `${ledgerHref}#zone-${zone}` })
      }),
    byDepartment: costing.byDepartment.map(({ label: name, figures: own }) => line(name, own)),
    notes: notesOf(figures, showsMoney),
    ledgerHref,
  }
}

function moneyOf({ costing }: BuildFigures): NonNullable<EstimateData['money']> {
  const { labor, build, estimate, earned, alarm } = costing
  return {
    laborCost: estimate.total.workings.cost, laborPrice: estimate.total.workings.sell, forecastCost: labor.workings.cost, margin: build.working,
    earned: earned.working ?? undefined, consentLeft: alarm?.working,
  }
}

function notesOf({ inputs, costing }: BuildFigures, showsMoney: boolean): string[] {
  const otherS = sumOf(costing.otherHours, ({ figures }) => figures.loggedS)
  return [
    ...(otherS === 0 ? [] : [`${writeHours(otherS)} h were logged on operations that have been taken away since. They stay hours of the build.`]),
    ...(costing.labor.figures.waitingS === 0 ? [] : [`${writeHours(costing.labor.figures.waitingS)} h of waiting were logged beside that: they cost, but bring nothing forward.`]),
    ...(showsMoney ? ['Cost and price of a line are those of its estimate; what it comes to stands above.'] : []),
    ...(showsMoney && inputs.unpriced > 0 ? [`${inputs.unpriced} single-use parts have no price yet and count nothing.`] : []),
  ]
}
