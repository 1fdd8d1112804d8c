import type { Role } from '../../web/shared/viewer.ts'

export const ROLES = ['owner', 'manager', 'technician', 'delivery'] as const satisfies readonly Role[]

/** Who sees rates, cost and margin, and draws up the plan. */
export const MANAGERS: readonly Role[] = ['owner', 'manager']
/** Who works on the vehicle. */
export const BENCH: readonly Role[] = ['owner', 'manager', 'technician']
/** Who talks with the customer. */
export const COUNTER: readonly Role[] = ['owner', 'manager', 'delivery']
export const EVERYBODY: readonly Role[] = ROLES

const RANK: Readonly<Record<Role, number>> = { owner: 3, manager: 2, technician: 1, delivery: 1 }

/** A token may do at most what its maker may: the same role, or one below with fewer rights. */
export function isAtMost(role: Role, maker: Role): boolean {
  return role === maker || RANK[role] < RANK[maker]
}
