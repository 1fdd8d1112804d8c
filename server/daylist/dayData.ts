import { randomUUID } from 'node:crypto'
import type { DayListData, DayWork, PlannedDay } from '../../web/now/dayList.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { addDays } from '../calc/calendar.ts'
import { findWaiting } from '../calc/readyWork.ts'
import { momentWords } from '../schedule/planWords.ts'
import { toStep } from '../hours/nextWork.ts'
import { listBenchOperations, listPredecessors, type BenchOperation } from '../hours/nowStore.ts'
import { inOneLine, nameOperation } from '../hours/operationName.ts'
import { loadHolds } from '../operations/heldStore.ts'
import { loadShopFacts } from '../schedule/facts.ts'
import { printOf } from '../schedule/prints.ts'
import { loadOpenDays, type OpenDays } from '../schedule/openDays.ts'
import type { PlannedWork } from '../schedule/planContent.ts'
import { loadPlanInForce } from '../schedule/planStore.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'

/** So far it is looked for the next day on which somebody is there. */
const MOST_DAYS_AHEAD = 60

interface Asked {
  readonly person: { readonly id: string, readonly name: string }
  readonly others: DayListData['people']
  readonly now: Date
}

/** The open days of the plan one person has before them. */
export async function dayListData(reads: Reads, viewer: Viewer, { person, others, now }: Asked): Promise<DayListData> {
  const isOwn = person.id === viewer.personId
  const head = { title: isOwn ? 'My day' : `Day of ${person.name}`, isOwn, people: others }
  const inForce = await loadPlanInForce(reads)
  if (inForce === null) return { ...head, noPlan: 'No plan is in force yet. Now shows what your skills can take.', takenAt: '', isStale: false, left: [], days: [] }
  const openDays = await loadOpenDays(reads, viewer.today, addDays(viewer.today, MOST_DAYS_AHEAD))
  const { timeZone } = openDays
  const [operations, rules] = [await listBenchOperations(reads), await listPredecessors(reads)]
  const own = inForce.content.work.filter(({ personIds }) => personIds.includes(person.id)).toSorted((one, other) => Date.parse(one.startsAt) - Date.parse(other.startsAt))
  const holds = await loadHolds(reads, [...new Set(operations.flatMap(({ partId }) => partId ?? []))])
  const around: Around = {
    operations: new Map(operations.map((operation) => [operation.id, operation])),
    waiting: findWaiting(operations.map(toStep), rules.map(({ earlierId, laterId }) => ({ before: earlierId, after: laterId }))),
    names: new Map([...inForce.content.people, ...inForce.content.bays, ...openDays.shopDay.machines].map(({ id, name }) => [id, name])),
    held: new Map([...holds].map(([id, { words }]) => [id, words])), running: new Set(openDays.shopDay.timers.filter(({ personId }) => personId === person.id).map(({ operationId }) => operationId)),
    personId: person.id, isOwn, timeZone,
  }
  const todayMs = openDays.days[0]!.fromMs
  const next = nextDay(openDays, person.id)
  return {
    ...head, noPlan: '', takenAt: momentWords(timeZone, inForce.takenAt.getTime()), isStale: printOf(await loadShopFacts(reads, now)) !== inForce.print,
    left: own.filter(({ endsAt, operationId }) => Date.parse(endsAt) <= todayMs && around.operations.has(operationId) && around.operations.get(operationId)!.state !== 'done').map((work) => toWork(work, null, around)),
    days: [dayOf(viewer.today, 'Today', own, openDays, around), ...(next === null ? [] : [dayOf(next, 'Then', own, openDays, around)])],
  }
}

interface Around {
  readonly operations: ReadonlyMap<string, BenchOperation>
  readonly waiting: ReadonlyMap<string, readonly string[]>
  readonly names: ReadonlyMap<string, string>
  readonly held: ReadonlyMap<string, string>
  readonly running: ReadonlySet<string>
  readonly personId: string
  readonly isOwn: boolean
  readonly timeZone: string
}

