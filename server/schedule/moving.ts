import { counted } from '../../web/shared/text.ts'
import { addDays } from '../calc/calendar.ts'
import { listImpossible } from '../calc/schedule/impossible.ts'
import { toShopProblem, type ShopFacts, type ShopWork } from '../calc/schedule/shopProblem.ts'
import { FieldProblems } from '../shared/problems.ts'
import { calendarDateIn, clockTimeIn, instantOf } from '../shared/shopTime.ts'
import { asKept, compareKept, withWork } from './asKept.ts'
import { whyNoPlan } from './impossibleWords.ts'
import type { PlannedWork } from './planContent.ts'
import type { PlanInForce } from './planStore.ts'
import { toMovedBuild } from './movedWords.ts'

/** Where somebody would like to have an operation, as typed. */
export interface Typed {
  readonly date: string
  readonly time: string
  readonly personId: string
  readonly bayId: string
}

export interface Wish {
  readonly at: Date
  readonly personId: string | null
  readonly bayId: string | null
}

/** Reads what was typed. Throws FieldProblems. */
export function readWish({ date, time, personId, bayId }: Typed, { people, bays, fromMs }: ShopFacts, timeZone: string): Wish {
  const clock = /^([01]?\d|2[0-3]):([0-5]\d)$/.exec(time.trim())
  const isDay = /^\d{4}-\d{2}-\d{2}$/.test(date) && !Number.isNaN(Date.parse(date))
  const at = isDay && clock ? instantOf(timeZone, date, `${clock[1]!.padStart(2, '0')}:${clock[2]}`) : null
  const problems = [
    ...(isDay ? [] : [{ field: 'date', message: 'Say the day, as 2031-03-04.' }]),
    ...(clock ? [] : [{ field: 'time', message: 'Say the time of day, as 8:00 or 13:30.' }]),
    ...(at !== null && at.getTime() < fromMs ? [{ field: 'date', message: 'That is past. Choose a time that is still to come.' }] : []),
    ...(personId === '' || people.some(({ id }) => id === personId) ? [] : [{ field: 'personId', message: 'Choose somebody who is planned with, or nobody.' }]),
    ...(bayId === '' || bays.some(({ id }) => id === bayId) ? [] : [{ field: 'bayId', message: 'Choose a bay of the shop, or none.' }]),
  ]
  if (problems.length > 0 || at === null) throw new FieldProblems(problems)
  return { at, personId: personId === '' ? null : personId, bayId: bayId === '' ? null : bayId }
}

/** An operation as it is planned, and the work behind it. */
export interface Movable {
  readonly facts: ShopFacts
  readonly base: PlanInForce
  readonly work: ShopWork
  readonly planned: PlannedWork
  readonly buildId: string
  readonly timeZone: string
}

export const baysOf = ({ buildId }: Movable, { bayId }: Wish): ReadonlyMap<string, string> => new Map(bayId === null ? [] : [[buildId, bayId]])

/** What a wish breaks, sentence by sentence; empty where it breaks nothing. */
export function breaksOf(movable: Movable, wish: Wish): string[] {
  const { facts, base, work, planned, timeZone } = movable
  const { at, personId } = wish
  const person = facts.people.find(({ id }) => id === personId)
  const told: string[] = []
  if (person !== undefined && work.skill !== null && !person.skillIds.includes(work.skill.id)) told.push(`${person.name} does not have the skill ${work.skill.name}.`)
  if (person !== undefined && !person.hours.some(({ fromMs, toMs }) => fromMs <= at.getTime() && at.getTime() < toMs)) told.push(`${person.name} is not there then.`)
  const kept = asKept(facts, base, timeZone)
  for (const { operationId, waitS } of planned.after) {
    const earlier = kept?.content.work.find((one) => one.operationId === operationId)
    const overAt = earlier === undefined ? 0 : Date.parse(earlier.dueBackAt ?? earlier.endsAt) + waitS * 1000
    if (overAt > at.getTime()) told.push(`${earlier!.name} is not finished by then: it is planned until ${moment(new Date(overAt), timeZone)}${waitS > 0 ? ', with what waits after it' : ''}.`)
  }
  const wished = withWork(facts, work.id, (own) => ({ pinnedMs: at.getTime(), personId: personId ?? own.personId }))
  const then = asKept(wished, base, timeZone, baysOf(movable, wish))
  if (then === null) {
    const shop = toShopProblem(wished)
    const why = whyNoPlan({ facts: wished, shop, impossible: listImpossible(shop.problem) }, timeZone)
    return told.length > 0 ? told : why.length > 0 ? why : ['With it there the plan in force cannot be kept: everything would be planned anew.']
  }
  const placed = then.content.work.find(({ operationId }) => operationId === work.id)
  if (wish.bayId !== null && placed?.bayId !== wish.bayId) told.push('The bay is taken or closed then: the vehicle would be in another one.')
  if (kept === null) return told
  const { work: moved, builds } = compareKept(kept, then)
  const others = moved.filter(({ is, after }) => is === 'moved' && after?.operationId !== work.id)
  if (others.length > 0) told.push(`${counted(others.length, 'other operation moves', 'other operations move')}: ${others.slice(0, 5).map(({ after }) => after!.name).join('; ')}${others.length > 5 ? ' …' : ''}.`)
  for (const one of builds) {
    if (one.before === null || one.after === null || one.after <= one.before) continue
    const { name, was, is, words } = toMovedBuild(one, timeZone)
    told.push(was === is ? `${name} ends later on ${is}; its date is ${words}.` : `${name} ends on ${is}, not ${was}; its date is ${words}.`)
  }
  return told
}

/** The same time of day on the next day on which its people are there. */
export function nextWorkingDay({ facts, planned, timeZone }: Movable, from: Date): string {
  const worked = new Set(facts.people.flatMap(({ id, hours }) => (planned.personIds.length === 0 || planned.personIds.includes(id) ? hours.map(({ fromMs }) => calendarDateIn(timeZone, new Date(fromMs))) : [])))
  const today = calendarDateIn(timeZone, from)
  return Array.from({ length: 60 }, (_, later) => addDays(today, later + 1)).find((date) => worked.has(date)) ?? addDays(today, 1)
}

export const moment = (at: Date, timeZone: string): string => `${calendarDateIn(timeZone, at)} ${clockTimeIn(timeZone, at)}`
