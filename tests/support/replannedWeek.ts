import fc from 'fast-check'
import { randomFrom } from '../../server/calc/random.ts'
import { checkSchedule } from '../../server/calc/schedule/checkSchedule.ts'
import { searchLeastChange } from '../../server/calc/schedule/leastChange.ts'
import { comparePlans, type PlanDifference } from '../../server/calc/schedule/planDifference.ts'
import { searchSchedule } from '../../server/calc/schedule/search.ts'
import { toShopProblem, type ShopBuild, type ShopFacts, type ShopWork } from '../../server/calc/schedule/shopProblem.ts'
import { midnightsOf, toPlanBefore } from '../../server/schedule/planBefore.ts'
import { toPlanContent, type PlanContent } from '../../server/schedule/planContent.ts'
import { toCompared } from '../../server/schedule/proposals.ts'

const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS
// A Monday at midnight; the shop is open from eight to four on five days.
const MONDAY = Date.parse('2031-03-03T00:00:00Z')
const WORKDAYS = Array.from({ length: 56 }, (_, day) => day).filter((day) => day % 7 < 5)
const SKILLS = ['wood', 'wiring'].map((id) => ({ id, name: id }))
const STEPS = 120

/** The shop as it is, and the plan it works by. */
export interface Week {
  facts: ShopFacts
  inForce: PlanContent
  made: number
}

export function openWeek(): Week {
  const facts: ShopFacts = {
    fromMs: MONDAY + 8 * HOUR_MS, tickMs: 900_000, horizonTicks: 56 * 96, togetherThousandths: 0, rule: '', rollMs: HOUR_MS / 2,
    people: [['Ann', 'wood'], ['Bo', 'wiring'], ['Cy', 'wood', 'wiring']].map(([name, ...skillIds]) => ({
      id: name!, name: name!, skillIds, hoursRule: '', hours: WORKDAYS.map((day) => ({ fromMs: MONDAY + day * DAY_MS + 8 * HOUR_MS, toMs: MONDAY + day * DAY_MS + 16 * HOUR_MS })),
    })),
    bays: ['one', 'two'].map((id) => ({ id, name: `Bay ${id}`, closed: [] })), machines: [{ id: 'mill', name: 'Mill', count: 1, holdsWork: false, closed: [] }], finishers: [],
    builds: [aBuild('B1', 5, 2), aBuild('B2', 9, 2), aBuild('B3', 12, 1)],
  }
  const { content } = plan(facts, null)
  return { facts, inForce: content, made: 0 }
}

function aBuild(id: string, dueDay: number, weight: number): ShopBuild {
  const work = (place: number, more: Partial<ShopWork>): ShopWork => ({
    id: `${id} ${place}`, name: `${id} ${place}`, shortName: `${id} ${place}`, remainingS: (3 + place) * 3_600, remainingCasesS: [], crew: 1, skill: SKILLS[place % 2]!, personId: null,
    after: place === 0 ? [] : [`${id} ${place - 1}`], waitS: place === 1 ? 6 * 3_600 : 0, isInVehicle: place !== 1, keepsIn: place === 0, isInOnePiece: place === 2, machineId: place === 1 ? 'mill' : null,
    finisherId: null, backMs: null, pinnedMs: null, earliestMs: null, runningBy: [], ...more,
  })
  return { id, name: id, bayId: null, dueMs: MONDAY + dueDay * DAY_MS + 16 * HOUR_MS, weight, refusal: '', mayRollOutNow: true, work: [work(0, {}), work(1, {}), work(2, {}), work(3, { crew: 2, skill: null, remainingS: 4 * 3_600 })] }
}

interface Planned {
  readonly content: PlanContent
  readonly difference: PlanDifference | null
}