const hoursOf = ({ shopDay, times }: OpenDays, personId: string) => {
  const person = shopDay.people.find(({ id }) => id === personId)
  return person === undefined ? [] : times.hoursOf(person)
}

function nextDay(openDays: OpenDays, personId: string): string | null {
  const today = openDays.days[0]!.date
  const later = hoursOf(openDays, personId).map(({ fromMs }) => calendarDateIn(openDays.timeZone, new Date(fromMs))).find((date) => date > today)
  return later ?? null
}

function dayOf(date: string, name: string, own: readonly PlannedWork[], openDays: OpenDays, around: Around): PlannedDay {
  const day = openDays.days.find((one) => one.date === date)!
  const isThere = hoursOf(openDays, around.personId).some(({ fromMs }) => fromMs >= day.fromMs && fromMs < day.toMs)
  const isToday = date === openDays.days[0]!.date
  const work = own.flatMap((one) => {
    const hours = one.hours.map(({ fromAt, toAt }) => ({ fromMs: Date.parse(fromAt), toMs: Date.parse(toAt) })).filter(({ fromMs, toMs }) => fromMs < day.toMs && toMs > day.fromMs)
    return hours.length === 0 ? [] : [toWork(one, { times: hours.map(({ fromMs, toMs }) => `${clockTimeIn(around.timeZone, new Date(fromMs))} to ${clockTimeIn(around.timeZone, new Date(toMs))}`).join(', '), endMs: day.toMs, isToday }, around)]
  })
  return { name: `${name}, ${writeDay(date)}`, work, empty: isThere ? 'Nothing is planned for this day. Now shows what your skills can take.' : 'Not at work on this day.' }
}

interface OnDay {
  readonly times: string
  readonly endMs: number
  readonly isToday: boolean
}

function toWork(work: PlannedWork, day: OnDay | null, { operations, waiting, names, held, running, personId, isOwn, timeZone }: Around): DayWork {
  const operation = operations.get(work.operationId)
  const named = operation === undefined ? { item: work.name, itemHref: `/operations/${work.operationId}`, operation: '' } : nameOperation(operation)
  const isDone = operation === undefined || operation.state === 'done'
  const isRunning = running.has(work.operationId)
  const first = (waiting.get(work.operationId) ?? []).flatMap((id) => operations.get(id) ?? [])
  const holding = held.get(work.operationId)
  const others = work.personIds.filter((id) => id !== personId).map((id) => names.get(id) ?? 'somebody')
  const isLater = day !== null && Date.parse(work.endsAt) > day.endMs
  const mayStart = isOwn && !isDone && !isRunning && holding === undefined && (day === null || day.isToday)
  return {
    ...named, times: day?.times ?? '', build: operation === undefined ? '' : `${label('B', operation.build.number)} ${operation.build.title}`,
    where: [work.bayId === null ? 'at the bench' : names.get(work.bayId) ?? 'a bay', work.machineId === null ? '' : names.get(work.machineId) ?? 'a machine', others.length === 0 ? '' : `with ${others.join(' and ')}`].filter((words) => words !== '').join(' · '),
    notes: isDone ? [] : [
      ...(first.length === 0 ? [] : [`Waits for ${inOneLine(first[0]!)}${first.length > 1 ? ` and ${first.length - 1} more` : ''}.`]),
      ...(work.leavesAt == null ? [] : [`Then it goes out: the batch leaves on ${momentWords(timeZone, Date.parse(work.leavesAt))}.`]),
      ...(holding === undefined ? [] : [holding]), ...(isLater ? [`Goes on until ${momentWords(timeZone, Date.parse(work.endsAt))}.`] : []),
    ],
    state: isDone ? 'done' : isRunning ? 'running' : 'open',
    start: mayStart ? { action: '/timers', idempotencyKey: randomUUID(), values: [['operationId', work.operationId], ['kind', 'work']] } : undefined,
  }
}
