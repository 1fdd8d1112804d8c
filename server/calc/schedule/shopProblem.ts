import { groupBy } from '../grouping.ts'
import type { Activity, ScheduleProblem } from './problem.ts'
import { hoursByTick, type Stretch } from './shopTicks.ts'

export interface ShopPerson {
  readonly id: string
  readonly name: string
  readonly skillIds: readonly string[]
  /** By what rule the person is there: alike as long as nobody changes it. */
  readonly hoursRule: string
  /** When the person is there, from now to the horizon. */
  readonly hours: readonly Stretch[]
}

export interface ShopWork {
  readonly id: string
  readonly name: string
  /** The same in few words, for a cell of the week. */
  readonly shortName: string
  /** Person-seconds still to come. */
  readonly remainingS: number
  /** The same in even steps from the best case to the worst; empty where nobody is unsure. */
  readonly remainingCasesS: readonly number[]
  readonly crew: number
  /** Null where anybody can do it. */
  readonly skill: { readonly id: string, readonly name: string } | null
  /** Null where nobody is named for it. */
  readonly personId: string | null
  readonly after: readonly string[]
  /** Cure and the like afterwards, on calendar time. */
  readonly waitS: number
  readonly isInVehicle: boolean
  /** What it waits for from outside has not come before this instant; null where it has. */
  readonly earliestMs: number | null
  /** Who is on it at this moment. */
  readonly runningBy: readonly string[]
}

export interface ShopBuild {
  readonly id: string
  readonly name: string
  /** The bay its vehicle stands in; null while it is outside. */
  readonly bayId: string | null
  readonly dueMs: number | null
  readonly weight: number
  readonly work: readonly ShopWork[]
}

export interface ShopFacts {
  readonly fromMs: number
  readonly tickMs: number
  readonly horizonTicks: number
  readonly people: readonly ShopPerson[]
  readonly bays: readonly { readonly id: string, readonly name: string }[]
  readonly builds: readonly ShopBuild[]
  /** How far hours run over together, thousandths. */
  readonly togetherThousandths: number
}

export interface ShopProblem {
  readonly problem: ScheduleProblem
  /** The work behind each activity; null for the end of a build. */
  readonly workOf: readonly (string | null)[]
  /** The activity that is the end of each build, by the build's id; none where it cannot be planned to its end. */
  readonly endOf: ReadonlyMap<string, number>
  readonly leftOut: readonly LeftOut[]
  /** What each activity may take, as the chances of the plan are made from. */
  readonly unsureTicks: readonly (readonly number[] | null)[]
}

/** Work nobody can be planned for, and what waits for it. */
export interface LeftOut {
  readonly buildId: string
  readonly workId: string
  readonly why: string
}

const MS = 1000

/**
 * The open work of a shop as a problem for the schedule. Work starts at the beginning of a tick and takes whole ticks;
 * a vehicle keeps its bay from the first work in it to the last; a crew is of different people who all have the skill;
 * work may stop in the evening and go on in the morning. Work nobody can do is left out with all that waits for it, and
 * its build has no end.
 *
 * Source: common practice, no source.
 */
export function toShopProblem(facts: ShopFacts): ShopProblem {
  const { people, bays, builds, horizonTicks } = facts
  const impossible = new Map(builds.flatMap(({ work }) => work.flatMap((one) => {
    const why = whyNot(one, people)
    return why === null ? [] : [[one.id, why] as const]
  })))
  const leftOut = builds.flatMap((build) => leftOutOf(build, impossible))
  const isOut = new Set(leftOut.map(({ workId }) => workId))
  const activities: Activity[] = []
  const workOf: (string | null)[] = []
  const unsureTicks: (readonly number[] | null)[] = []
  const endOf = new Map<string, number>()
  const placeOf = new Map<string, number>()
  for (const build of builds) for (const one of build.work) if (!isOut.has(one.id)) placeOf.set(one.id, placeOf.size + endsBefore(builds, build))
  const standing = standingIn(builds)
  builds.forEach((build, stay) => {
    for (const one of build.work) {
      if (isOut.has(one.id)) continue
      activities.push(toActivity(one, { facts, placeOf, stay, standing: standing.get(build.id) ?? null }))
      workOf.push(one.id)
      unsureTicks.push(one.remainingCasesS.length === 0 ? null : one.remainingCasesS.map((seconds) => workTicks(seconds, unitsOf(one), facts)))
    }
    const own = build.work.filter(({ id }) => !isOut.has(id))
    endOf.set(build.id, activities.length)
    workOf.push(null)
    unsureTicks.push(null)
    activities.push({
      name: build.name, work: 0, needs: [], earliestTick: 0, mayPause: false, stay: null, keepsIn: false, fixed: null,
      after: own.map(({ id, waitS }) => ({ activity: placeOf.get(id)!, lagTicks: ticksOf(waitS * MS, facts) })),
    })
  })
  for (const { buildId } of leftOut) endOf.delete(buildId)
  return {
    workOf, endOf, leftOut, unsureTicks,
    problem: {
      resources: [...people.map(({ name, hours }) => ({ name, capacity: hoursByTick(hours, facts) })), ...bays.map(({ name }) => ({ name, capacity: 1 }))],
      activities, horizonTicks,
      stays: builds.map(({ id, name }) => {
        const bay = standing.get(id)
        return { name, anyOf: bay === undefined ? bays.map((_, place) => people.length + place) : [people.length + bays.findIndex((one) => one.id === bay)], isInAlready: bay !== undefined, mayRollOutNow: false, rollTicks: 0 }
      }),
      ends: builds.flatMap(({ id, dueMs, weight }) => {
        const activity = endOf.get(id)
        return activity === undefined ? [] : [{ activity, weight, dueTick: dueMs === null ? horizonTicks : ticksOf(dueMs - facts.fromMs, facts) }]
      }),
    },
  }
}

