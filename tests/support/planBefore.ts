import type { PlanBefore } from '../../server/calc/schedule/change.ts'
import type { Activity, Schedule, ScheduleProblem } from '../../server/calc/schedule/problem.ts'

export const TICKS_A_DAY = 8

/** A plan of a drawn shop as the one in force, so many ticks later. */
export function beforeOf(problem: ScheduleProblem, plan: Schedule, later = 0): PlanBefore {
  const peopleCount = problem.resources.filter(({ name }) => name.startsWith('person')).length
  return {
    peopleCount, delay: plan.delay, ends: problem.ends.map(({ activity }) => plan.placed[activity]!.endTick - later), midnights: Array.from({ length: problem.horizonTicks / TICKS_A_DAY }, (_, day) => (day + 1) * TICKS_A_DAY - later),
    activities: plan.placed.map(({ startTick, endTick, resources }, place) => {
      const { stay } = problem.activities[place]!
      const bay = stay === null ? null : resources.find((resource) => problem.stays[stay]!.anyOf.includes(resource)) ?? null
      return { startTick: startTick - later, endTick: endTick - later, work: problem.activities[place]!.work, people: resources.filter((resource) => resource < peopleCount).sort((one, other) => one - other), bay }
    }),
  }
}

export const changed = (problem: ScheduleProblem, place: number, change: (activity: Activity) => Partial<Activity>): ScheduleProblem =>
  ({ ...problem, activities: problem.activities.map((activity, at) => (at === place ? { ...activity, ...change(activity) } : activity)) })

/** Somebody is away from a tick on, for so many. */
export const absent = (problem: ScheduleProblem, person: number, from: number, ticks: number): ScheduleProblem => ({
  ...problem,
  resources: problem.resources.map((resource, place) => (place === person && typeof resource.capacity !== 'number'
    ? { ...resource, capacity: resource.capacity.map((there, tick) => (tick >= from && tick < from + ticks ? 0 : there)) } : resource)),
})
