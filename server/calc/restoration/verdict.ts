import type { Amount, Working } from '../amounts.ts'
import type { OutsideWork } from '../removal/factoryParts.ts'
import { sumOf } from '../grouping.ts'
import { LOOSENING_SHARE_THOUSANDTHS, secondsAt } from '../removal/loosening.ts'
import { costOfTime, priceTimes } from '../money.ts'
import { listPartsToBuy } from './partsToBuy.ts'
import type { BuyLine } from './partsToBuy.ts'
import type { RestorationPlan } from './restoration.ts'
import type { RestorationInput } from './restorationInput.ts'
import { listOutside, listReversed, outsideMinor, toReversalDays } from './reversal.ts'
import { listThings } from './things.ts'
import { listNeeds, listObstacles } from './verdictReasons.ts'

export type VerdictKind = 'restorable as is' | 'restorable with these parts and repairs' | 'not fully, because'

export interface RestorationHours {
  readonly outS: number
  readonly repairS: number
  readonly backS: number
  readonly totalS: number
}

export interface RestorationCost {
  readonly laborMinor: number
  readonly partsMinor: number
  /** Work of other firms for reversals. */
  readonly outsideMinor: number
  readonly totalMinor: number
  /** Lines and outside work without a known price: while there are any, the cost is a least one. */
  readonly unpricedCount: number
}

export interface Verdict {
  readonly kind: VerdictKind
  /** Why not fully, or what is needed; empty as is. */
  readonly reasons: readonly string[]
  /** Needs beside the reasons of a 'not fully'. */
  readonly needs: readonly string[]
  readonly hours: RestorationHours
  readonly cost: RestorationCost
  /** Working days until the last thing to be waited for is here, or back from another firm. */
  readonly leadDays: number
  readonly leadWorking: Working
  readonly partsToBuy: readonly BuyLine[]
  readonly hoursWorking: Working
  readonly costWorking: Working
}

/**
 * Whether the vehicle can go back, by what, in how many hours (s), at what cost (minor units), after
 * what wait (working days). Fasteners to renew make no difference to "as is": every removal has them.
 */
export function toVerdict(input: RestorationInput, plan: RestorationPlan, ratePerHourMinor: number): Verdict {
  const partsToBuy = listPartsToBuy(input, plan)
  const obstacles = listObstacles(input, plan)
  const needs = listNeeds(input, plan)
  const hours = toHours(input, plan)
  const outside = listOutside(input.alterations, plan)
  const cost = toCost(hours, partsToBuy, outside, ratePerHourMinor)
  const leadWorking = toLeadWorking(input, plan, partsToBuy)
  return {
    kind: obstacles.length > 0 ? 'not fully, because'
      : needs.length > 0 ? 'restorable with these parts and repairs' : 'restorable as is',
    reasons: obstacles.length > 0 ? obstacles : needs,
    needs: obstacles.length > 0 ? needs : [],
    hours,
    cost,
    leadDays: leadWorking.result.value,
    leadWorking,
    partsToBuy,
    hoursWorking: toHoursWorking(hours, plan),
    costWorking: toCostWorking(hours, cost, ratePerHourMinor),
  }
}

function toHours(input: RestorationInput, plan: RestorationPlan): RestorationHours {
  const things = new Map(listThings(input).map(thing => [thing.id, thing]))
  const alterations = new Map(input.alterations.map(alteration => [alteration.id, alteration]))
  const outS = sumOf(plan.takeOut, step => secondsAt(things.get(step.id)?.takeOutS ?? 0, step.depth))
  const repairS = sumOf(plan.repairs, repair =>
    repair.kind === 'reverse' ? alterations.get(repair.alterationId)?.reverseS ?? 0 : 0)
  const backS = sumOf(plan.putBack, step =>
    secondsAt(things.get(step.id)?.putBackS ?? 0, step.how === 'tighten' ? 'loosened' : 'out'))
  return { outS, repairS, backS, totalS: outS + repairS + backS }
}

function toCost({ totalS }: RestorationHours, lines: readonly BuyLine[], outside: readonly OutsideWork[], ratePerHourMinor: number): RestorationCost {
  const laborMinor = costOfTime(totalS, ratePerHourMinor)
  const partsMinor = sumOf(lines, line => line.priceMinor === null ? 0 : priceTimes(line.priceMinor, line.count * 1000))
  const outsideCost = outsideMinor(outside)
  const unpricedCount = lines.filter(line => line.priceMinor === null).length + outside.filter(work => work.costMinor === null).length
  return { laborMinor, partsMinor, outsideMinor: outsideCost, totalMinor: laborMinor + partsMinor + outsideCost, unpricedCount }
}

function toLeadWorking({ alterations }: RestorationInput, plan: RestorationPlan, lines: readonly BuyLine[]): Working {
  const waits = [
    ...listReversed(alterations, plan).map(alteration => ({
      label: alteration.number, days: toReversalDays(alteration),
      source: alteration.outside ? `alteration, with ${alteration.outside.days} of outside work` : 'alteration',
    })),
    ...lines.map(({ name, leadDays }) => ({ label: name, source: 'parts to buy', days: leadDays })),
  ].filter(({ days }) => days > 0)
  return {
    title: 'Longest wait, working days',
    inputs: waits.map(({ label, source, days }) => ({ label, source: `lead time, ${source}`, amount: { kind: 'count', value: days } })),
    result: { kind: 'count', value: Math.max(0, ...waits.map(({ days }) => days)) },
    formula: 'the longest of the lead times',
    assumed: 'All is ordered at once and nothing waits for another; outside work begins when its own part is here.', source: 'common practice, no source',
  }
}

function toHoursWorking(hours: RestorationHours, plan: RestorationPlan): Working {
  const repairs = plan.repairs.filter(repair => repair.kind === 'reverse').length
  return {
    title: 'Hours of the restoration',
    inputs: [
      { label: `take out: ${plan.takeOut.length}`, source: 'times noted on the parts', amount: time(hours.outS) },
      { label: `undo alterations: ${repairs}`, source: 'times noted on the alterations', amount: time(hours.repairS) },
      { label: `put back: ${plan.putBack.length}`, source: 'times noted on the parts', amount: time(hours.backS) },
    ],
    result: time(hours.totalS),
    formula: 'take out + undo alterations + put back',
    assumed: `A part that is only loosened takes ${LOOSENING_SHARE_THOUSANDTHS / 10} in 100 of its times. The battery's waiting time, relearning and function tests count only as far as the times noted include them.`,
    source: 'common practice, no source',
  }
}

function toCostWorking(hours: RestorationHours, cost: RestorationCost, ratePerHourMinor: number): Working {
  return {
    title: 'Cost of the restoration',
    inputs: [
      { label: 'hours', source: 'hours of the restoration', amount: time(hours.totalS) },
      { label: 'rate per hour', source: 'shop settings', amount: money(ratePerHourMinor) },
      { label: 'labor', source: 'hours × rate', amount: money(cost.laborMinor) },
      { label: 'parts', source: 'parts to buy', amount: money(cost.partsMinor) },
      { label: 'outside work', source: 'noted on the alterations', amount: money(cost.outsideMinor) },
    ],
    result: money(cost.totalMinor),
    formula: 'hours × rate + parts + outside work',
    assumed: cost.unpricedCount === 0 ? '' : `${cost.unpricedCount} of the parts to buy and the outside work have no known price: this is the least it costs.`,
    source: 'common practice, no source',
  }
}

function time(value: number): Amount {
  return { kind: 'time', value }
}

function money(value: number): Amount {
  return { kind: 'money', value }
}
