import type { TakingData, TakingFound } from '../../web/taking/taking.tsx'
import { writeDay } from '../../web/shared/day.ts'
import { counted } from '../../web/shared/text.ts'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { daysBetween } from '../calc/calendar.ts'
import { chanceWords } from '../schedule/planWords.ts'
import type { Limit } from '../calc/schedule/takingLimits.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { chanceOfDay, chancesOf, dayOfEnd, dayOfStart, type Answered, type Asked } from './asking.ts'
import type { Typed } from './question.ts'

interface Around {
  readonly id: string
  readonly name: string
  readonly typed: Typed
  readonly problems: readonly FieldProblem[]
}

/** The page of a question, with its answer; null while what is asked cannot be read. */
export function toTakingData(asked: Asked | null, { id, name, typed, problems }: Around): TakingData {
  const address = new URLSearchParams(Object.entries(typed).flatMap(([field, value]): [string, string][] => (value === undefined ? [] : [[field, value]])))
  const by = asked !== null && 'taking' in asked ? asked.question.by ?? '' : ''
  return {
    build: name, buildHref: `/builds/${id}`, address: address.toString(), problems, typed: { by: typed.by ?? by, from: typed.from ?? '' },
    instead: asked === null || 'taking' in asked ? null : insteadOf(asked, id), found: asked !== null && 'taking' in asked ? toFound(asked) : null,
  }
}

function insteadOf(asked: Exclude<Asked, Answered>, id: string): NonNullable<TakingData['instead']> {
  if (asked.state === 'delivered') return { words: 'This build is delivered: there is nothing left to plan.', link: null }
  if (!('endsOn' in asked)) {
    return { words: 'It has no open operation yet, so nobody can say how long it takes. Enter its made parts and equipment with their operations and hours first.', link: { href: `/builds/${id}`, name: 'To the build' } }
  }
  const end = asked.endsOn === null ? 'There is no end for it in the plan in force.' : `By the plan in force it ends on ${writeDay(asked.endsOn)}.`
  const [even, in80, in90] = (asked.chances ?? []).map(writeDay)
  const chances = even === undefined ? '' : ` Even chance by ${even}, 80 in 100 by ${in80 ?? ''}, 90 in 100 by ${in90 ?? ''}.`
  return { words: `This build takes people’s time in the plan already: it is ordered, agreed, begun, or no quote was written. ${end}${chances}`, link: { href: '/schedule', name: 'To the schedule' } }
}

function toFound(asked: Answered): TakingFound {
  const { state, facts, taking, planInForce, isStale, timeZone, question: { by } } = asked
  const { endTick, aloneTick, startTick, first } = taking
  const beside = (day: string): string => (by === null ? '' : distance(day, by))
  const row = (name: string, how: string, tick: number | null): TakingFound['ends'] => (tick === null ? [] : [{ name, how, on: writeDay(dayOfEnd(asked, tick)), beside: beside(dayOfEnd(asked, tick)) }])
  const chances = chancesOf(asked)
  const chance = chanceOfDay(asked)
  return {
    answer: answerOf(asked), startsOn: startTick === null ? null : writeDay(dayOfStart(asked, startTick)), by: by === null ? null : writeDay(by),
    ends: [
      ...row('As planned', 'end', endTick), ...(chances === null ? [] : [...row('Even chance', 'even', chances.even), ...row('80 in 100', 'in80', chances.in80), ...row('90 in 100', 'in90', chances.in90)]),
      ...row('If it goes first', 'first', first?.endTick ?? null), ...row('With the shop to itself', 'alone', aloneTick),
    ],
    chance: chance === null ? null : chanceWords(Math.round(100 * chance)), hasChances: chances !== null,
    planned: planInForce && `${writeDay(calendarDateIn(timeZone, planInForce.takenAt))}, ${clockTimeIn(timeZone, planInForce.takenAt)}`, isStale,
    cannot: state === 'cannot be planned' ? taking.leftOut.map(({ why }) => why) : [],
    limits: taking.limits.flatMap((limit) => (limit.endTick === null ? [] : [{ what: wordsOf(limit), on: writeDay(dayOfEnd(asked, limit.endTick)), gain: gainOf(asked, limit.endTick) }])),
    later: first && first.later.map(({ buildId, keptTick, thenTick, dueTick }) => {
      const [kept, then, due] = [dayOfEnd(asked, keptTick), dayOfEnd(asked, thenTick), dueTick === null ? null : dayOfEnd(asked, dueTick)]
      const late = due === null || then <= due ? '' : `${counted(daysBetween(due, then), 'day', 'days')} late${kept > due ? `, ${counted(daysBetween(due, kept), 'day', 'days')} as planned` : ''}`
      return { name: facts.builds.find(({ id }) => id === buildId)?.name ?? '', href: `/builds/${buildId}`, kept: writeDay(kept), then: then === kept ? 'later that day' : writeDay(then), due: due === null ? 'no date' : writeDay(due), late }
    }),
  }
}

function answerOf(asked: Answered): string {
  const { state, taking: { endTick, first, othersStand }, question: { by }, facts: { people }, timeZone } = asked
  if (!othersStand) return 'That cannot be said: what the shop has to do already cannot be planned as things are. The schedule says why.'
  if (state === 'cannot be planned') return 'Not as it stands: part of it cannot be planned.'
  if (endTick === null) return 'No: beside what is planned no place was found for all of it in the next half year.'
  const end = dayOfEnd(asked, endTick)
  if (by === null) return `Beside what is planned it ends on ${writeDay(end)}.`
  const isOff = !people.some(({ hours }) => hours.some(({ fromMs }) => calendarDateIn(timeZone, new Date(fromMs)) === by))
  const off = isOff ? ` Nobody is there on ${writeDay(by)} itself.` : ''
  if (end <= by) return `Yes: beside what is planned it ends on ${writeDay(end)}, ${distance(end, by)}.${off}`
  const goesFirst = first === null ? '' : dayOfEnd(asked, first.endTick) <= by ? ` If it went first it would be done by ${writeDay(dayOfEnd(asked, first.endTick))}: others give way then.` : ' Going first would not be enough either.'
  return `Not beside what is planned: it ends on ${writeDay(end)}, ${distance(end, by)}.${goesFirst}${off}`
}

function distance(day: string, by: string): string {
  const spare = daysBetween(day, by)
  return spare === 0 ? 'on the day' : spare > 0 ? `${counted(spare, 'day', 'days')} before` : `${counted(-spare, 'day', 'days')} after it`
}

function gainOf(asked: Answered, tick: number): string {
  if (asked.taking.endTick === null) return 'it would fit'
  const days = daysBetween(dayOfEnd(asked, tick), dayOfEnd(asked, asked.taking.endTick))
  return days > 0 ? `${counted(days, 'day', 'days')} earlier` : 'earlier that day'
}

function wordsOf({ what, name }: Limit): string {
  switch (what) {
    case 'skill': return name === '' ? 'One person more' : `One more who can do ${name}`
    case 'person': return `Somebody who can stand in for ${name}`
    case 'bay': return 'One bay more'
    case 'machine': return `One more ${name}`
    case 'finisher': return 'Nothing away at an outside finisher'
    case 'expected': return 'All that is expected here already'
    case 'start': return 'A start at once'
  }
}
