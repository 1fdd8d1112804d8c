import { z } from 'zod'
import type { PlanInForce } from './planStore.ts'

/** Which plan an answer is read from. */
export const planSchema = z.object({ id: z.string(), takenAt: z.iso.datetime(), isStale: z.boolean().describe('Something the plan depends on has changed since') }).nullable().describe('Null where no plan is in force')

export const toPlanAnswer = ({ inForce: { id, takenAt }, isStale }: { readonly inForce: PlanInForce, readonly isStale: boolean }): z.infer<typeof planSchema> => ({ id, takenAt: takenAt.toISOString(), isStale })
