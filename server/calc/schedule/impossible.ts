import { compile } from './compiled.ts'
import { fit } from './placing.ts'
import type { ScheduleProblem } from './problem.ts'

/** An activity that fits nowhere, even with the whole shop to itself. */
export interface Impossible {
  readonly activity: number
  /** “nobody is there”: those it needs are never all there at once; “not long enough”: not in one piece, or not before the horizon. */
  readonly why: 'nobody is there' | 'not long enough'
}

/**
 * What can be planned by no means, and why: each activity is tried alone, with the whole shop to itself. Where this is
 * empty and still no plan is found, the horizon is too near for all of it. Throws as `compile` does.
 *
 * Source: ours, no source.
 */
export function listImpossible(problem: ScheduleProblem): Impossible[] {
  const compiled = compile(problem)
  const found = { end: 0 }
  return problem.activities.flatMap((_, activity): Impossible[] => {
    if (compiled.fixedAt[activity]! >= 0) return []
    const teams = compiled.teams[activity]!
    const from = compiled.earliest[activity]!
    if (teams.some((team) => fit(compiled, activity, team, from, compiled.base, found) >= 0)) return []
    const isThere = teams.some(({ open }) => open === null || open.indexOf(1, from) >= 0)
    return [{ activity, why: isThere ? 'not long enough' : 'nobody is there' }]
  })
}
