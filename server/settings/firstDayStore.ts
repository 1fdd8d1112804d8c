import type { Reads } from '../shared/database/database.ts'

/** Whether any plan of the shop was ever taken. */
export const wasPlanned = async (reads: Reads): Promise<boolean> => (await reads.shopPlan.count()) > 0
