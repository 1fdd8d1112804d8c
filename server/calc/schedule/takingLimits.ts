import type { Activity, Resource, ScheduleProblem } from './problem.ts'
import type { ShopBuild, ShopFacts } from './shopProblem.ts'

/** What holds a build up: without it alone it would end earlier. */
export interface Limit {
  readonly what: 'skill' | 'person' | 'bay' | 'expected' | 'start' | 'machine' | 'finisher'
  /** Of the skill or the person; empty for the others. */
  readonly name: string
  readonly endTick: number | null
}

interface Held {
  /** With all others fixed. */
  readonly problem: ScheduleProblem
  readonly facts: ShopFacts
  readonly build: ShopBuild
  /** The build’s own activities begin here. */
  readonly ownFrom: number
  readonly begins: number
  readonly workOf: readonly (string | null)[]
  /** The build’s end where it is placed into such a problem; null where it does not fit. */
  readonly endOf: (problem: ScheduleProblem) => number | null
}

/**
 * Takes one thing after the other out of a build’s way and asks when it would end then: one more who has a skill or can
 * stand in for a named person, by the hours of those who are there; one more bay; all that is expected come already; an
 * earlier start. The one that gains most first; those that gain nothing are left out. Where two things hold it up at
 * once, neither alone gains anything.
 *
 * Source: relaxing one constraint at a time, common practice, no source; by hand in the tests.
 */
export function listLimits(held: Held): Limit[] {
  const { endOf, problem } = held
  const now = endOf(problem)
  const found = [...skillWays(held), ...otherWays(held)].map(({ what, name, problem: eased }): Limit => ({ what, name, endTick: endOf(eased) }))
  return found.filter(({ endTick }) => endTick !== null && (now === null || endTick < now)).sort((one, other) => one.endTick! - other.endTick!)
}

interface Way extends Pick<Limit, 'what' | 'name'> {
  readonly problem: ScheduleProblem
}

/** The build’s work by whom it needs: a skill, or a person by name. */
function skillWays({ problem, facts, build, ownFrom, workOf }: Held): Way[] {
  const work = new Map(build.work.map((one) => [one.id, one]))
  const needed = new Map<string, { readonly what: 'skill' | 'person', readonly name: string, readonly places: number[] }>()
  problem.activities.forEach((activity, place) => {
    const own = place < ownFrom ? undefined : work.get(workOf[place] ?? '')
    if (own === undefined || activity.needs.length === 0) return
    const key = own.personId === null ? `skill ${own.skill?.id ?? ''}` : `person ${own.personId}`
    const name = own.personId === null ? own.skill?.name ?? '' : facts.people.find(({ id }) => id === own.personId)?.name ?? ''
    const known = needed.get(key) ?? { what: own.personId === null ? 'skill' as const : 'person' as const, name, places: [] }
    known.places.push(place)
    needed.set(key, known)
  })
  return [...needed.values()].map(({ what, name, places }) => ({ what, name, problem: withOneMore(problem, places, facts.people.length) }))
}

/** One more for these activities, there whenever one of those is who can do them now; for a crew, as many more. */
function withOneMore(problem: ScheduleProblem, places: readonly number[], people: number): ScheduleProblem {
  const resources: Resource[] = [...problem.resources]
  const first = problem.resources.length
  const needOf = (activity: Activity) => activity.needs.find(({ anyOf }) => anyOf.some((resource) => resource < people))
  const most = Math.max(0, ...places.map((place) => needOf(problem.activities[place]!)?.units ?? 0))
  const able = [...new Set(places.flatMap((place) => needOf(problem.activities[place]!)?.anyOf ?? []))]
  const there = new Int16Array(problem.horizonTicks)
  for (const resource of able) {
    const { capacity } = problem.resources[resource]!
    if (typeof capacity === 'number') there.fill(1)
    else capacity.forEach((units, tick) => { if (units > 0) there[tick] = 1 })
  }
  for (let more = 0; more < most; more += 1) resources.push({ name: 'one more', capacity: there })
  return {
    ...problem, resources, activities: problem.activities.map((activity, place) => {
      const need = places.includes(place) && activity.fixed === null ? needOf(activity) : undefined
      if (need === undefined) return activity
      const standIns = Array.from({ length: most }, (_, more) => first + more)
      return { ...activity, needs: activity.needs.map((one) => (one === need ? { ...one, anyOf: [...one.anyOf, ...standIns] } : one)) }
    }),
  }
}

function otherWays(held: Held): Way[] {
  const { problem, build, ownFrom, begins } = held
  const isExpected = build.work.some(({ earliestMs }) => earliestMs !== null)
  return [
    ...(problem.activities.some(({ stay }, place) => place >= ownFrom && stay !== null) ? [{ what: 'bay' as const, name: '', problem: withOneMoreBay(problem) }] : []),
    ...(isExpected ? [{ what: 'expected' as const, name: '', problem: withEarliest(held, () => begins) }] : []),
    ...(begins > 0 ? [{ what: 'start' as const, name: '', problem: withEarliest(held, ({ earliestTick }) => (earliestTick === begins ? 0 : earliestTick)) }] : []),
    ...machineWays(held),
  ]
}

function withOneMoreBay(problem: ScheduleProblem): ScheduleProblem {
  const bay = problem.resources.length
  const last = problem.stays.length - 1
  return { ...problem, resources: [...problem.resources, { name: 'one more bay', capacity: 1 }], stays: problem.stays.map((stay, place) => (place === last ? { ...stay, anyOf: [...stay.anyOf, bay] } : stay)) }
}

const withEarliest = ({ problem, ownFrom }: Held, earliestOf: (activity: Activity) => number): ScheduleProblem =>
  ({ ...problem, activities: problem.activities.map((activity, place) => (place < ownFrom ? activity : { ...activity, earliestTick: earliestOf(activity) })) })

/** Whatever else the build’s work takes besides people: one more of each machine, and outside finishers that send it back at once. */
function machineWays({ problem, facts, ownFrom, workOf }: Held): Way[] {
  const from = facts.people.length + facts.bays.length
  const isAway = (place: number, { needs }: Activity): boolean => place >= ownFrom && workOf[place] === null && needs.length > 0
  const used = [...new Set(problem.activities.slice(ownFrom).flatMap(({ needs }) => needs.flatMap(({ anyOf }) => anyOf.filter((resource) => resource >= from && resource < from + facts.machines.length))))]
  const away = problem.activities.some((activity, place) => isAway(place, activity))
  return [...(!away ? [] : [{
    what: 'finisher' as const, name: '', problem: { ...problem, activities: problem.activities.map((activity, place) => (isAway(place, activity) ? { ...activity, work: 0, needs: [] } : activity)) },
  }]), ...used.map((resource) => ({
    what: 'machine' as const, name: problem.resources[resource]!.name,
    problem: { ...problem, resources: problem.resources.map((one, place) => (place === resource ? { ...one, capacity: typeof one.capacity === 'number' ? one.capacity + 1 : one.capacity.map((units) => units + 1) } : one)) },
  }))]
}
