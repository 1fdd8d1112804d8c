import { z } from 'zod'
import { EARNING_RULES } from '../calc/costing/earnedValue.ts'
import type { Costing } from '../calc/costing/costing.ts'
import { findRunningOver } from '../calc/costing/runningOver.ts'
import type { CostFigures, CostTotal, WholeMoney } from '../calc/costing/costSums.ts'

const seconds = z.int().min(0)
const share = z.int().nullable().describe('thousandths; null where there is nothing to be a share of')

const wholeMoney = { price: z.int(), cost: z.int(), margin: z.int(), marginShare: share }

const money = z.object({
  estimatedCost: z.int(), estimatedPrice: z.int(), loggedCost: z.int(), loggedPrice: z.int(), remainingCost: z.int(),
  remainingPrice: z.int(), forecastCost: z.int(), forecastPrice: z.int(), earned: z.int(), margin: z.int().describe('estimated price − forecast cost, labor alone'), marginShare: share,
  whole: z.object(wholeMoney).describe('labor and what is bought: price as estimated, cost at completion'),
}).optional().describe('minor units; only for those who see money')

const figures = {
  estimated: seconds.describe('allowance for rework included'), allowance: seconds.describe('for rework, of what is estimated'), work: seconds, rework: seconds, logged: seconds.describe('work and rework'), waiting: seconds,
  remaining: seconds, forecast: seconds.describe('logged and remaining'), money,
}
const total = z.object({ id: z.string().nullable(), label: z.string(), ...figures })

/** The costing as the API answers it; all times are person-seconds. */
export const costingSchema = z.object({
  buildId: z.string(),
  labor: z.object(figures),
  operations: z.array(z.object({
    operationId: z.string(), label: z.string(), state: z.enum(['not started', 'running', 'waiting', 'done']),
    remainingFrom: z.enum(['done', 'technician', 'estimate less logged']),
    runningOver: z.enum(['over', 'nearly used']).nullable().describe('null where it is done or inside its estimate'), ...figures,
  })),
  otherHours: z.array(z.object({ label: z.string(), departmentId: z.string().nullable(), ...figures })),
  parts: z.array(z.object({ partId: z.string(), label: z.string(), own: z.object(figures), withPieces: z.object(figures) })),
  zones: z.array(total),
  departments: z.array(total),
  build: z.object(wholeMoney)
    .optional().describe('labor and bill of materials in minor units; only for those who see money'),
  earnedValue: z.object({
    rule: z.enum(EARNING_RULES), planned: z.int().nullable(), earned: z.int(), actual: z.int(), budget: z.int(), costVariance: z.int(), costIndex: share,
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
      operationId: each.operation.id, label: each.label, state: each.operation.state, remainingFrom: each.remainingSource,
      runningOver: findRunningOver(each)?.state ?? null, ...of(each.figures),
    })),
    otherHours: costing.otherHours.map(({ label, departmentId, figures: own }) => ({ label, departmentId, ...of(own) })),
    parts: costing.byPart.map(({ partId, label, own, withPieces }) => ({ partId, label, own: of(own.figures), withPieces: of(withPieces.figures) })),
    zones: costing.byZone.map(toTotal),
    departments: costing.byDepartment.map(toTotal),
    ...(seesMoney ? {
      build: toWhole(build),
      earnedValue: toEarnedValue(costing),
    } : {}),
    consent: alarm && { state: alarm.state, words: alarm.words, ...(seesMoney ? { left: alarm.leftMinor } : {}) },
  }
}

function toFigures(figuresOf: CostFigures, seesMoney: boolean): Figures {
  const { estimatedS, allowanceS, workS, reworkS, loggedS, waitingS, remainingS, forecastS } = figuresOf
  return {
    estimated: estimatedS, allowance: allowanceS, work: workS, rework: reworkS, logged: loggedS, waiting: waitingS, remaining: remainingS, forecast: forecastS,
    ...(seesMoney ? { money: toMoney(figuresOf) } : {}),
  }
}

function toMoney(of: CostFigures): NonNullable<Figures['money']> {
  return {
    estimatedCost: of.estimatedCostMinor, estimatedPrice: of.estimatedSellMinor, loggedCost: of.loggedCostMinor, loggedPrice: of.loggedSellMinor,
    remainingCost: of.remainingCostMinor, remainingPrice: of.remainingSellMinor, forecastCost: of.forecastCostMinor,
    forecastPrice: of.forecastSellMinor, earned: of.earnedMinor, margin: of.marginMinor, marginShare: of.marginThousandths,
    whole: toWhole(of.whole),
  }
}

const toWhole = ({ priceMinor, costMinor, marginMinor, marginThousandths }: WholeMoney): NonNullable<Answer['build']> =>
  ({ price: priceMinor, cost: costMinor, margin: marginMinor, marginShare: marginThousandths })

function toEarnedValue({ earned, earningRule: rule }: Costing): NonNullable<Answer['earnedValue']> {
  return {
    rule, planned: earned.plannedMinor, earned: earned.earnedMinor, actual: earned.actualMinor, budget: earned.budgetMinor,
    costVariance: earned.costVarianceMinor, costIndex: earned.costIndexThousandths, atCompletion: earned.atCompletionMinor,
    varianceAtCompletion: earned.varianceAtCompletionMinor,
  }
}
