import { agreedForecast } from './agreedForecast.ts'
import type { AgreedForecast, AgreedPapers } from './agreedForecast.ts'
import type { Working } from '../amounts.ts'
import type { Bought } from '../parts/bought.ts'
import { consentAlarm } from './consentAlarm.ts'
import type { ConsentAlarm } from './consentAlarm.ts'
import { COST_KEYS, toCostTotal } from './costSums.ts'
import type { CostFigures, CostSums, CostTotal, WholeMoney } from './costSums.ts'
import { earnedValue } from './earnedValue.ts'
import type { EarnedValue, EarningRule } from './earnedValue.ts'
import { costBought, costOperations, costOtherHours } from './costRows.ts'
import type { OperationCosting, OtherHours } from './costRows.ts'
import { estimateLabor } from '../estimate/estimate.ts'
import type { Estimate } from '../estimate/estimate.ts'
import { departmentFinder } from '../estimate/operations.ts'
import type { LaborInput } from '../estimate/operations.ts'
import { ownerFinder } from '../parts/owners.ts'
import type { Owner } from '../parts/owners.ts'
import { explodeParts } from '../parts/partTree.ts'
import { rollUp } from '../parts/rollUp.ts'
import { addSums, subtractSums } from '../shares.ts'
import { chainEntries } from '../hours/timeEntries.ts'
import type { EntryChain, TimeEntry } from '../hours/timeEntries.ts'
import { viewByDepartment, viewByOwner, viewByZone } from '../estimate/views.ts'

export interface CostingInput extends LaborInput {
  /** In the order they were written. */
  readonly entries: readonly TimeEntry[]
  /** From the bill of materials. */
  readonly bought: readonly Bought[]
  readonly earningRule: EarningRule
  /** Labor cost of what should be done by now; null when nothing was scheduled. */
  readonly plannedMinor: number | null
  /** Null when no limit was agreed; without papers it was entered by hand. */
  readonly consent: { readonly limitMinor: number, readonly allowedThousandths?: number, readonly nearThousandths?: number, readonly papers?: AgreedPapers | null } | null
}

export interface PartCosting {
  readonly partId: string
  readonly label: string
  readonly own: CostTotal
  /** With its share of all that goes into it. */
  readonly withPieces: CostTotal
}

/** Labor and bill of materials together. */
export interface BuildMoney extends WholeMoney {
  readonly working: Working
}

export interface Costing {
  readonly estimate: Estimate
  readonly chains: readonly EntryChain[]
  readonly operations: readonly OperationCosting[]
  readonly otherHours: readonly OtherHours[]
  readonly byPart: readonly PartCosting[]
  readonly byOwner: readonly (CostTotal & { readonly owner: Owner })[]
  readonly byZone: readonly CostTotal[]
  readonly byDepartment: readonly CostTotal[]
  readonly labor: CostTotal
  readonly build: BuildMoney
  readonly earned: EarnedValue
  readonly earningRule: EarningRule
  readonly alarm: ConsentAlarm | null
  /** Price at completion of what was agreed to; null when nothing was. */
  readonly agreed: AgreedForecast | null
}

/**
 * What a build was estimated at, has taken, still takes and will come to; in labor and money, by operation,
 * part, zone and department, with what is bought, every view summing to the build exactly.
 *
 * Person-seconds and minor units. Rework counts as logged labor and uses up the estimate, which holds an
 * allowance for it; waiting costs, but is neither progress nor charged. Refuses what the estimate refuses, and
 * entries that correct each other in a ring.
 * Source: common practice, no source; earned value as in `earnedValue`.
 * @example estimate 10 h, logged 4 h, no figure of the technician's: remaining 6 h, forecast 10 h
 */
