import type { ClosedBuild } from '../calc/estimate/hourCoverage.ts'
import { recordsOf } from '../calc/estimate/hourCoverage.ts'
import { learnHours } from '../calc/estimate/hourHistory.ts'
import type { HourHistory, HourRecord } from '../calc/estimate/hourHistory.ts'
import { Refusal } from '../calc/refusal.ts'
import type { Reads } from '../shared/database/database.ts'
import { loadClosed } from './store.ts'

/** What the shop's hours teach, and the builds they come from. */
export interface Learned {
  readonly history: HourHistory
  readonly builds: readonly ClosedBuild[]
  /** Builds whose records contradict each other teach nothing until they are mended. */
  readonly leftOut: readonly string[]
}

export async function loadLearned(reads: Reads): Promise<Learned> {
  const closed = (await loadClosed(reads)).map((build) => ({ build, records: recordsIn(build) }))
  const teaching = closed.filter(({ records }) => records !== null)
  return {
    builds: teaching.map(({ build }) => build), leftOut: closed.filter(({ records }) => records === null).map(({ build }) => build.label),
    history: learnHours(teaching.flatMap(({ records }) => records ?? [])),
  }
}

function recordsIn(build: ClosedBuild): readonly HourRecord[] | null {
  try {
    return recordsOf(build)
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return null
  }
}
