import { randomUUID } from 'node:crypto'
import type { DayListData, DayWork } from '../../web/now/dayList.tsx'
import { writeDay } from '../../web/shared/day.ts'
import { inOneLine, nameOperation } from '../hours/operationName.ts'
import { momentWords } from '../schedule/planWords.ts'
import { label } from '../shared/records/kind.ts'
import { clockTimeIn } from '../shared/shopTime.ts'
import type { DayItem, DayOfPlan, PersonDay } from './dayRead.ts'

interface Seen {
  readonly person: { readonly id: string, readonly name: string }
  readonly others: DayListData['people']
  readonly isOwn: boolean
}

/** The day list of a person as its page shows it. */
export function toDayList(found: PersonDay | null, { person, others, isOwn }: Seen): DayListData {
  const head = { title: isOwn ? 'My day' : `Day of ${person.name}`, isOwn, people: others }
  if (found === null) return { ...head, noPlan: 'No plan is in force yet. Now shows what your skills can take.', takenAt: '', isStale: false, isRunning: false, left: [], days: [] }
  const { timeZone, inForce, isStale, left, days } = found
  const words = (item: DayItem, day: DayOfPlan | null, isToday: boolean): DayWork => toWork(item, day, { found, personId: person.id, mayStart: isOwn && (day === null || isToday) })
  return {
    ...head, noPlan: '', isRunning: found.isRunning, takenAt: momentWords(timeZone, inForce.takenAt.getTime()), isStale,
    left: left.map((item) => words(item, null, false)),
    days: days.map((day, place) => ({
      name: `${place === 0 ? 'Today' : 'Then'}, ${writeDay(day.date)}`, work: day.items.map((item) => words(item, day, place === 0)),
      away: !day.isThere && day.items.length > 0 ? 'Not at work on this day, though the plan has this:' : '',
      empty: day.isThere ? 'Nothing is planned for this day. Now shows what your skills can take.' : 'Not at work on this day.',
    })),
  }
}

interface Around {
  readonly found: PersonDay
  readonly personId: string
  readonly mayStart: boolean
}

function toWork({ work, hours, operation, state, waitsFor: [first, ...more], held }: DayItem, day: DayOfPlan | null, { found: { names, timeZone }, personId, mayStart }: Around): DayWork {
  const named = operation === null ? { item: work.name, itemHref: `/operations/${work.operationId}`, operation: '' } : nameOperation(operation)
  const others = work.personIds.filter((id) => id !== personId).map((id) => names.get(id) ?? 'somebody')
  const clock = (at: number): string => clockTimeIn(timeZone, new Date(at))
  const isLater = day !== null && Date.parse(work.endsAt) > day.toMs
  return {
    ...named, state, times: hours.map(({ fromMs, toMs }) => `${clock(fromMs)} to ${clock(toMs)}`).join(', '), build: operation === null ? '' : `${label('B', operation.build.number)} ${operation.build.title}`,
    where: [work.bayId === null ? 'at the bench' : names.get(work.bayId) ?? 'a bay', work.machineId === null ? '' : names.get(work.machineId) ?? 'a machine', others.length === 0 ? '' : `with ${others.join(' and ')}`].filter((words) => words !== '').join(' · '),
    notes: state === 'done' ? [] : [
      ...(first === undefined ? [] : [`Waits for ${inOneLine(first)}${more.length > 0 ? ` and ${more.length} more` : ''}.`]),
      ...(work.leavesAt == null ? [] : [`Then it goes out: the batch leaves on ${momentWords(timeZone, Date.parse(work.leavesAt))}.`]),
      ...(held === '' ? [] : [held]), ...(isLater ? [`Goes on until ${momentWords(timeZone, Date.parse(work.endsAt))}.`] : []),
    ],
    start: mayStart && state === 'open' && held === '' ? { action: '/timers', idempotencyKey: randomUUID(), values: [['operationId', work.operationId], ['kind', 'work']] } : undefined,
  }
}
