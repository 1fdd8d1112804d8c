import type { LoadData, LoadRow } from '../../web/schedule/loadData.ts'
import { writeHours } from '../../web/shared/amount.ts'
import type { Working } from '../calc/amounts.ts'
import type { WeekLoad } from '../calc/schedule/load.ts'
import { dayWords, endDay, momentWords } from '../schedule/planWords.ts'
import type { Workings } from '../shared/workings.ts'
import type { Overdue, ShopLoad } from './loadRead.ts'

const NONE: LoadData = { empty: 'No plan is in force yet. Once the shop is planned and the plan is taken, the hours of each department stand here against those its people are there.', takenAt: '', isStale: false, weeks: [], rows: [], overloaded: [], overdue: [], scaleS: 1 }

export function toLoadData(found: ShopLoad | null): LoadData {
  if (found === null) return NONE
  const { inForce, isStale, timeZone, weeks, loads, overdue } = found
  const names = weekNames(found)
  const rows = loads.map(({ departmentId, name, weeks: own }, row): LoadRow => ({
    name, isShop: departmentId === null, weeks: own.map(({ plannedS, thereS, isOver }, place) => ({ plannedS: Math.round(plannedS), thereS: Math.round(thereS), isOver, how: `${row + 1}w${place}` })),
  }))
  return {
    empty: '', takenAt: momentWords(timeZone, inForce.takenAt.getTime()), isStale,
    weeks: weeks.map(({ date }, place) => ({ name: names[place]!, href: `/schedule/week?week=${date}` })), rows,
    overloaded: names.flatMap((week, place) => rows.flatMap(({ name, weeks: own }) => (own[place]!.isOver ? [`Week of ${week}: ${name} ${writeHours(own[place]!.plannedS)} h of ${writeHours(own[place]!.thereS)} h`] : []))),
    overdue: overdue.flatMap((one) => overdueWords(one, timeZone)), scaleS: Math.max(1, ...rows.filter(({ isShop }) => !isShop).flatMap(({ weeks: own }) => own.flatMap(({ plannedS, thereS }) => [plannedS, thereS]))),
  }
}

/** p1w0 is what is planned in the first row's first week, t1w0 who is there. */
export function loadWorkings(found: ShopLoad | null): Workings {
  if (found === null) return new Map()
  const weeks = weekNames(found)
  return new Map(found.loads.flatMap(({ name, weeks: own }, row) => own.flatMap((load, place): [string, Working][] => [
    [`p${row + 1}w${place}`, plannedWorking(`${name}, week of ${weeks[place]}: planned`, load, found.names)], [`t${row + 1}w${place}`, thereWorking(`${name}, week of ${weeks[place]}: there`, load, found.names)],
  ])))
}

const weekNames = ({ weeks, timeZone }: ShopLoad): string[] => weeks.map(({ fromMs, isFromNow }) => `${dayWords(timeZone, fromMs)}${isFromNow ? ', from now' : ''}`)

function overdueWords({ buildId, name, dueMs, lateS, leftOut }: Overdue, timeZone: string): LoadData['overdue'] {
  const promised = `promised ${endDay(timeZone, dueMs)}`
  const words = [
    ...(lateS > 0 ? [`${promised}, and ${writeHours(lateS)} h of it are planned after that`] : []),
    ...(leftOut.length > 0 ? [`${promised}, and not planned: ${[...new Set(leftOut)].join(' ')}`] : []),
  ]
  return words.map((one) => ({ build: name, href: `/builds/${buildId}/schedule`, words: one }))
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
