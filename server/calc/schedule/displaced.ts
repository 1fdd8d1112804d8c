import type { PlanBefore } from './change.ts'
import type { Compiled } from './compiled.ts'
import { fit } from './placing.ts'
import type { Team } from './teams.ts'

/**
 * What cannot stand where the plan in force has it, whatever else is there: those who were to do it are away then or can
 * do it no more, it may not begin yet, its bay is closed, or it takes longer. What has begun, or is set by hand, stands.
 *
 * Source: ours, no source.
 */
export function listDisplaced(compiled: Compiled, { activities }: PlanBefore, usual: readonly (readonly Team[])[]): number[] {
  const found = { end: 0 }
  return activities.flatMap((was, activity) => {
    if (was === null || was === 'new' || compiled.work[activity] === 0 || compiled.fixedAt[activity]! >= 0) return []
    const at = Math.max(0, was.startTick)
    const stands = compiled.earliest[activity]! <= at && !isClosed(compiled, was.bay, at, was.endTick)
      && usual[activity]!.some((team) => fit(compiled, activity, team, at, compiled.base, found) === at && found.end <= was.endTick)
    return stands ? [] : [activity]
  })
}

const isClosed = ({ closed }: Compiled, bay: number | null, from: number, to: number): boolean =>
  bay !== null && (closed.get(bay) ?? []).some((time) => time.from < to && from < time.to)
