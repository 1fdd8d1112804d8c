import { writeDay } from '../../web/shared/day.ts'
import { counted } from '../../web/shared/text.ts'
import type { Impossible } from '../calc/schedule/impossible.ts'
import type { ShopWork } from '../calc/schedule/shopProblem.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import type { NoPlan } from './planner.ts'

const HOUR_MS = 3_600_000

/** Why no plan could be made, a sentence for each work that fits nowhere. */
export function whyNoPlan({ facts, shop, impossible }: NoPlan, timeZone: string): string[] {
  const works = new Map(facts.builds.flatMap(({ work }) => work.map((one) => [one.id, one] as const)))
  const at = (tick: number): Date => new Date(facts.fromMs + tick * facts.tickMs)
  const day = (tick: number): string => writeDay(calendarDateIn(timeZone, at(tick)))
  return impossible.map((one) => {
    const { name, fixed } = shop.problem.activities[one.activity]!
    const workId = shop.workOf[one.activity]
    const work = workId === null || workId === undefined ? undefined : works.get(workId)
    return `${name}: ${reason(one)}.`

    function reason({ why, need, resources, lastTick, soonestTick, longestTicks }: Impossible): string {
      const names = resources.map((resource) => shop.problem.resources[resource]!.name).join(', ')
      const are = resources.length === 1 ? 'is' : 'are'
      const start = fixed === null ? '' : `${day(fixed.startTick)}, ${clockTimeIn(timeZone, at(fixed.startTick))}`
      const whom = need === 0 ? wanted(work, names) : `nobody of ${names}`
      const hours = longestTicks === null ? '' : counted(Math.floor(longestTicks * facts.tickMs / HOUR_MS), 'hour', 'hours')
      switch (why) {
        case 'nobody is there': return fixed !== null ? `${whom} is there on ${start}` : lastTick === null ? `${whom} is there at any time` : `${whom} is there after ${day(lastTick)}`
        case 'never together': return 'those it needs are never there at the same time'
        case 'not in one piece': return `it must be done in one piece, and the longest time without a break is ${hours}`
        case 'too long': return 'it is not done before the end of what is looked at'
        case 'bay is closed': return lastTick === null || fixed !== null ? `${names} ${are} closed` : `${names} ${are} closed after ${day(lastTick)}`
        case 'too early': return `it is pinned to ${start}, and what it waits for is not done before ${day(soonestTick)}, ${clockTimeIn(timeZone, at(soonestTick))}`
        case 'nobody is free': return need === null ? `those it needs are not free on ${start}` : `${whom} is free on ${start}`
        case 'bay is taken': return fixed === null ? `no bay is free for its vehicle (${names})` : `no bay is free for its vehicle on ${start} (${names})`
        case 'no room': return 'with all the rest it does not fit in before the end of what is looked at'
      }
    }
  })
}

function wanted(work: ShopWork | undefined, names: string): string {
  if (work === undefined || work.personId !== null) return `nobody of ${names}`
  const skill = work.skill === null ? '' : ` with the skill ${work.skill.name}`
  return work.crew > 1 ? `not a crew of ${work.crew}${skill}` : `nobody${skill}`
}
