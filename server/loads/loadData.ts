import type { LoadData, LoadRow } from '../../web/schedule/loadData.ts'
import { writeHours } from '../../web/shared/amount.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import type { Working } from '../calc/amounts.ts'
import { addDays, startOfWeek } from '../calc/calendar.ts'
import { sumOf } from '../calc/grouping.ts'
import { loadOf, secondsWithin, type LoadedPerson, type LoadingWork, type WeekLoad } from '../calc/schedule/load.ts'
import { loadShopFacts } from '../schedule/facts.ts'
import { printOf } from '../schedule/prints.ts'
import { loadOpenDays } from '../schedule/openDays.ts'
import type { PlanContent } from '../schedule/planContent.ts'
import { loadPlanInForce } from '../schedule/planStore.ts'
import { dayWords, endDay, momentWords } from '../schedule/planWords.ts'
import type { Reads } from '../shared/database/database.ts'
import type { Workings } from '../shared/workings.ts'
import { loadDepartments } from './loadStore.ts'

const WEEKS = 8
const DAYS_A_WEEK = 7

interface NamedLoad {
  readonly key: string
  readonly name: string
  readonly isShop: boolean
  readonly weeks: readonly WeekLoad[]
}

export interface ShopLoad {
  readonly data: LoadData
  readonly workings: Workings
}

const NONE: LoadData = { empty: 'No plan is in force yet. Once the shop is planned and the plan is taken, the hours of each department stand here against those its people are there.', takenAt: '', isStale: false, weeks: [], rows: [], overloaded: [], overdue: [], scaleS: 1 }

/** Hours planned against hours people are there, by department, for this week from now on and the seven after it. */
export async function loadShopLoad(reads: Reads, viewer: Viewer, now: Date): Promise<ShopLoad> {
  const inForce = await loadPlanInForce(reads)
  if (inForce === null) return { data: NONE, workings: new Map() }
  const { content } = inForce
  const thisMonday = startOfWeek(viewer.today)
  const { days: all, times, shopDay, timeZone } = await loadOpenDays(reads, thisMonday, addDays(thisMonday, (WEEKS + 1) * DAYS_A_WEEK - 1))
  // On a Saturday the next eight weeks begin on Monday.
  const isOver = !all.slice(0, DAYS_A_WEEK).some(({ open }) => open !== null && open.toMs > now.getTime())
  const days = isOver ? all.slice(DAYS_A_WEEK) : all
  const { departments, departmentOfSkill, departmentOf } = await loadDepartments(reads, content.work.map(({ operationId }) => operationId))
  const weeks = Array.from({ length: WEEKS }, (_, later) => {
    const own = days.slice(later * DAYS_A_WEEK, (later + 1) * DAYS_A_WEEK)
    const [first, last] = [own[0]!, own.at(-1)!]
    const opening = own.find(({ open }) => open !== null)?.open?.fromMs ?? first.fromMs
    return { fromMs: Math.max(first.fromMs, now.getTime()), toMs: last.toMs, date: first.date, name: `${dayWords(timeZone, first.fromMs)}${now.getTime() > opening ? ', from now' : ''}` }
  })
  const people = shopDay.people.filter(({ role, skills }) => role === 'technician' || skills.length > 0).map((person): LoadedPerson & { name: string } => ({
    id: person.id, name: person.name, hours: times.hoursOf(person), departmentIds: [...new Set(person.skills.flatMap(({ skillId }) => departmentOfSkill.get(skillId) ?? []))],
  }))
  const work = content.work.map(({ operationId, buildId, personIds, hours }): LoadingWork => ({
    buildId, departmentId: departmentOf.get(operationId) ?? '', people: personIds.length, hours: hours.map(({ fromAt, toAt }) => ({ fromMs: Date.parse(fromAt), toMs: Date.parse(toAt) })),
  }))
  const loads: NamedLoad[] = [
    ...departments.map(({ id, name }, place) => ({ key: String(place + 1), name, isShop: false, weeks: loadOf(weeks, work, people, id) })),
    { key: 's', name: 'Whole shop', isShop: true, weeks: loadOf(weeks, work, people, null) },
  ].filter(({ isShop, weeks: own }) => isShop || own.some(({ plannedS, thereS }) => plannedS > 0 || thereS > 0))
  const names = new Map([...people.map(({ id, name }) => [id, name] as const), ...content.builds.map(({ buildId, name }) => [buildId, name] as const)])
  const weekNames = weeks.map(({ name }) => name)
  const rows = loads.map(({ key, name, isShop, weeks: own }): LoadRow => ({
    name, isShop, weeks: own.map(({ plannedS, thereS }, place) => ({ plannedS: Math.round(plannedS), thereS: Math.round(thereS), isOver: Math.round(plannedS) > Math.round(thereS), how: `${key}w${place}` })),
  }))
  return {
    data: {
      empty: '', takenAt: momentWords(timeZone, inForce.takenAt.getTime()), isStale: printOf(await loadShopFacts(reads, now)) !== inForce.print,
      weeks: weeks.map(({ date }, place) => ({ name: weekNames[place]!, href: `/schedule/week?week=${date}` })), rows,
      overloaded: weekNames.flatMap((week, place) => rows.flatMap(({ name, weeks: own }) => (own[place]!.isOver ? [`Week of ${week}: ${name} ${writeHours(own[place]!.plannedS)} h of ${writeHours(own[place]!.thereS)} h`] : []))),
      overdue: overdueOf(content, weeks.at(-1)!.toMs, timeZone), scaleS: Math.max(1, ...rows.filter(({ isShop }) => !isShop).flatMap(({ weeks: own }) => own.flatMap(({ plannedS, thereS }) => [plannedS, thereS]))),
    },
    workings: new Map(loads.flatMap(({ key, name, weeks: own }) => own.flatMap((load, place): [string, Working][] => [
      [`p${key}w${place}`, plannedWorking(`${name}, week of ${weekNames[place]}: planned`, load, names)], [`t${key}w${place}`, thereWorking(`${name}, week of ${weekNames[place]}: there`, load, names)],
    ]))),
  }
}

