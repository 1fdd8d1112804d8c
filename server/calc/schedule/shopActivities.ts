import type { Activity, Earlier, Need } from './problem.ts'
import type { ShopBuild, ShopFacts, ShopPerson, ShopWork } from './shopProblem.ts'
import type { Places } from './shopResources.ts'
import { ticksOf, workTicks } from './shopTicks.ts'

/** What an activity stands for: work, its way to a finisher and back, or the end of a build. */
export type Slot =
  | { readonly as: 'work' | 'sent' | 'away' | 'back', readonly build: ShopBuild, readonly stay: number, readonly work: ShopWork }
  | { readonly as: 'end', readonly build: ShopBuild, readonly stay: number }

export interface Slots {
  readonly list: readonly Slot[]
  /** The activity of each work, and the one with whose end it is over and back, by its id. */
  readonly placeOf: ReadonlyMap<string, number>
  readonly overOf: ReadonlyMap<string, number>
}

const PLAIN = { earliestTick: 0, mayPause: true, stay: null, keepsIn: false, fixed: null } as const

/** One after the other, build by build, without what is left out. Source: an arrangement of the same facts, ours. */
export function toSlots({ builds, finishers }: ShopFacts, isOut: ReadonlySet<string>): Slots {
  const known = new Set(finishers.map(({ id }) => id))
  const list = builds.flatMap((build, stay): Slot[] => [
    ...build.work.filter(({ id }) => !isOut.has(id)).flatMap((work) => {
      const goesOut = work.finisherId !== null && known.has(work.finisherId)
      const ways = work.backMs !== null ? ['back' as const] : goesOut ? ['sent' as const, 'away' as const] : []
      return [{ as: 'work' as const, build, stay, work }, ...ways.map((as) => ({ as, build, stay, work }))]
    }),
    { as: 'end', build, stay },
  ])
  const placesOf = (...kinds: readonly Slot['as'][]): Map<string, number> =>
    new Map(list.flatMap((slot, place) => (slot.as !== 'end' && kinds.includes(slot.as) ? [[slot.work.id, place] as const] : [])))
  const placeOf = placesOf('work')
  return { list, placeOf, overOf: new Map([...placeOf, ...placesOf('away', 'back')]) }
}

export interface Around {
  readonly facts: ShopFacts
  readonly slots: Slots
  readonly places: Places
  /** The bay each vehicle stands in, by the build's id. */
  readonly standing: ReadonlyMap<string, number>
}

/** A slot as an activity. Source: common practice, no source. */
export function toActivity(slot: Slot, around: Around): Activity {
  const { facts, slots, places } = around
  switch (slot.as) {
    case 'work': return workActivity(slot, around)
    case 'sent':
    case 'away': {
      const { name, finisherId } = slot.work
      const { send, days } = places.finishers.get(finisherId!)!
      const finisher = facts.finishers.find(({ id }) => id === finisherId)!
      const own = slots.placeOf.get(slot.work.id)!
      const isSent = slot.as === 'sent'
      return {
        ...PLAIN, name: `${name}, ${isSent ? 'to' : 'at'} ${finisher.name}`, work: isSent ? 1 : finisher.awayDays,
        after: [{ activity: isSent ? own : own + 1, lagTicks: 0 }],
        needs: isSent || finisher.awayDays > 0 ? [{ anyOf: [isSent ? send : days], units: 1, isHeld: false }] : [],
      }
    }
    case 'back': return {
      ...PLAIN, name: `${slot.work.name}, back`, work: 0, needs: [], after: [{ activity: slots.placeOf.get(slot.work.id)!, lagTicks: 0 }],
      earliestTick: Math.max(0, ticksOf(slot.work.backMs! - facts.fromMs, facts)),
    }
    case 'end': return { ...PLAIN, name: slot.build.name, work: 0, needs: [], mayPause: false, after: slot.build.work.flatMap((work) => earlierOf(work, around)) }
  }
}

