import { randomUUID } from 'node:crypto'
import type { PlannedBuild, ScheduleData, WeekData, WeekRow } from '../../web/schedule/scheduleData.ts'
import { writeDay } from '../../web/shared/day.ts'
import { counted } from '../../web/shared/text.ts'
import { addDays, daysBetween, startOfWeek } from '../calc/calendar.ts'
import { chanceBy, endWithin } from '../calc/schedule/chances.ts'
import type { ShopFacts } from '../calc/schedule/shopProblem.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { whyNoPlan } from './impossibleWords.ts'
import type { Plan, Planner } from './planner.ts'

const DAYS_A_WEEK = 7
const CHANCES = [0.5, 0.8, 0.9] as const
interface Asked {
  readonly facts: ShopFacts
  readonly print: string
  readonly timeZone: string
  readonly today: string
  readonly week: string | undefined
}

export function toScheduleData(planner: Planner, { print, timeZone, today, week, facts }: Asked): ScheduleData {
  const { plan, noPlan } = planner
  const base = { isSearching: planner.isSearching, failure: planner.failure, planKey: randomUUID(), stopKey: randomUUID() }
  if (plan === null) {
    const shop = noPlan?.shop
    return {
      ...base, made: null, builds: [], week: null,
      noPlan: facts.builds.length === 0 ? ['No open operation is recorded on any build in the shop.'] : noPlan === null ? [] : noPlan.impossible.length > 0 ? whyNoPlan(noPlan, timeZone) : ['All of it together does not fit into the next half year.'],
      leftOut: (shop?.leftOut ?? []).map(({ buildId, why }) => ({ build: facts.builds.find(({ id }) => id === buildId)?.name ?? '', why })),
    }
  }
  const { schedule, leastDelay, madeAt } = plan
  return {
    ...base, noPlan: [],
    made: {
      at: `${writeDay(calendarDateIn(timeZone, madeAt))}, ${clockTimeIn(timeZone, madeAt)}`, isStale: plan.print !== print, tries: plan.tries,
      proof: schedule.delay === 0 ? 'Nothing that has a date is late.' : schedule.delay <= leastDelay ? 'No plan can be less late.' : 'A plan that is less late may exist.',
    },
    builds: plannedBuilds(plan, timeZone),
    leftOut: plan.shop.leftOut.map(({ buildId, why }) => ({ build: plan.facts.builds.find(({ id }) => id === buildId)?.name ?? '', why })),
    week: toWeek(plan, timeZone, startOfWeek(week ?? firstDay(plan, timeZone) ?? today)),
  }
}

/** The first day on which anybody works by the plan: on a Saturday, Monday. */
function firstDay({ facts, schedule, shop }: Plan, timeZone: string): string | null {
  const starts = schedule.placed.filter((_, place) => shop.workOf[place] !== null).map(({ startTick }) => startTick)
  return starts.length === 0 ? null : calendarDateIn(timeZone, new Date(facts.fromMs + Math.min(...starts) * facts.tickMs))
}

function plannedBuilds(plan: Plan, timeZone: string): PlannedBuild[] {
  const { facts, shop, schedule } = plan
  const day = (tick: number): string => calendarDateIn(timeZone, new Date(facts.fromMs + tick * facts.tickMs - 1))
  return facts.builds.map(({ id, name, dueMs, work }) => {
    const end = shop.endOf.get(id)
    const dueOn = dueMs === null ? '' : calendarDateIn(timeZone, new Date(dueMs))
    const named = { name, href: `/builds/${id}`, dueOn: dueOn === '' ? '' : writeDay(dueOn), chances: null, kept: '' }
    if (end === undefined) return { ...named, endsOn: '', state: 'no end', words: 'part of it cannot be planned' }
    const endsOn = day(schedule.placed[end]!.endTick)
    // Where nobody is unsure of anything, a chance would claim more than anybody knows.
    const isUnsure = work.some(({ remainingCasesS }) => remainingCasesS.length > 0)
    const ends = isUnsure ? plan.ends?.[shop.problem.ends.findIndex(({ activity }) => activity === end)] ?? null : null
    const likely = {
      ...named, endsOn: writeDay(endsOn), chances: ends && CHANCES.map((share) => writeDay(day(endWithin(ends, share)))),
      kept: ends === null || dueMs === null ? '' : `${Math.round(100 * chanceBy(ends, Math.ceil((dueMs - facts.fromMs) / facts.tickMs)))} in 100`,
    }
    if (dueOn === '') return { ...likely, state: 'no date promised', words: 'no date promised' }
    const spare = daysBetween(endsOn, dueOn)
    return spare < 0
      ? { ...likely, state: 'late', words: `${counted(-spare, 'day', 'days')} late` }
      : { ...likely, state: 'in time', words: spare === 0 ? 'on the day' : `${counted(spare, 'day', 'days')} before` }
  })
}

