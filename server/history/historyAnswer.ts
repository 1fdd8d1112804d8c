import { z } from 'zod'
import type { LearnedRatio } from '../calc/estimate/hourHistory.ts'
import type { BuildHistory } from './buildData.ts'
import { insideOf, inOrder, type ShopHistory } from './historyData.ts'

const times = (what: string) => z.int().describe(`${what}, thousandths of the estimate`)
const ratio = {
  kind: z.string(), departmentId: z.string(), ratio: times('Work logged'), low: times('80 of 100 such ratios lie above'), high: times('80 of 100 such ratios lie below'),
  records: z.int().describe('Closed operations it stands on'), reworkShare: z.int().describe('Rework logged, thousandths of the work logged'),
}
const together = z.int().describe('How far things go wrong together, thousandths')

export const historySchema = z.object({
  records: z.int(), builds: z.int(), shopRatio: times('Work logged, the shop as a whole').nullable(), togetherFound: together.nullable(),
  ratios: z.array(z.object({ ...ratio, department: z.string() })),
  coverage: z.object({
    together, builds: z.int().describe('Delivered builds, each foretold from the others'), in80: z.int().describe('Of them inside their 80 in 100'), in90: z.int(), inEstimate: z.int().describe('Of them inside the estimate as typed'),
    operations: z.object({ all: z.int(), in80: z.int(), in90: z.int() }),
  }),
})

export const buildHistorySchema = z.object({
  items: z.array(z.object({
    kind: z.string(), departmentId: z.string(), department: z.string(), operations: z.int(), open: z.int(), typed: z.int().describe('person-seconds without rework, as typed'),
    learned: z.object(ratio).nullable(),
    accepted: z.object({ id: z.string(), ratio: times('Accepted'), low: z.int(), high: z.int(), records: z.int(), acceptedById: z.string() }).nullable(),
  })),
})

const toRatio = ({ kind, departmentId, ratio: value, low, high, records, reworkShare }: LearnedRatio) => ({ kind, departmentId, ratio: value, low, high, records, reworkShare })

export function toHistoryAnswer({ history, departments, measured: { together: set, builds, operations } }: ShopHistory): z.infer<typeof historySchema> {
  return {
    records: history.records, builds: history.builds, shopRatio: history.shop?.ratio ?? null, togetherFound: history.together,
    ratios: inOrder(history.groups, departments).map(({ group, department }) => ({ ...toRatio(group), department })),
    coverage: {
      together: set, builds: builds.length, in80: insideOf(builds, ({ in80S }) => in80S), in90: insideOf(builds, ({ in90S }) => in90S),
      inEstimate: insideOf(builds, ({ estimatedS }) => estimatedS), operations,
    },
  }
}

export function toBuildHistoryAnswer({ offered }: BuildHistory): z.infer<typeof buildHistorySchema> {
  return {
    items: offered.map(({ kind, departmentId, department, operations, open, plainS, learned, accepted }) => ({
      kind, departmentId, department, operations, open, typed: plainS, learned: learned && toRatio(learned),
      accepted: accepted && { id: accepted.id, ratio: accepted.ratio, low: accepted.low, high: accepted.high, records: accepted.records, acceptedById: accepted.acceptedById },
    })),
  }
}
