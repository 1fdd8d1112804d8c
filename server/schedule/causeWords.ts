import { writeDay } from '../../web/shared/day.ts'
import { causeOf, whyLonger } from '../calc/schedule/causes.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import type { Proposal } from './planner.ts'

/** Why an operation does not stand where the plan in force had it, in a few words. */
export function whyMoved({ facts, shop: { problem, workOf, leftOut }, before, schedule }: Proposal, timeZone: string): (operationId: string, isLonger?: boolean) => string {
  const placeOf = new Map(workOf.flatMap((id, place) => (id === null ? [] : [[id, place] as const])))
  const at = (tick: number): Date => new Date(facts.fromMs + tick * facts.tickMs)
  const day = (tick: number): string => writeDay(calendarDateIn(timeZone, at(tick)))
  const names = (people: readonly number[]): string => people.map((person) => facts.people[person]?.name ?? 'somebody who is there no longer').join(', ')
  const nameOf = (activity: number): string => `${numberOf(activity)}${problem.activities[activity]!.name}`
  const numberOf = (activity: number): string => {
    const id = workOf[activity]
    const build = id === null ? undefined : facts.builds.find(({ work }) => work.some((one) => one.id === id))
    return build === undefined ? '' : `${build.name.split(' ')[0]} `
  }
  return (operationId, isLonger = false) => {
    const place = placeOf.get(operationId)
    if (place === undefined || before === null) return leftOut.find(({ workId }) => workId === operationId)?.why ?? 'it is in no plan any more'
    const was = before.activities[place]
    if (isLonger) {
      const { why, ...more } = whyLonger({ problem, before, schedule }, place)
      return why === 'away' && 'people' in more ? `begins as planned; ${names(more.people)} ${more.people.length === 1 ? 'is' : 'are'} away before it is done` : 'begins as planned; its own hours are more than were planned'
    }
    const cause = causeOf({ problem, before, schedule }, place)
    switch (cause.why) {
      case 'new': return 'new work'
      case 'running': return 'it is being worked on'
      case 'pinned': return `held to ${day(schedule.placed[place]!.startTick)}, ${clockTimeIn(timeZone, at(schedule.placed[place]!.startTick))}, by hand`
      case 'own hours': return 'its own hours are more than were planned'
      case 'behind': return 'it was to be further by now'
      case 'ends sooner': return 'sooner, so that its build ends sooner'
      case 'order': return 'no cause of its own: the order around it is another'
      case 'not before': return `what it waits for is expected on ${day(cause.tick)}`
      case 'waits for': return `waits for ${nameOf(cause.activity)}, done on ${day(schedule.placed[cause.activity]!.endTick - 1)}, ${clockTimeIn(timeZone, at(schedule.placed[cause.activity]!.endTick))}`
      case 'away': return `${names(cause.people)} ${cause.people.length === 1 ? 'is' : 'are'} away`
      case 'cannot': return `not for ${names(cause.people)} any more: no longer there, another skill, or somebody else is named`
      case 'machine closed': return `${problem.resources[cause.machine]!.name} is closed`
      case 'goes first': return `${names(was === null || was === 'new' || was === undefined ? [] : was.people)} ${was !== null && was !== 'new' && was !== undefined && was.people.length > 1 ? 'are' : 'is'} on ${nameOf(cause.activity)} then`
      case 'bay taken': return `its bay is taken by ${problem.stays[cause.stay]?.name ?? 'another vehicle'}`
      case 'bay closed': return 'its bay is closed'
      case 'not in bay': return `its vehicle is rolled into the bay until ${day(cause.tick)}, ${clockTimeIn(timeZone, at(cause.tick))}`
    }
  }
}
