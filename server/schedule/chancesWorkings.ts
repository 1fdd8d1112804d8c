import type { Working, WorkingInput } from '../calc/amounts.ts'
import { daysBetween } from '../calc/calendar.ts'
import { calendarDateIn } from '../shared/shopTime.ts'
import type { Workings } from '../shared/workings.ts'
import { CASES, STEPS_KEPT, type PlanContent } from './planContent.ts'
import { dayOf, dayWords } from './proposals.ts'

const ASSUMED = 'People, bays and order stay those of the plan; unsure work takes longer or shorter by its three values or as the shop’s closed operations of its kind did, and much of it runs over together. Work with neither is taken as sure, so that real chances are wider.'
const SOURCE = 'simulation of a schedule with drawn durations, common practice, no source'
const MARKS = [['e', 'even', 'half'], ['f', 'in80', '80 in 100'], ['g', 'in90', '90 in 100']] as const

/** What chances open, by the place of the build in the plan: e3 its even chance, f3 80 and g3 90 in 100, k3 its promise, b3 the day asked for, d3-1 what it hangs most on. */
export function chancesWorkings({ builds, work, fromAt }: PlanContent, timeZone: string): Workings {
  const names = new Map(work.map(({ operationId, name }) => [operationId, name]))
  const days = (instant: string): WorkingInput['amount'] => ({ kind: 'count', value: daysBetween(calendarDateIn(timeZone, new Date(fromAt)), dayOf(instant, timeZone)) })
  return new Map(builds.flatMap(({ buildId, name, chances, dueAt, steps = [], drivers = [] }, place): [string, Working][] => {
    if (chances === null) return []
    const all: WorkingInput[] = [
      { label: 'Cases', source: 'drawn, always the same', amount: { kind: 'count', value: CASES } },
      { label: 'Operations of it in the plan', source: 'plan in force', amount: { kind: 'count', value: work.filter((one) => one.buildId === buildId).length } },
    ]
    const rest = { assumed: ASSUMED, source: SOURCE }
    const kept = steps.map((step, at): WorkingInput => ({ label: `Ended in ${(at + 1) * 100 / (STEPS_KEPT + 1)} of 100 cases by ${dayWords(step, timeZone)}`, source: 'calendar days from the beginning of the plan', amount: days(step) }))
    return [
      ...MARKS.map(([letter, mark, words]): [string, Working] => [`${letter}${place}`, {
        ...rest, title: `${name}: ended in ${words} of all cases by ${dayWords(chances[mark], timeZone)}, calendar days from the beginning of the plan`, inputs: [...all, ...kept], result: days(chances[mark]), formula: `the day by which it has ended in ${words} of all cases`,
      }]),
      ...(chances.kept === null || dueAt === null ? [] : [[`k${place}`, {
        ...rest, title: `${name}: ended by ${dayWords(dueAt, timeZone)}`, inputs: [...all, ...kept], result: { kind: 'share', value: 10 * chances.kept }, formula: 'cases that have ended by the end of the day promised ÷ all cases',
      }] satisfies [string, Working]]),
      ...drivers.map(({ operationId, share }, at): [string, Working] => [`d${place}-${at}`, {
        ...rest, title: `${name}: hangs on ${names.get(operationId) ?? 'work of another build'}`, inputs: all, result: { kind: 'share', value: share }, formula: 'square of the correlation of its hours with the end of the build, over all cases', assumed: `${ASSUMED} Nights and days off lie between hours and the end, so that even what alone decides it stays below 100 %.`, source: 'share of variance explained by one input, common practice, no source',
      }]),
    ]
  }))
}
