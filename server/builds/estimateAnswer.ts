import { z } from 'zod'
import { LEARNING_MODELS } from '../calc/estimate/learning.ts'
import type { Estimate, EstimateTotal, LaborSums } from '../calc/estimate/estimate.ts'

const seconds = z.int().min(0).describe('s')
const minor = z.int().min(0).optional().describe('minor units; only for those who see money')

const sums = {
  labor: seconds.describe('person-seconds, allowance for rework included'), withoutRework: seconds.describe('person-seconds'),
  rework: seconds.describe('person-seconds allowed for rework'), elapsed: seconds.describe('s, one crew after another'), wait: seconds.describe('s that need nobody'),
  cost: minor, price: minor,
}
const total = z.object({ id: z.string().nullable(), label: z.string(), ...sums })

/** The labor estimate as the API answers it. */
export const estimateSchema = z.object({
  buildId: z.string(),
  total: z.object(sums),
  giveOrTake: z.int().min(0).nullable().describe('person-seconds, one standard deviation of the total, operations taken as independent; null where no operation has three values'),
  operations: z.array(z.object({
    operationId: z.string(), label: z.string(), departmentId: z.string(), zoneIds: z.array(z.string()), pieces: z.int(),
    learningModel: z.enum(LEARNING_MODELS).nullable(), range: seconds.describe('person-seconds between all going well and all going wrong'), ...sums,
  })),
  parts: z.array(z.object({ partId: z.string(), label: z.string(), quantity: z.int(), own: z.object(sums), withPieces: z.object(sums) })),
  owners: z.array(total.extend({ kind: z.enum(['part', 'equipment', 'factory part', 'build']) })),
  zones: z.array(total),
  departments: z.array(total),
}).meta({ id: 'Estimate' })

type Answer = z.infer<typeof estimateSchema>

/** The same figures as the page; money only where it may be seen. */
export function toEstimateAnswer(buildId: string, estimate: Estimate, seesMoney: boolean): Answer {
  const toSums = ({ laborS, withoutReworkS, reworkS, elapsedS, waitS, costMinor, sellMinor }: LaborSums) =>
    ({ labor: laborS, withoutRework: withoutReworkS, rework: reworkS, elapsed: elapsedS, wait: waitS, ...(seesMoney ? { cost: costMinor, price: sellMinor } : {}) })
  const toTotal = (each: EstimateTotal) => ({ id: each.id, label: each.label, ...toSums(each.sums) })
  return {
    buildId,
    total: toSums(estimate.total.sums),
    giveOrTake: estimate.giveOrTake?.seconds ?? null,
    operations: estimate.operations.map(({ operation, label, departmentId, owner, pieces, rangeS, sums: own }) => ({
      operationId: operation.id, label, departmentId: departmentId ?? '', pieces, learningModel: operation.learning?.model ?? null, range: rangeS,
      zoneIds: [...owner.piecesByZone.keys()].flatMap((id) => id ?? []), ...toSums(own),
    })),
    parts: estimate.byPart.map(({ partId, label, count, own, withPieces }) =>
      ({ partId, label, quantity: count, own: toSums(own.sums), withPieces: toSums(withPieces) })),
    owners: estimate.byOwner.map((each) => ({ ...toTotal(each), kind: each.owner.kind })),
    zones: estimate.byZone.map(toTotal),
    departments: estimate.byDepartment.map(toTotal),
  }
}
