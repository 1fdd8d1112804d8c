import { limitsOf } from '../calc/checks/checkLimits.ts'
import { listCheckPoints } from '../calc/checks/checkPoints.ts'
import { settlePoints, type CheckAnswer, type CheckedPoint, type Outcome } from '../calc/checks/checkState.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { loadCheck, type StoredCheck } from './store.ts'
import { openOf, toCheckBuild } from './toBuild.ts'

/** An answer as it was stored, with who gave it. */
export interface StoredAnswer extends CheckAnswer {
  readonly point: string
  readonly at: Date
  readonly personName: string
  /** What was typed, and against what it was held: value, limit, power, load. */
  readonly entered: Readonly<Record<string, string>>
}

export interface Checked {
  readonly stored: StoredCheck
  readonly points: readonly CheckedPoint<StoredAnswer>[]
  /** Every answer ever given, in order. */
  readonly answers: readonly StoredAnswer[]
  /** What is not settled. */
  readonly unsettled: readonly CheckedPoint<StoredAnswer>[]
  readonly signedAt: Date | null
}

/** The final check of a build as it stands. Throws a 404. */
export async function checkOf(client: Reads | Write, buildId: string): Promise<Checked> {
  return toChecked(await loadCheck(client, buildId))
}

export function toChecked(stored: StoredCheck): Checked {
  const { build, limits, people } = stored
  const answers = (build.finalCheck?.results ?? []).map(({ outcome, entered, personId, ...rest }): StoredAnswer => {
    const { open = '', ...typed } = JSON.parse(entered) as Record<string, string>
    return { ...rest, outcome: outcome as Outcome, entered: typed, letPass: open === '' ? [] : open.split('\n'), personName: people.get(personId) ?? '' }
  })
  const points = settlePoints(listCheckPoints(toCheckBuild(build), limitsOf(limits)), answers, openOf(build))
  return { stored, points, answers, unsettled: points.filter(({ isSettled }) => !isSettled), signedAt: build.finalCheck?.signedAt ?? null }
}