/** What is promised within these weeks and not planned, or only after its promise. */
function overdueOf({ builds, work, leftOut }: PlanContent, toMs: number, timeZone: string): LoadData['overdue'] {
  return builds.flatMap(({ buildId, name, dueAt }) => {
    const dueMs = dueAt === null ? null : Date.parse(dueAt)
    if (dueMs === null || dueMs > toMs) return []
    const promised = `promised ${endDay(timeZone, dueMs)}`
    const lateS = sumOf(work.filter((one) => one.buildId === buildId), ({ hours, personIds }) => personIds.length * secondsWithin(hours.map((one) => ({ fromMs: Date.parse(one.fromAt), toMs: Date.parse(one.toAt) })), { fromMs: dueMs, toMs: Infinity }))
    const out = leftOut.filter((one) => one.buildId === buildId)
    const words = [
      ...(lateS > 0 ? [`${promised}, and ${writeHours(Math.round(lateS))} h of it are planned after that`] : []),
      ...(out.length > 0 ? [`${promised}, and not planned: ${out.map(({ why }) => why).join(' ')}`] : []),
    ]
    return words.map((one) => ({ build: name, href: `/builds/${buildId}/schedule`, words: one }))
  })
}

const inputsOf = (by: ReadonlyMap<string, number>, names: ReadonlyMap<string, string>, source: string): Working['inputs'] =>
  [...by].filter(([, seconds]) => seconds > 0).map(([id, seconds]) => ({ label: names.get(id) ?? 'what is gone', source, amount: { kind: 'time', value: Math.round(seconds) } }))

const plannedWorking = (title: string, { plannedS, byBuild }: WeekLoad, names: ReadonlyMap<string, string>): Working => ({
  title, inputs: inputsOf(byBuild, names, 'hours of the plan in force, each for all of its people'), result: { kind: 'time', value: Math.round(plannedS) },
  formula: 'sum over builds of the hours planned in the week × people on them', assumed: 'The department is that of the operation, whoever does it. Of this week only what is still to come.', source: 'common practice, no source',
})

const thereWorking = (title: string, { thereS, byPerson }: WeekLoad, names: ReadonlyMap<string, string>): Working => ({
  title, inputs: inputsOf(byPerson, names, 'own hours, without holidays, breaks and absences'), result: { kind: 'time', value: Math.round(thereS) },
  formula: 'sum of the hours in which people with a skill of the department are there', assumed: 'Somebody with skills of several departments counts fully in each; in the whole shop once. Of this week only what is still to come.', source: 'common practice, no source',
})
