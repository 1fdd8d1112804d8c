import { sumOf } from '../grouping.ts'
import { secondsWithin } from './load.ts'
import type { ShopFacts } from './shopProblem.ts'

/** More is due by a day than those who can do it are there until then. */
export interface Overload {
  readonly dueMs: number
  /** Null for all work together. */
  readonly skill: string | null
  /** Person-seconds. */
  readonly dueS: number
  readonly thereS: number
}

/**
 * By each day something is due, the person-seconds still to come of all that is due by then against those its people are
 * there, skill by skill and for all together; of each the first day on which there is more to do than there are hours.
 * A plan that keeps every promise cannot exist then. None does not say that one can.
 *
 * Source: capacity against what is due, common practice, no source.
 */
export function listOverloads({ builds, people, fromMs }: Pick<ShopFacts, 'builds' | 'people' | 'fromMs'>): Overload[] {
  const skills = new Map(builds.flatMap(({ work }) => work.flatMap(({ skill }) => (skill === null ? [] : [[skill.id, skill.name] as const]))))
  const days = [...new Set(builds.flatMap(({ dueMs }) => (dueMs === null ? [] : [dueMs])))].sort((one, other) => one - other)
  return [null, ...skills.keys()].flatMap((skillId) => {
    const able = people.filter(({ skillIds }) => skillId === null || skillIds.includes(skillId))
    const found = days.map((dueMs): Overload => ({
      dueMs, skill: skillId === null ? null : skills.get(skillId)!,
      dueS: sumOf(builds.filter((build) => build.dueMs !== null && build.dueMs <= dueMs).flatMap(({ work }) => work.filter(({ skill }) => skillId === null || skill?.id === skillId)), ({ remainingS }) => remainingS),
      thereS: sumOf(able, ({ hours }) => secondsWithin(hours, { fromMs, toMs: Math.max(fromMs, dueMs) })),
    })).find(({ dueS, thereS }) => dueS > thereS)
    return found === undefined ? [] : [found]
  })
}
