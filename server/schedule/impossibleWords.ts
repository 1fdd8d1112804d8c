import { writeDay } from '../../web/shared/day.ts'
import { counted } from '../../web/shared/text.ts'
import type { Impossible } from '../calc/schedule/impossible.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import type { NoPlan } from './planner.ts'

const HOUR_MS = 3_600_000

/** Why no plan could be made, a sentence for each work that fits nowhere; where none was found and one may exist, it says so. */
export function whyNoPlan({ facts, shop, impossible }: NoPlan, timeZone: string): string[] {
  return impossible.map((one) => whyNot(one, { facts, shop, timeZone }))
}

/** The sentence of one of them. */
export function whyNot(one: Impossible, around: Around): string {
  const told = `${around.shop.problem.activities[one.activity]!.name}: ${reasonOf(one, around)}.`
  return one.isProven ? told : `No plan was found that holds everything, though one may exist. The first try ended at ${told}`
}

/** Why one work is left out so that the rest can be planned; where that it cannot be is not proven, only that no place was found. */
export function whyLeftOut(one: Impossible, around: Around): string {
  if (one.isProven) return whyNot(one, around)
  const what = one.why === 'bay is taken' ? 'bay was found for its vehicle' : 'place was found for it'
  return `${around.shop.problem.activities[one.activity]!.name}: beside all the rest no ${what} before the end of what is looked at.`
}

interface Around extends Pick<NoPlan, 'facts' | 'shop'> {
  readonly timeZone: string
}

/** Why one work fits nowhere, without its name: “nobody with the skill welding is there after Fri 14 Mar 2031”. */
function reasonOf({ activity, why, need, resources, lastTick, soonestTick, longestTicks, beside }: Impossible, around: Around): string {
  const { facts, shop, timeZone } = around
  const at = (tick: number): Date => new Date(facts.fromMs + tick * facts.tickMs)
  const day = (tick: number): string => writeDay(calendarDateIn(timeZone, at(tick)))
  const { fixed, needs } = shop.problem.activities[activity]!
  const names = resources.map((resource) => shop.problem.resources[resource]!.name).join(', ')
  const start = fixed === null ? '' : `${day(fixed.startTick)}, ${clockTimeIn(timeZone, at(fixed.startTick))}`
  const until = fixed !== null || lastTick === null ? '' : ` after ${day(lastTick)}`
  const closed = `${names} ${resources.length === 1 ? 'is' : 'are'} closed${until}`
  const kind = kindOf(resources[0], facts)
  const whom = kind === 'people' && need === 0 ? wantedOf(activity, around) : `nobody of ${names}`
  const hours = longestTicks === null ? '' : counted(Math.floor(longestTicks * facts.tickMs / HOUR_MS), 'hour', 'hours')
  switch (why) {
    case 'nobody is there':
      if (kind === 'batch') return `no ${names} leaves${until === '' ? ' in the half year that is looked at' : until}`
      if (kind !== 'people') return closed
      return fixed !== null ? `${whom} is there on ${start}` : `${whom} is there${until === '' ? ' at any time' : until}`
    case 'never together': return `those it needs are never there at the same time: ${needs.map(({ anyOf }) => namesOf(anyOf, shop)).join('; ')}`
    case 'not in one piece': return `it must be done in one piece, and the longest time without a break is ${hours}`
    case 'too long': return 'it is not done before the end of what is looked at'
    case 'bay is closed': return closed
    case 'kept in a closed bay': return `its vehicle stands in ${names}, which is closed${lastTick === null ? '' : ` after ${day(lastTick)}`}, and must not be moved before the first work in it is done, on ${day(soonestTick)} at the earliest`
    case 'too early': return `it is pinned to ${start}, and what it waits for is not done before ${day(soonestTick)}, ${clockTimeIn(timeZone, at(soonestTick))}`
    case 'nobody is free': return `${need === null ? `those it needs are not free on ${start}` : kind === 'people' ? `${whom} is free on ${start}` : `${names} is taken on ${start}`}${withPinned(beside, shop)}`
    case 'bay is taken': return fixed === null ? `no bay is free and open for its vehicle (${names})` : `no bay is free and open for its vehicle on ${start} (${names})`
    case 'no room': return 'with all the rest it does not fit in before the end of what is looked at'
  }
}

const namesOf = (places: readonly number[], shop: NoPlan['shop']): string => places.map((place) => shop.problem.resources[place]!.name).join(' or ')

/** People come first among the resources, then bays, machines, and two of each outside finisher: its batches and its days. */
function kindOf(resource: number | undefined, { people, bays, machines }: NoPlan['facts']): 'people' | 'bay' | 'machine' | 'batch' | 'finisher' {
  if (resource === undefined || resource < people.length) return 'people'
  const beyond = resource - people.length - bays.length
  return beyond < 0 ? 'bay' : beyond < machines.length ? 'machine' : (beyond - machines.length) % 2 === 0 ? 'batch' : 'finisher'
}

function wantedOf(activity: number, { facts, shop }: Around): string {
  const id = shop.workOf[activity]
  const work = facts.builds.flatMap(({ work: all }) => all).find((one) => one.id === id)
  const names = namesOf(shop.problem.activities[activity]!.needs[0]?.anyOf ?? [], shop)
  if (work === undefined || work.personId !== null) return `nobody of ${names}`
  const skill = work.skill === null ? '' : ` with the skill ${work.skill.name}`
  return work.crew > 1 ? `no crew of ${work.crew}${skill}` : `nobody${skill}`
}

function withPinned(beside: readonly number[], { problem: { activities } }: NoPlan['shop']): string {
  const names = beside.map((activity) => activities[activity]!.name)
  return names.length === 0 ? '' : `, with ${names.join(' and ')} pinned where ${names.length === 1 ? 'it is' : 'they are'}`
}
