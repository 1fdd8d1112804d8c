import { z } from 'zod'
import type { Costing } from '../calc/costing.ts'
import type { CostFigures, CostTotal } from '../calc/costSums.ts'

const seconds = z.int().min(0)
const share = z.int().nullable().describe('thousandths; null where there is nothing to be a share of')

const money = z.object({
  estimatedCost: z.int(), estimatedPrice: z.int(), loggedCost: z.int(), loggedPrice: z.int(), remainingCost: z.int(),
  remainingPrice: z.int(), forecastCost: z.int(), forecastPrice: z.int(), earned: z.int(), margin: z.int(), marginShare: share,
}).optional().describe('minor units; only for those who see money')

const figures = {
  estimated: seconds, work: seconds, rework: seconds, logged: seconds.describe('work and rework'), waiting: seconds,
  remaining: seconds, forecast: seconds.describe('logged and remaining'), money,
}
const total = z.object({ id: z.string().nullable(), label: z.string(), ...figures })

/** The costing as the API answers it; all times are person-seconds. */
export const costingSchema = z.object({
  buildId: z.string(),
  labor: z.object(figures),
  operations: z.array(z.object({
    operationId: z.string(), label: z.string(), state: z.enum(['not started', 'running', 'waiting', 'done']),
    remainingFrom: z.enum(['done', 'technician', 'estimate less logged']), ...figures,
  })),
  otherHours: z.array(z.object({ label: z.string(), departmentId: z.string().nullable(), ...figures })),
  parts: z.array(z.object({ partId: z.string(), label: z.string(), own: z.object(figures), withPieces: z.object(figures) })),
  zones: z.array(total),
  departments: z.array(total),
  build: z.object({ price: z.int(), cost: z.int(), margin: z.int(), marginShare: share })
    .optional().describe('labor and bill of materials in minor units; only for those who see money'),
  earnedValue: z.object({
    planned: z.int().nullable(), earned: z.int(), actual: z.int(), budget: z.int(), costVariance: z.int(), costIndex: share,
    atCompletion: z.int().nullable(), varianceAtCompletion: z.int().nullable(),
  }).optional().describe('minor units; only for those who see money'),
  consent: z.object({
    state: z.enum(['inside', 'near', 'forecast over', 'over']), words: z.string(),
    left: z.int().optional().describe('minor units; only for those who see money'),
  }).nullable().describe('null where no limit was agreed'),
}).meta({ id: 'Costing' })

type Answer = z.infer<typeof costingSchema>
type Figures = Answer['labor']

/** The same figures as the page; money only where it may be seen. */
export function toCostingAnswer(buildId: string, costing: Costing, seesMoney: boolean): Answer {
  const of = (each: CostFigures): Figures => toFigures(each, seesMoney)
  const toTotal = (each: CostTotal) => ({ id: each.id, label: each.label, ...of(each.figures) })
  const { build, alarm } = costing
  return {
    buildId,
    labor: of(costing.labor.figures),
    operations: costing.operations.map((each) => ({
      operationId: each.operation.id, label: each.label, state: each.operation.state, remainingFrom: each.remainingSource, ...of(each.figures),
    })),
    otherHours: costing.otherHours.map(({ label, departmentId, figures: own }) => ({ label, departmentId, ...of(own) })),
    parts: costing.byPart.map(({ partId, label, own, withPieces }) => ({ partId, label, own: of(own.figures), withPieces: of(withPieces) })),
    zones: costing.byZone.map(toTotal),
    departments: costing.byDepartment.map(toTotal),
    ...(seesMoney ? {
      build: { price: build.priceMinor, cost: build.costMinor, margin: build.marginMinor, marginShare: build.marginThousandths },
      earnedValue: toEarnedValue(costing),
    } : {}),
    consent: alarm && { state: alarm.state, words: alarm.words, ...(seesMoney ? { left: alarm.leftMinor } : {}) },
  }
}

function toFigures(figuresOf: CostFigures, seesMoney: boolean): Figures {
  const { estimatedS, workS, reworkS, loggedS, waitingS, remainingS, forecastS } = figuresOf
  return {
    estimated: estimatedS, work: workS, rework: reworkS, logged: loggedS, waiting: waitingS, remaining: remainingS, forecast: forecastS,
    ...(seesMoney ? { money: toMoney(figuresOf) } : {}),
  }
}

function toMoney(of: CostFigures): NonNullable<Figures['money']> {
  return {
    estimatedCost: of.estimatedCostMinor, estimatedPrice: of.estimatedSellMinor, loggedCost: of.loggedCostMinor, loggedPrice: of.loggedSellMinor,
    remainingCost: of.remainingCostMinor, remainingPrice: of.remainingSellMinor, forecastCost: of.forecastCostMinor,
    forecastPrice: of.forecastSellMinor, earned: of.earnedMinor, margin: of.marginMinor, marginShare: of.marginThousandths,
  }
}

function toEarnedValue({ earned }: Costing): NonNullable<Answer['earnedValue']> {
  return {
    planned: earned.plannedMinor, earned: earned.earnedMinor, actual: earned.actualMinor, budget: earned.budgetMinor,
    costVariance: earned.costVarianceMinor, costIndex: earned.costIndexThousandths, atCompletion: earned.atCompletionMinor,
    varianceAtCompletion: earned.varianceAtCompletionMinor,
  }
}