/** Each build ends with an activity of its own, so that places move on by one a build. */
const endsBefore = (builds: readonly ShopBuild[], build: ShopBuild): number => builds.indexOf(build)

/** One vehicle a bay: where two are recorded in one, the first listed is taken to stand there. */
function standingIn(builds: readonly ShopBuild[]): Map<string, string> {
  const inBays = groupBy(builds.filter(({ bayId, work }) => bayId !== null && work.some(({ isInVehicle }) => isInVehicle)), ({ bayId }) => bayId!)
  return new Map([...inBays].map(([bayId, [first]]) => [first!.id, bayId]))
}

function whyNot({ name, skill, personId, crew }: ShopWork, people: readonly ShopPerson[]): string | null {
  if (personId !== null) return people.some(({ id }) => id === personId) ? null : `${name} is named for somebody who is not there any more.`
  const able = people.filter(({ skillIds }) => skill === null || skillIds.includes(skill.id)).length
  if (able >= crew) return null
  const whom = skill === null ? 'people' : `people with the skill ${skill.name}`
  return able === 0 ? `${name}: no ${whom}.` : `${name} needs ${crew} ${whom}, and there ${able === 1 ? 'is 1' : `are ${able}`}.`
}

function leftOutOf({ id: buildId, work }: ShopBuild, impossible: ReadonlyMap<string, string>): LeftOut[] {
  const why = new Map(work.flatMap(({ id }) => (impossible.has(id) ? [[id, impossible.get(id)!] as const] : [])))
  const names = new Map(work.map(({ id, name }) => [id, name]))
  for (let grown = -1; grown !== why.size;) {
    grown = why.size
    for (const { id, after, name } of work) {
      const earlier = after.find((one) => why.has(one))
      if (earlier !== undefined && !why.has(id)) why.set(id, `${name} waits for ${names.get(earlier) ?? 'it'}.`)
    }
  }
  return [...why].map(([workId, words]) => ({ buildId, workId, why: words }))
}

interface Around {
  readonly facts: ShopFacts
  readonly placeOf: ReadonlyMap<string, number>
  readonly stay: number
  readonly standing: string | null
}

function toActivity({ name, remainingS, crew, skill, personId, after, isInVehicle, earliestMs, runningBy }: ShopWork, { facts, placeOf, stay, standing }: Around): Activity {
  const { people, bays, builds, fromMs } = facts
  const waits = new Map(builds[stay]!.work.map(({ id, waitS }) => [id, waitS]))
  const placesOf = (who: (person: ShopPerson) => boolean): number[] => people.flatMap((person, place) => (who(person) ? [place] : []))
  const running = placesOf(({ id }) => runningBy.includes(id))
  const anyOf = running.length > 0 ? running : placesOf(({ id, skillIds }) => (personId === null ? skill === null || skillIds.includes(skill.id) : id === personId))
  const units = running.length > 0 ? running.length : unitsOf({ crew, personId, runningBy: [] })
  const work = workTicks(remainingS, units, facts)
  const bay = standing === null ? [] : [people.length + bays.findIndex(({ id }) => id === standing)]
  return {
    name, work, mayPause: true, stay: isInVehicle ? stay : null, keepsIn: isInVehicle, earliestTick: earliestMs === null ? 0 : Math.max(0, ticksOf(earliestMs - fromMs, facts)),
    after: after.flatMap((id) => (placeOf.has(id) ? [{ activity: placeOf.get(id)!, lagTicks: ticksOf((waits.get(id) ?? 0) * MS, facts) }] : [])),
    needs: work === 0 ? [] : [{ anyOf, units, isHeld: false }],
    fixed: running.length === 0 || work === 0 || (isInVehicle && standing === null) ? null : { startTick: 0, resources: [...running, ...(isInVehicle ? bay : [])] },
  }
}

/** How many people are on it together. */
const unitsOf = ({ crew, personId, runningBy }: Pick<ShopWork, 'crew' | 'personId' | 'runningBy'>): number => (runningBy.length > 0 ? runningBy.length : personId === null ? crew : 1)

const workTicks = (seconds: number, units: number, { tickMs }: ShopFacts): number => Math.ceil(seconds * MS / units / tickMs)

const ticksOf = (milliseconds: number, { tickMs }: ShopFacts): number => Math.ceil(milliseconds / tickMs)
