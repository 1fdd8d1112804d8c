import { groupBy, sumOf } from '../grouping.ts'
import type { Stretch } from './shopTicks.ts'

/** Work as it is planned: person-hours are its stretches for each of its people. */
export interface LoadingWork {
  readonly buildId: string
  readonly departmentId: string
  readonly people: number
  readonly hours: readonly Stretch[]
}

export interface LoadedPerson {
  readonly id: string
  /** Of the skills the person has; several count in each. */
  readonly departmentIds: readonly string[]
  readonly hours: readonly Stretch[]
}

/** Person-seconds of one week, with where they come from. */
export interface WeekLoad {
  readonly plannedS: number
  readonly thereS: number
  readonly byBuild: ReadonlyMap<string, number>
  readonly byPerson: ReadonlyMap<string, number>
}

/**
 * Person-seconds planned against those people are there, week by week, of one department or, without one, of the whole
 * shop. Somebody with skills of several departments counts fully in each, so that departments do not add up to the shop.
 *
 * Source: load against capacity, common practice, no source; a worked example in the tests.
 */
export function loadOf(weeks: readonly Stretch[], work: readonly LoadingWork[], people: readonly LoadedPerson[], departmentId: string | null): WeekLoad[] {
  const own = work.filter((one) => departmentId === null || one.departmentId === departmentId)
  const able = people.filter(({ departmentIds }) => departmentId === null || departmentIds.includes(departmentId))
  return weeks.map((week) => {
    const byBuild = new Map([...groupBy(own, ({ buildId }) => buildId)].flatMap(([id, some]) => {
      const seconds = sumOf(some, (one) => one.people * secondsWithin(one.hours, week))
      return seconds === 0 ? [] : [[id, seconds] as const]
    }))
    const byPerson = new Map(able.map(({ id, hours }) => [id, secondsWithin(hours, week)] as const))
    return { plannedS: sumOf(byBuild.values(), (seconds) => seconds), thereS: sumOf(byPerson.values(), (seconds) => seconds), byBuild, byPerson }
  })
}

/** Seconds of stretches that lie in another. @example secondsWithin([{ fromMs: 0, toMs: 9000 }], { fromMs: 2000, toMs: 60000 }) // 7 */
export function secondsWithin(hours: readonly Stretch[], { fromMs, toMs }: Stretch): number {
  return sumOf(hours, (one) => Math.max(0, Math.min(one.toMs, toMs) - Math.max(one.fromMs, fromMs))) / 1000
}
