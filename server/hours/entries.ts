import { formatQuantity } from '../calc/figures.ts'
import { audit, changesBetween, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { findHold } from '../operations/heldStore.ts'
import { FieldProblems, invalid, notFound, Problem } from '../shared/problems.ts'
import { calendarDateIn, instantOf } from '../shared/shopTime.ts'
import { dayIn } from './days.ts'
import type { Typed } from './forms.ts'
import { findEntry, listEffective, type LoggedEntry } from './store.ts'

const DAY_S = 24 * 3600

/** Whose hours, by whom, and where the days begin. */
interface Writing {
  readonly actor: Actor
  readonly personId: string
  readonly timeZone: string
}

/** Logs hours after the fact. They carry their day, not a time of day: they begin as the day does. */
export async function createEntry(write: Write, typed: Typed, writing: Writing): Promise<LoggedEntry> {
  const operation = await getOperation(write, typed.operationId)
  await refuseHeld(write, operation, typed)
  await refuseStranger(write, writing.personId)
  await refuseLongDay(write, typed, writing, null)
  return store(write, { ...typed, buildId: operation.buildId, startedAt: instantOf(writing.timeZone, typed.date, '00:00') }, writing, null)
}

/** Writes what should have stood there. The first entry stays as it was and is shown beside it. */
export async function correctEntry(write: Write, before: LoggedEntry, typed: Typed, writing: Writing): Promise<LoggedEntry> {
  if (before.correctedBy) throw new Problem(409, 'Corrected already', 'Somebody corrected this entry before you. Open My hours and correct what stands there now.')
  const operation = await getOperation(write, typed.operationId)
  if (operation.buildId !== before.buildId) throw invalid('operationId', 'That operation belongs to another build. Take these hours back with 0 and log them there.')
  if (operation.id !== before.operationId) await refuseHeld(write, operation, typed)
  await refuseLongDay(write, typed, writing, before.id)
  const isSameDay = calendarDateIn(writing.timeZone, before.startedAt) === typed.date
  const startedAt = isSameDay ? before.startedAt : instantOf(writing.timeZone, typed.date, '00:00')
  return store(write, { ...typed, buildId: before.buildId, startedAt }, writing, before)
}

interface Logged {
  readonly id: string
  readonly buildId: string
  readonly partId: string | null
  readonly kind: string
  readonly state: string
}

async function getOperation(write: Write, id: string): Promise<Logged> {
  const operation = await write.operation.findFirst({
    where: { id, removedAt: null, build: { removedAt: null } }, select: { id: true, buildId: true, partId: true, kind: true, state: true },
  })
  if (!operation) throw invalid('operationId', 'There is no such operation. Choose one from the list.')
  return operation
}

// What is done was begun in its time: hours and rework on it are what happened. Taking hours back begins nothing.
async function refuseHeld(write: Write, { id, partId, kind, state }: Logged, typed: Typed): Promise<void> {
  if (partId === null || state === 'done' || typed.kind === 'waiting' || typed.time === 0) return
  const hold = await findHold(write, { id, partId, kind })
  if (hold) throw invalid('operationId', hold.words, { href: hold.href, name: `Open ${hold.name}` })
}

async function refuseStranger(write: Write, personId: string): Promise<void> {
  const count = await write.person.count({ where: { id: personId, removedAt: null } })
  if (count === 0) throw invalid('personId', 'Whose hours: there is no such person. Choose one from the list.')
}

// A day has 24 hours for everybody, whatever was logged before.
async function refuseLongDay(write: Write, typed: Typed, { personId, timeZone }: Writing, correctedId: string | null): Promise<void> {
  const { from, to } = dayIn(timeZone, typed.date)
  const others = (await listEffective(write, personId, from, to)).filter(({ id }) => id !== correctedId)
  const logged = others.reduce((sum, { seconds }) => sum + seconds, 0)
  if (logged + typed.time <= DAY_S || typed.time === 0) return
  const there = formatQuantity(logged, 'time', 'metric')
  throw invalid('time', `With the ${there} already logged on ${typed.date} that day would have more than 24 h. Check the date, or correct what is there.`)
}

export interface NewEntry {
  readonly buildId: string
  readonly operationId: string
  readonly kind: string
  readonly why: string
  readonly time: number
  readonly startedAt: Date
}

export async function store(write: Write, entry: NewEntry, { actor, personId }: Pick<Writing, 'actor' | 'personId'>, corrects: LoggedEntry | null): Promise<LoggedEntry> {
  const data = {
    buildId: entry.buildId, operationId: entry.operationId, personId, kind: entry.kind, startedAt: entry.startedAt,
    seconds: entry.time, why: entry.why,
  }
  // A correction is later than what it corrects, also when the clock was set back in between.
  const createdAt = corrects && corrects.createdAt >= actor.now ? new Date(corrects.createdAt.getTime() + 1) : actor.now
  const { id } = await write.timeEntry.create({
    data: { ...data, createdAt, correctsId: corrects?.id ?? null, enteredById: actor.personId ?? personId }, select: { id: true },
  })
  await audit(write, actor, {
    action: corrects ? 'corrected' : 'logged', recordKind: 'time entry', recordId: id,
    changes: changesBetween(corrects as unknown as Record<string, unknown> | null, data),
  })
  return getEntry(write, id)
}

/** An entry by id. Throws a 404 where there is none. */
export async function getEntry(client: Reads | Write, id: string): Promise<LoggedEntry> {
  const entry = await findEntry(client, id)
  if (!entry) throw notFound('time entry')
  return entry
}

/** The entry for somebody who may correct it: its own person, or a manager. To others it is not there. */
export async function getOwnEntry(client: Reads | Write, id: string, viewer: { personId: string; mayCorrectAll: boolean }): Promise<LoggedEntry> {
  const entry = await getEntry(client, id)
  if (entry.personId !== viewer.personId && !viewer.mayCorrectAll) throw notFound('time entry')
  return entry
}

export const isAboutWhyOrTime = (error: unknown): error is FieldProblems =>
  error instanceof FieldProblems && error.fields.every(({ field }) => field === 'why' || field === 'time')