/** To wait until work is over, back, and cured. */
function earlierOf({ id, waitS }: ShopWork, { facts, slots }: Around): Earlier[] {
  const activity = slots.overOf.get(id)
  return activity === undefined ? [] : [{ activity, lagTicks: ticksOf(waitS * 1000, facts) }]
}

function workActivity({ build, stay, work }: Extract<Slot, { readonly as: 'work' | 'sent' | 'away' | 'back' }>, around: Around): Activity {
  const { facts, places, standing } = around
  const { people } = facts
  const own = new Map(build.work.map((one) => [one.id, one]))
  const placesOf = (who: (person: ShopPerson) => boolean): number[] => people.flatMap((person, place) => (who(person) ? [place] : []))
  const running = placesOf(({ id }) => work.runningBy.includes(id))
  const units = unitsOf(work)
  const team: Need[] = running.length > 0 ? [{ anyOf: running, units, isHeld: false }] : peopleOf(work).map(({ who, units: own }) => ({ anyOf: placesOf(who), units: own, isHeld: false }))
  const ticks = ticksToCome(work, units, facts)
  const machine = places.machines.get(work.machineId ?? '')
  const needs: Need[] = machine === undefined ? [] : [{ anyOf: [machine], units: 1, isHeld: facts.machines.find(({ id }) => id === work.machineId)!.holdsWork }]
  const bay = standing.get(build.id)
  const pinned = work.pinnedMs === null ? -1 : ticksOf(work.pinnedMs - facts.fromMs, facts)
  const isRunning = running.length > 0 && (!work.isInVehicle || bay !== undefined)
  return {
    name: work.name, work: ticks, mayPause: !work.isInOnePiece, stay: work.isInVehicle ? stay : null, keepsIn: work.keepsIn,
    earliestTick: work.earliestMs === null ? 0 : Math.max(0, ticksOf(work.earliestMs - facts.fromMs, facts)),
    after: work.after.flatMap((id) => (own.has(id) ? earlierOf(own.get(id)!, around) : [])),
    needs: ticks === 0 ? [] : [...team, ...needs],
    fixed: ticks === 0 ? null
      : isRunning ? { startTick: 0, resources: [...running, ...(machine === undefined ? [] : [machine]), ...(work.isInVehicle ? [bay!] : [])] }
        : pinned >= 0 ? { startTick: pinned, resources: [] } : null,
  }
}

/**
 * Ticks of work still to come: what remains, less what those who are on it have done since they began. Whoever is still on
 * it is not done yet: a tick is left at the least.
 *
 * Source: common practice, no source.
 *
 * @example two hours remain, begun 45 minutes ago, in quarter hours: 5 ticks
 */
export function ticksToCome({ remainingS, runningS = 0 }: Pick<ShopWork, 'remainingS' | 'runningS'>, units: number, facts: Pick<ShopFacts, 'tickMs'>): number {
  const ticks = workTicks(Math.max(0, remainingS - runningS), units, facts)
  return runningS > 0 && remainingS > 0 ? Math.max(1, ticks) : ticks
}

/** How many people are on it together. Source: common practice, no source. */
export const unitsOf = ({ crew, runningBy }: Pick<ShopWork, 'crew' | 'runningBy'>): number => (runningBy.length > 0 ? runningBy.length : crew)

export interface Wanted {
  readonly who: (person: ShopPerson) => boolean
  readonly units: number
}

/** Who is needed for it while nobody is on it: whoever is named, and the rest of the crew by the skill. Source: common practice, no source. */
export function peopleOf({ crew, personId, skill }: Pick<ShopWork, 'crew' | 'personId' | 'skill'>): Wanted[] {
  const hasSkill = ({ skillIds }: ShopPerson): boolean => skill === null || skillIds.includes(skill.id)
  if (personId === null) return [{ who: hasSkill, units: crew }]
  const others = crew > 1 ? [{ who: (person: ShopPerson) => person.id !== personId && hasSkill(person), units: crew - 1 }] : []
  return [{ who: ({ id }) => id === personId, units: 1 }, ...others]
}
