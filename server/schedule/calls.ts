import type { Reads } from '../shared/database/database.ts'
import type { Drawn } from './proposals.ts'
import { listCustomersOf } from './store.ts'

export interface Call {
  readonly buildId: string
  readonly customer: string
  readonly phone: string
}

/** Whose date a proposal misses that the plan in force kept, or misses by more; and who has a date but no end any more. */
export async function listCalls(reads: Reads, { content, proposal: { base } }: Drawn): Promise<Call[]> {
  const was = new Map(base?.content.builds.map((build) => [build.buildId, build]))
  const late = content.builds.filter(({ buildId, endsAt, dueAt }) => {
    const before = was.get(buildId)
    if (dueAt === null) return false
    if (endsAt === null) return before?.endsAt !== null
    if (endsAt <= dueAt) return false
    return before === undefined || before.endsAt === null || before.dueAt === null || endsAt > before.endsAt || dueAt < before.dueAt
  })
  return late.length === 0 ? [] : listCustomersOf(reads, late.map(({ buildId }) => buildId))
}