function toWeek(plan: Plan, timeZone: string, monday: string): WeekData {
  const worked = workByDay(plan, timeZone)
  const dates = Array.from({ length: DAYS_A_WEEK }, (_, later) => addDays(monday, later))
  const days = dates.filter((date) => plan.facts.people[0]?.hours.some(({ fromMs }) => calendarDateIn(timeZone, new Date(fromMs)) === date) ?? true)
  const { people, bays } = plan.facts
  const row = (name: string, resource: number, isWhole: boolean): WeekRow => ({ name, days: days.map((date) => (worked.get(`${resource} ${date}`) ?? []).map(({ times, ...rest }) => ({ ...rest, times: isWhole ? '' : times }))) })
  return {
    title: `Week of ${writeDay(monday)}`, days: days.map((date) => ({ date, name: writeDay(date).split(' ').slice(0, 3).join(' ') })),
    people: people.map(({ name }, place) => row(name, place, false)), bays: bays.map(({ name }, place) => row(name, people.length + place, true)),
    earlierHref: `/schedule?week=${addDays(monday, -DAYS_A_WEEK)}`, laterHref: `/schedule?week=${addDays(monday, DAYS_A_WEEK)}`,
  }
}

/** What each person works on and which build each bay holds, by resource and day. */
function workByDay({ facts, shop, schedule }: Plan, timeZone: string): Map<string, WeekRow['days'][number][number][]> {
  const found = new Map<string, WeekRow['days'][number][number][]>()
  const note = (key: string, planned: WeekRow['days'][number][number]): void => void found.set(key, [...(found.get(key) ?? []), planned])
  const build = buildOf(facts)
  const inOrder = schedule.placed.map((placed, place) => ({ ...placed, place })).sort((one, other) => one.startTick - other.startTick)
  for (const { startTick, endTick, resources, place } of inOrder) {
    const workId = shop.workOf[place]
    if (workId === null || workId === undefined || startTick === endTick) continue
    const [from, to] = [facts.fromMs + startTick * facts.tickMs, facts.fromMs + endTick * facts.tickMs]
    const name = build.get(workId)!
    for (const resource of resources.filter((one) => one < facts.people.length)) {
      for (const { fromMs, toMs } of facts.people[resource]!.hours) {
        if (toMs <= from || fromMs >= to) continue
        const [begins, ends] = [new Date(Math.max(from, fromMs)), new Date(Math.min(to, toMs))]
        note(`${resource} ${calendarDateIn(timeZone, begins)}`, { what: `${name.number} ${name.work}`, href: `/operations/${workId}`, times: `${clockTimeIn(timeZone, begins)} to ${clockTimeIn(timeZone, ends)}` })
      }
    }
  }
  for (const { bay, id, name, from, to } of staysOf({ facts, shop, schedule })) {
    const last = calendarDateIn(timeZone, new Date(to - 1))
    for (let date = calendarDateIn(timeZone, new Date(from)); date <= last; date = addDays(date, 1)) note(`${bay} ${date}`, { what: name, href: `/builds/${id}`, times: '' })
  }
  return found
}

function buildOf({ builds }: ShopFacts): Map<string, { readonly number: string, readonly work: string }> {
  return new Map(builds.flatMap(({ name, work }) => work.map((one) => [one.id, { number: name.split(' ')[0] ?? name, work: one.shortName }] as const)))
}

/** From the first work in a vehicle to the last, in its bay. */
function staysOf({ facts, shop, schedule }: Pick<Plan, 'facts' | 'shop' | 'schedule'>) {
  return facts.builds.flatMap(({ id, name }, stay) => {
    const members = schedule.placed.filter((_, place) => shop.problem.activities[place]!.stay === stay)
    const bay = members[0]?.resources.find((resource) => resource >= facts.people.length && resource < facts.people.length + facts.bays.length)
    if (bay === undefined) return []
    const first = shop.problem.stays[stay]!.isInAlready ? 0 : Math.min(...members.map(({ startTick }) => startTick))
    const at = (tick: number): number => facts.fromMs + tick * facts.tickMs
    return [{ bay, id, name, from: at(first), to: at(Math.max(...members.map(({ endTick }) => endTick))) }]
  })
}
