import { checkVisits } from './checkVisits.ts'
import type { Activity, Need, PlacedActivity, Resource, Schedule, ScheduleProblem } from './problem.ts'

/**
 * All that is wrong with a plan, in words; empty where it can be worked as it stands. Goes by the problem alone and
 * shares nothing with what makes plans. What has begun may have begun too early and while somebody was away.
 */
export function checkSchedule(problem: ScheduleProblem, { placed, visits, delay, endTick }: Schedule): string[] {
  const { activities, ends } = problem
  if (placed.length !== activities.length) return [`${placed.length} of ${activities.length} activities are planned`]
  const told = activities.flatMap((activity, place) => checkActivity(problem, activity, placed[place]!, placed))
  const owed = ends.reduce((sum, { activity, dueTick, weight }) => sum + weight * Math.max(0, placed[activity]!.endTick - dueTick), 0)
  return [
    ...told, ...checkTaken(problem, placed), ...checkVisits(problem, placed, visits),
    ...(owed === delay ? [] : [`the delay is ${owed}, not ${delay}`]),
    ...(placed.some((one) => one.endTick > endTick) ? [`work ends after tick ${endTick}`] : []),
  ]
}

function checkActivity(problem: ScheduleProblem, activity: Activity, { startTick, endTick, resources }: PlacedActivity, placed: readonly PlacedActivity[]): string[] {
  const { name, work, after, earliestTick, fixed, mayPause, needs } = activity
  const taken = matched(needs, resources)
  const isPinned = fixed !== null && fixed.resources.length === 0
  const hasBegun = fixed !== null && !isPinned
  const told: string[] = []
  if (endTick > problem.horizonTicks) told.push(`${name} ends after the horizon`)
  if ((fixed && startTick !== fixed.startTick) || (!hasBegun && startTick < earliestTick)) told.push(`${name} starts at ${startTick}`)
  if (!hasBegun) for (const { activity: earlier, lagTicks } of after) if (startTick < placed[earlier]!.endTick + lagTicks) told.push(`${name} starts before ${problem.activities[earlier]!.name} and its waiting are over`)
  if (taken === null) return [...told, `${name} is not done by those it needs`]
  const isThere = (tick: number): boolean => taken.every(({ resource, units }) => capacityAt(problem.resources[resource]!, tick) >= units)
  const ticks = Array.from({ length: endTick - startTick }, (_, at) => isThere(startTick + at))
  if (ticks.filter(Boolean).length !== work) told.push(`${name} is worked ${ticks.filter(Boolean).length} ticks, not ${work}`)
  if (!mayPause && !hasBegun && ticks.includes(false)) told.push(`${name} pauses and must not`)
  if (ticks.length > 0 && !hasBegun && !(ticks[0] && ticks.at(-1))) told.push(`${name} begins or ends while nobody is there`)
  return told
}

interface Taken {
  readonly resource: number
  readonly units: number
  readonly isHeld: boolean
}

/** Which resource serves which need; null where the given ones do not serve all. A bay beyond them is left over. */
function matched(needs: readonly Need[], given: readonly number[]): Taken[] | null {
  const [need, ...others] = needs
  if (need === undefined) return []
  if (need.anyOf.length === 1) {
    const rest = given.includes(need.anyOf[0]!) ? matched(others, given.filter((one) => one !== need.anyOf[0])) : null
    return rest && [{ resource: need.anyOf[0]!, units: need.units, isHeld: need.isHeld }, ...rest]
  }
  if (need.units === 0) return matched(others, given)
  for (const resource of given.filter((one) => need.anyOf.includes(one))) {
    const rest = matched([{ ...need, anyOf: [...need.anyOf.filter((one) => one !== resource), -1, -2], units: need.units - 1 }, ...others], given.filter((one) => one !== resource))
    if (rest) return [{ resource, units: 1, isHeld: need.isHeld }, ...rest]
  }
  return null
}

function checkTaken(problem: ScheduleProblem, placed: readonly PlacedActivity[]): string[] {
  const used = new Map<string, number>()
  problem.activities.forEach(({ needs }, place) => {
    const { startTick, endTick, resources } = placed[place]!
    const taken = matched(needs, resources) ?? []
    for (let tick = startTick; tick < endTick; tick += 1) {
      const areThere = taken.filter(({ resource, units }) => capacityAt(problem.resources[resource]!, tick) >= units)
      for (const { resource, units, isHeld } of areThere) if (areThere.length === taken.length || isHeld) used.set(`${resource} ${tick}`, (used.get(`${resource} ${tick}`) ?? 0) + units)
    }
  })
  return [...used].flatMap(([key, units]) => {
    const [resource, tick] = key.split(' ').map(Number) as [number, number]
    const there = capacityAt(problem.resources[resource]!, tick)
    return units > there ? [`${problem.resources[resource]!.name} is taken ${units} times at tick ${tick}, and there ${there} times`] : []
  })
}

const capacityAt = ({ capacity }: Resource, tick: number): number => (typeof capacity === 'number' ? capacity : capacity[tick] ?? 0)