export function costBuild(input: CostingInput): Costing {
  const parts = explodeParts(input.parts, input.partUses)
  const ownerOf = ownerFinder({ parts, equipment: input.equipment, factoryParts: input.factoryParts })
  const departmentOf = departmentFinder(input.departments)
  const estimate = estimateLabor(input)
  const chains = chainEntries(input.entries)
  const operations = costOperations(estimate.operations, chains, input.earningRule)
  const otherHours = costOtherHours(operations, chains, ownerOf, departmentOf)
  const rows = [...operations, ...otherHours, ...costBought(input.bought, ownerOf)]

  const zoneNames = new Map(input.zones.map(({ id, name }) => [id, name]))
  const byOwner = viewByOwner(COST_KEYS, rows).map(({ owner, sums, entries }) => ({ owner, ...toCostTotal(owner.id, owner.label, sums, entries) }))
  const ownOf = new Map(byOwner.filter(({ owner }) => owner.kind === 'part').map(total => [total.id, total]))
  const none = addSums(COST_KEYS, [])
  const withPieces = rollUp(COST_KEYS, parts, id => ownOf.get(id)?.figures ?? none)
  const byDepartment = viewByDepartment(COST_KEYS, rows)
    .map(({ id, sums, entries }) => toCostTotal(id, id === null ? 'no department' : departmentOf(id).name, sums, entries))
  const labor = toCostTotal(null, 'Labor of the build', addSums(COST_KEYS, rows.map(({ sums }) => sums)), byDepartment.map(({ label, figures }) => ({ label, sums: figures })))
  const agreed = input.consent && agreedForecast(byOwner, parts, input.consent.papers ?? null)
  return {
    agreed, estimate, chains, operations, otherHours, byOwner, labor, earningRule: input.earningRule,
    byPart: [...parts.values()].map(({ part }) => {
      const own = ownOf.get(part.id) ?? toCostTotal(part.id, `${part.number} ${part.name}`, none, [])
      return { partId: part.id, label: own.label, own, withPieces: toWithPieces(own, withPieces.get(part.id) ?? none) }
    }),
    byZone: viewByZone(COST_KEYS, rows).map(({ id, sums, entries }) => toCostTotal(id, zoneNames.get(id ?? '') ?? 'no zone', sums, entries)),
    byDepartment,
    build: toBuildMoney(labor.figures),
    earned: earnedValue({
      plannedMinor: input.plannedMinor, earnedMinor: labor.figures.earnedMinor,
      actualMinor: labor.figures.loggedCostMinor, budgetMinor: labor.figures.estimatedCostMinor,
    }, input.earningRule),
    alarm: agreed && consentAlarm({ ...input.consent, isOnPaper: Boolean(input.consent?.papers), reachedMinor: agreed.reachedMinor, forecastMinor: agreed.forecastMinor, forecast: agreed.working }),
  }
}

function toWithPieces(own: CostTotal, sums: CostSums): CostTotal {
  const rest = subtractSums(COST_KEYS, sums, own.figures)
  const entries = [{ label: `${own.label}, itself`, sums: own.figures }, { label: 'What goes into it', sums: rest }]
  return toCostTotal(own.id, `${own.label}, with all that goes into it`, sums, entries)
}

function toBuildMoney(labor: CostFigures): BuildMoney {
  return {
    ...labor.whole,
    working: {
      title: 'Margin of the build',
      inputs: [
        { label: 'Labor price', source: 'estimate', amount: { kind: 'money', value: labor.estimatedSellMinor } },
        { label: 'Price of the bill of materials', source: 'bill of materials', amount: { kind: 'money', value: labor.boughtSellMinor } },
        { label: 'Labor cost at completion', source: 'costing', amount: { kind: 'money', value: labor.forecastCostMinor } },
        { label: 'Cost of the bill of materials', source: 'bill of materials', amount: { kind: 'money', value: labor.boughtCostMinor } },
      ],
      result: { kind: 'money', value: labor.whole.marginMinor },
      formula: 'prices − costs',
      assumed: 'The customer pays what was estimated; material costs what the bill says. Tax is not in it.',
      source: 'common practice, no source',
    },
  }
}