/** A plan of the shop, with the least change where there is one in force. Throws where it cannot be worked. */
function plan(facts: ShopFacts, inForce: PlanContent | null): Planned {
  const shop = toShopProblem(facts)
  const before = inForce && toPlanBefore(inForce, { facts, shop }, 'UTC')
  const repair = before === null ? null : searchLeastChange(shop.problem, before, randomFrom(7))
  const search = repair === null || repair.best() === null ? searchSchedule(shop.problem, randomFrom(7)) : repair
  for (let step = 0; step < STEPS && !search.isProven(); step += 1) search.step()
  const schedule = search.best()
  if (schedule === null) throw new Error('the shop cannot be planned')
  const faults = checkSchedule(shop.problem, schedule)
  if (faults.length > 0) throw new Error(`the plan cannot be worked: ${faults.join('; ')}`)
  const content = toPlanContent({ facts, shop, schedule, leastDelay: 0, madeAt: new Date(facts.fromMs), print: '', tries: 0, cases: null })
  const dayEndsAt = new Date(facts.fromMs + midnightsOf(facts, 'UTC')[0]! * facts.tickMs).toISOString()
  return { content, difference: inForce && comparePlans(toCompared(inForce), toCompared(content), dayEndsAt) }
}

/** Plans anew with the least change, holds what must hold of it, and takes it. */
function replan(week: Week): void {
  const { content, difference } = plan(week.facts, week.inForce)
  const open = week.facts.builds.flatMap(({ work }) => work)
  for (const { id, runningBy } of open) {
    const found = content.work.find(({ operationId }) => operationId === id)
    if (found === undefined && !content.leftOut.some(({ operationId }) => operationId === id)) throw new Error(`${id} is in no plan`)
    if (runningBy.length > 0 && (found?.startsAt !== content.fromAt || runningBy.some((one) => !found.personIds.includes(one)))) throw new Error(`${id} goes on, and the plan moves it`)
  }
  // By hand from the two plans: whose hours of today are others now, and whether it is said.
  const today = (of: PlanContent, person: string): string[] => of.work.filter(({ personIds }) => personIds.includes(person))
    .flatMap(({ operationId, hours }) => (hours.some(({ fromAt, toAt }) => toAt > content.fromAt && fromAt.slice(0, 10) === content.fromAt.slice(0, 10)) ? [operationId] : [])).sort()
  // What somebody is at is no news to them.
  const stillOpen = new Set(open.filter(({ runningBy }) => runningBy.length === 0).map(({ id }) => id))
  for (const { id } of week.facts.people) {
    const [was, is] = [today(week.inForce, id).filter((one) => stillOpen.has(one)), today(content, id)]
    if (was.some((one) => !is.includes(one)) && !difference!.today.some(({ personId }) => personId === id)) throw new Error(`the day of ${id} changes, and nobody says so: ${was.join()} → ${is.join()}`)
  }
  week.inForce = content
  week.made += 1
}

type Change = (week: Week) => boolean

const command = (name: string, change: Change): fc.Command<object, Week> => ({
  check: () => true,
  run: (_model, week) => {
    if (change(week)) replan(week)
  },
  toString: () => name,
})

const withWork = (facts: ShopFacts, id: string, change: (work: ShopWork) => ShopWork): ShopFacts =>
  ({ ...facts, builds: facts.builds.map((build) => ({ ...build, work: build.work.map((one) => (one.id === id ? change(one) : one)) })) })
const workAt = ({ facts }: Week, place: number): ShopWork | undefined => {
  const open = facts.builds.flatMap(({ work }) => work)
  return open[place % Math.max(open.length, 1)]
}

