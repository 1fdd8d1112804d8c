import { groupBy } from '../grouping.ts'
import { listLeftOut } from './leftOut.ts'
import type { ScheduleProblem } from './problem.ts'
import { ticksToCome, toActivity, toSlots, unitsOf } from './shopActivities.ts'
import { toResources } from './shopResources.ts'
import { ticksOf, type Stretch } from './shopTicks.ts'

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
  /** Afterwards, until the next work in it, the vehicle cannot be moved. */
  readonly keepsIn: boolean
  /** Not stopped in the evening and gone on with in the morning. */
  readonly isInOnePiece: boolean
  readonly machineId: string | null
  /** Where it goes after its own work. */
  readonly finisherId: string | null
  /** Away: the morning on which it is expected back. */
  readonly backMs: number | null
  /** Held by the manager: begins then. */
  readonly pinnedMs: number | null
  /** What it waits for from outside has not come before this instant; null where it has. */
  readonly earliestMs: number | null
  /** Who is on it at this moment. */
  readonly runningBy: readonly string[]
  /** Person-seconds since they began, which nobody has logged yet. */
  readonly runningS?: number
  /** Why it can be planned by no means, in words; none where nothing is known against it. */
  readonly refusal?: string
}

export interface ShopBuild {
  readonly id: string
  readonly name: string
  /** The bay its vehicle stands in; null while it is outside. */
  readonly bayId: string | null
  readonly dueMs: number | null
  readonly weight: number
  /** Why none of its work can be planned; empty where it can. */
  readonly refusal: string
  /** What was last worked on in the vehicle lets it out of its bay. */
  readonly mayRollOutNow: boolean
  readonly work: readonly ShopWork[]
}

export interface ShopMachine {
  readonly id: string
  readonly name: string
  readonly count: number
  /** Work stays on it while people are away. */
  readonly holdsWork: boolean
  readonly closed: readonly Stretch[]
}

export interface ShopFinisher {
  readonly id: string
  readonly name: string
  /** Its working days from the day a batch leaves to the morning it is back. */
  readonly awayDays: number
  /** When a batch can leave: the shop closes then. */
  readonly sendMs: readonly number[]
  /** The morning of each of its working days. */
  readonly workMs: readonly number[]
  /** What these follow, whatever day it is. */
  readonly rule: string
}

export interface ShopFacts {
  readonly fromMs: number
  readonly tickMs: number
  readonly horizonTicks: number
  readonly people: readonly ShopPerson[]
  readonly bays: readonly { readonly id: string, readonly name: string, readonly closed: readonly Stretch[] }[]
  readonly machines: readonly ShopMachine[]
  readonly finishers: readonly ShopFinisher[]
  /** How long a bay is taken by rolling a vehicle in, and as long by rolling it out. */
  readonly rollMs: number
  /** What the hours of the shop follow, whatever day it is. */
  readonly rule: string
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
  /** The activity with whose end work is back from an outside finisher, by the work's id. */
  readonly backOf: ReadonlyMap<string, number>
  /** The activity with whose end work leaves for an outside finisher, by the work's id. */
  readonly sentOf: ReadonlyMap<string, number>
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

/**
 * The open work of a shop as a problem for the schedule. Work starts at the beginning of a tick and takes whole ticks;
 * a crew is of different people who all have the skill; work may stop in the evening and go on in the morning unless it
 * is in one piece; a vehicle keeps its bay while what was done in it last keeps it in, and may be rolled out otherwise.
 * What goes to an outside finisher leaves with the next batch when its own work is done, and is back a quarter hour into
 * the morning of the working day its days are over. Work nobody can do is left out with all that waits for it, and its
 * build has no end.
 *
 * Source: common practice, no source.
 */
export function toShopProblem(facts: ShopFacts): ShopProblem {
  const { builds, horizonTicks } = facts
  const leftOut = listLeftOut(facts)
  const isOut = new Set(leftOut.map(({ workId }) => workId))
  const slots = toSlots(facts, isOut)
  const { resources, places } = toResources(facts)
  const standing = standingIn(builds)
  const around = { facts, slots, places, standing }
  const unfinished = new Set(leftOut.map(({ buildId }) => buildId))
  const endOf = new Map(slots.list.flatMap((slot, place) => (slot.as === 'end' && !unfinished.has(slot.build.id) ? [[slot.build.id, place] as const] : [])))
  const rollTicks = ticksOf(facts.rollMs, facts)
  return {
    endOf, leftOut,
    workOf: slots.list.map((slot) => (slot.as === 'work' ? slot.work.id : null)),
    sentOf: new Map(slots.list.flatMap((slot, place) => (slot.as === 'sent' ? [[slot.work.id, place] as const] : []))),
    backOf: new Map(slots.list.flatMap((slot, place) => (slot.as === 'away' || slot.as === 'back' ? [[slot.work.id, place] as const] : []))),
    unsureTicks: slots.list.map((slot) => (slot.as === 'work' && slot.work.remainingCasesS.length > 0 ? slot.work.remainingCasesS.map((seconds) => ticksToCome({ ...slot.work, remainingS: seconds }, unitsOf(slot.work), facts)) : null)),
    problem: {
      resources, horizonTicks, activities: slots.list.map((slot) => toActivity(slot, around)),
      stays: builds.map(({ id, name, mayRollOutNow }) => {
        const bay = standing.get(id)
        return { name, anyOf: bay === undefined ? places.bays : [bay, ...places.bays.filter((one) => one !== bay)], isInAlready: bay !== undefined, mayRollOutNow, rollTicks }
      }),
      ends: builds.flatMap(({ id, dueMs, weight }) => {
        const activity = endOf.get(id)
        return activity === undefined ? [] : [{ activity, weight, dueTick: dueMs === null ? horizonTicks : ticksOf(dueMs - facts.fromMs, facts) }]
      }),
    },
  }

  /** One vehicle a bay: where two are recorded in one, the first listed is taken to stand there. */
  function standingIn(all: readonly ShopBuild[]): Map<string, number> {
    const inBays = groupBy(all.filter(({ bayId, work }) => bayId !== null && work.some(({ isInVehicle }) => isInVehicle)), ({ bayId }) => bayId!)
    return new Map([...inBays].flatMap(([bayId, [first]]) => {
      const place = facts.bays.findIndex(({ id }) => id === bayId)
      return place < 0 ? [] : [[first!.id, places.bays[place]!] as const]
    }))
  }
}
