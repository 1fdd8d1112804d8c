import type { Working, WorkingInput } from '../calc/amounts.ts'
import { daysBetween } from '../calc/calendar.ts'
import { sumOf } from '../calc/grouping.ts'
import { roundHalfAway } from '../calc/rounding.ts'
import { writeDay } from '../../web/shared/day.ts'
import type { Workings } from '../shared/workings.ts'
import { chanceOfDay, chancesOf, dayOfEnd, type Answered } from './asking.ts'

const PLACED = 'each operation as early as its people, its bay and what it waits for leave room between everything that is planned; of the orders tried the one that ends first'
const ASSUMED = 'All other builds stay as they are planned, and what is over its planned start comes as soon as it can. One team works an operation from start to end. Another vehicle is rolled out in between only where nothing keeps it in.'
const INSERTED = 'insertion into a schedule with all else fixed, common practice, no source'

/** What the figures of the page open: the end as planned, alone and first, even chance, 80 and 90 in 100, and the day asked about. */
export function takingWorkings(asked: Answered, today: string): Workings {
  const { build, taking, ends, facts, question } = asked
  const own: WorkingInput[] = [
    { label: 'Its open hours', source: 'estimate less what is logged, all people', amount: { kind: 'time', value: sumOf(build.work, ({ remainingS }) => remainingS) } },
    { label: 'Its open operations', source: 'recorded', amount: { kind: 'count', value: build.work.length } },
    { label: 'Cure and the like after them', source: 'recorded, each for itself', amount: { kind: 'time', value: sumOf(build.work, ({ waitS }) => waitS) } },
  ]
  const days = (title: string, tick: number, rest: Omit<Working, 'title' | 'result'>): Working =>
    ({ ...rest, title: `${title}: ${writeDay(dayOfEnd(asked, tick))}, calendar days from today`, result: { kind: 'count', value: daysBetween(today, dayOfEnd(asked, tick)) } })
  const found = new Map<string, Working>()
  if (taking.endTick !== null) found.set('end', days('Ends beside the plan', taking.endTick, { inputs: own, formula: PLACED, assumed: ASSUMED, source: INSERTED }))
  if (taking.aloneTick !== null) {
    found.set('alone', days('Ends with the shop to itself', taking.aloneTick, { inputs: own, formula: 'the same, with no other build in the shop', assumed: 'The same people, hours, bays and machines.', source: INSERTED }))
  }
  if (taking.first !== null) {
    found.set('first', days('Ends if it goes first', taking.first.endTick, {
      inputs: own, formula: 'it is placed before all others; they follow in the order of the plan, by the same people in the same bays or by whoever is free, whichever makes them less late',
      assumed: 'What is running or pinned stays.', source: 'serial schedule generation (Kelley 1963, from memory)',
    }))
  }
  const chances = chancesOf(asked)
  if (ends === null || chances === null) return found
  const cases: WorkingInput[] = [
    ...own, { label: 'Operations whose hours are unsure', source: 'three values, or the shop’s own hours', amount: { kind: 'count', value: build.work.filter(({ remainingCasesS }) => remainingCasesS.length > 0).length } },
    { label: 'Cases', source: 'drawn', amount: { kind: 'count', value: ends.length } },
    { label: 'Go wrong together', source: 'shop settings', amount: { kind: 'share', value: facts.togetherThousandths } },
  ]
  const rest = { inputs: cases, assumed: 'Hours of the other builds run over as well, and this one waits for them; people, bays and order stay those of the plan. Work with neither three values nor closed operations of its kind is taken as sure, so that real chances are wider.', source: 'simulation of a schedule with drawn durations, common practice, no source' }
  for (const [key, words, tick] of [['even', 'half', chances.even], ['in80', '80 in 100', chances.in80], ['in90', '90 in 100', chances.in90]] as const) {
    found.set(key, days(`${words} of all cases have ended`, tick, { ...rest, formula: `the day by which it has ended in ${words} of all cases` }))
  }
  const chance = chanceOfDay(asked)
  if (chance !== null && question.by !== null) {
    found.set('by', { ...rest, title: `Ended by ${writeDay(question.by)}`, result: { kind: 'share', value: roundHalfAway(1000 * chance) }, formula: 'cases that have ended by the end of that day ÷ all cases' })
  }
  return found
}
