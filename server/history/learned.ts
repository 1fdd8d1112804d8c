import type { ClosedBuild } from '../calc/hourCoverage.ts'
import { recordsOf } from '../calc/hourCoverage.ts'
import { learnHours } from '../calc/hourHistory.ts'
import type { HourHistory } from '../calc/hourHistory.ts'
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
  const closed = await loadClosed(reads)
  const builds = closed.filter((build) => refusalOf(build) === null)
  return { builds, leftOut: closed.filter((build) => !builds.includes(build)).map(({ label }) => label), history: learnHours(builds.flatMap(recordsOf)) }
}

function refusalOf(build: ClosedBuild): string | null {
  try {
    recordsOf(build)
    return null
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return error.message
  }
}
