import type { ShopBuild, ShopFacts, ShopWork } from '../calc/schedule/shopProblem.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import type { PlanContent } from './planContent.ts'
import { changedSince } from './prints.ts'

interface Made {
  /** What it was made from. */
  readonly facts: ShopFacts
  readonly print: string
  readonly content: PlanContent
}

/**
 * Why a proposal no longer holds as things are now; empty where work has only gone on as it has it. Hours logged, work
 * finished, and work begun on the day and by whom it is planned leave it true; more hours left, work begun otherwise,
 * another bay, and whatever else a plan is made from do not.
 */
export function spoiledBy({ facts, print, content }: Made, now: ShopFacts, timeZone: string): string[] {
  const { changed } = changedSince(print, now, new Map(facts.builds.map(({ id, name }) => [id, name])))
  const was = new Map(facts.builds.map((build) => [build.id, build]))
  return [...changed, ...now.builds.flatMap((build) => {
    const before = was.get(build.id)
    return before === undefined ? [] : goneOtherwise(before, build, { content, atMs: now.fromMs, timeZone })
  })]
}

interface Around {
  readonly content: PlanContent
  readonly atMs: number
  readonly timeZone: string
}

function goneOtherwise(before: ShopBuild, now: ShopBuild, { content, atMs, timeZone }: Around): string[] {
  const number = now.name.split(' ')[0]
  const today = calendarDateIn(timeZone, new Date(atMs))
  const isToday = (from: string, to: string): boolean => calendarDateIn(timeZone, new Date(from)) <= today && calendarDateIn(timeZone, new Date(to)) >= today
  const was = new Map(before.work.map((work) => [work.id, work]))
  const otherwise = (work: ShopWork): string[] => {
    const old = was.get(work.id)
    const planned = content.work.find(({ operationId }) => operationId === work.id)
    if (old === undefined) return []
    if (work.remainingS > old.remainingS) return [`hours left of ${number} ${work.name}`]
    const isOther = work.runningBy.some((person) => !old.runningBy.includes(person) && !(planned?.personIds.includes(person) && isToday(planned.startsAt, planned.endsAt)))
    return isOther ? [`${number} ${work.name}, begun by somebody or on a day that the proposal has otherwise`] : []
  }
  const isInBay = now.bayId === before.bayId || content.visits.some(({ buildId, bayId, fromAt, toAt }) => buildId === now.id && (now.bayId === null || bayId === now.bayId) && isToday(fromAt, toAt))
  return [...now.work.flatMap(otherwise), ...(isInBay ? [] : [`the bay in which ${number} stands`])]
}