/** What happens in a shop between Monday and Friday. */
export const HAPPENINGS: readonly fc.Arbitrary<fc.Command<object, Week>>[] = [
  fc.record({ person: fc.nat(2), day: fc.nat(9) }).map(({ person, day }) => command(`person ${person} is away on day ${day}`, (week) => {
    const away = WORKDAYS[day]! * DAY_MS + MONDAY
    week.facts = { ...week.facts, people: week.facts.people.map((one, place) => (place === person ? { ...one, hours: one.hours.filter(({ fromMs }) => fromMs < away || fromMs >= away + DAY_MS) } : one)) }
    return true
  })),
  fc.record({ place: fc.nat(20), days: fc.integer({ min: 1, max: 6 }) }).map(({ place, days }) => command(`a part for ${place} is ${days} days late`, (week) => {
    const work = workAt(week, place)
    if (work === undefined || work.runningBy.length > 0) return false
    week.facts = withWork(week.facts, work.id, (one) => ({ ...one, earliestMs: week.facts.fromMs + days * DAY_MS }))
    return true
  })),
  fc.record({ place: fc.nat(20), hours: fc.integer({ min: 1, max: 9 }) }).map(({ place, hours }) => command(`${place} takes ${hours} h more`, (week) => {
    const work = workAt(week, place)
    // Work in one piece that is longer than a day fits nowhere, and the manager would have to say otherwise.
    if (work === undefined || (work.isInOnePiece && work.remainingS + hours * 3_600 > 8 * 3_600)) return false
    week.facts = withWork(week.facts, work.id, (one) => ({ ...one, remainingS: one.remainingS + hours * 3_600 }))
    return true
  })),
  fc.constant(command('an urgent build comes', (week) => {
    if (week.facts.builds.length > 5) return false
    const day = Math.round((week.facts.fromMs - MONDAY) / DAY_MS)
    week.facts = { ...week.facts, builds: [...week.facts.builds, aBuild(`U${week.made}`, day + 3, 4)] }
    return true
  })),
  fc.integer({ min: 1, max: 12 }).map((hours) => command(`${hours} h go by as planned`, (week) => {
    week.facts = later(week, hours * HOUR_MS)
    return true
  })),
  fc.constant(command('nothing changes', (week) => {
    const { difference } = plan(week.facts, week.inForce)
    const moved = difference!.work.filter(({ is }) => is === 'moved')
    if (moved.length > 0) throw new Error(`nothing has changed, and ${moved.length} operations move`)
    return false
  })),
]

/** What was planned to be over by then is done, and what was to be worked on at that moment runs, with the rest of its hours. */
function later({ facts, inForce }: Week, ms: number): ShopFacts {
  const fromMs = facts.fromMs + ms
  const planned = new Map(inForce.work.map((work) => [work.operationId, work]))
  const pastS = (id: string): number => planned.get(id)!.hours.reduce((sum, { fromAt, toAt }) => sum + Math.max(0, Math.min(Date.parse(toAt), fromMs) - Math.max(Date.parse(fromAt), facts.fromMs)) / 1_000, 0)
  const isDone = ({ id }: ShopWork): boolean => planned.has(id) && Date.parse(planned.get(id)!.endsAt) <= fromMs
  const goOn = (work: ShopWork): ShopWork => {
    const own = planned.get(work.id)
    if (own === undefined) return work
    const isAtIt = own.hours.some(({ fromAt, toAt }) => Date.parse(fromAt) < fromMs && Date.parse(toAt) > fromMs)
    return { ...work, remainingS: Math.max(900, work.remainingS - pastS(work.id) * own.personIds.length), runningBy: isAtIt ? own.personIds : [] }
  }
  const bayOf = (buildId: string): string | null => inForce.visits.find((visit) => visit.buildId === buildId && Date.parse(visit.fromAt) < fromMs && Date.parse(visit.toAt) > fromMs)?.bayId ?? null
  const builds = facts.builds.flatMap((build): ShopBuild[] => {
    const done = new Set(build.work.filter(isDone).map(({ id }) => id))
    const work = build.work.filter(({ id }) => !done.has(id)).map(goOn).map((one) => ({ ...one, after: one.after.filter((id) => !done.has(id)) }))
    return work.length === 0 ? [] : [{ ...build, work, bayId: bayOf(build.id), mayRollOutNow: true }]
  })
  return { ...facts, fromMs, builds }
}
