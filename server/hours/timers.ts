import type { FieldProblem } from '../../web/shared/viewer.ts'
import { formatQuantity } from '../calc/figures.ts'
import { audit, type Actor } from '../shared/audit.ts'
import type { Reads, Write } from '../shared/database/database.ts'
import { findHold } from '../operations/heldStore.ts'
import { FieldProblems, HeldProblem, notFound, Problem } from '../shared/problems.ts'
import { getKind } from '../shared/records/kind.ts'
import { changeRecord } from '../shared/records/table.ts'
import { store } from './entries.ts'
import { missingWhy, type TimeKind } from './forms.ts'
import { OPERATION_NAME, nameOperation } from './operationName.ts'
import type { LoggedEntry } from './store.ts'

/** Nobody works longer at a stretch: somebody forgot to stop. */
export const LONGEST_STRETCH_S = 16 * 3600

const TIMER = {
  personId: true, buildId: true, operationId: true, kind: true, startedAt: true, operation: { select: OPERATION_NAME },
} as const

export type Timer = NonNullable<Awaited<ReturnType<typeof findTimer>>>

/** A person has one timer at most. */
export function findTimer(client: Reads | Write, personId: string) {
  return client.timer.findUnique({ where: { personId }, select: TIMER })
}

/** What a stop answers beside the press itself. */
export interface Settlement {
  readonly why: string
  /** Hours really worked, in seconds, where the timer cannot be believed. */
  readonly time: number | null
  /** When Stop was pressed, where a question came after the press. */
  readonly at: Date | null
}

export interface Timing {
  readonly timer: Timer | null
  /** What stopping or switching wrote; null where nothing ran, or for less than a second. */
  readonly entry: LoggedEntry | null
}

/** Starts a timer, or switches to it: what ran before is written down first. */
export async function startTimer(
  write: Write, actor: Actor, wanted: { operationId: string; kind: TimeKind }, settlement: Settlement,
): Promise<Timing> {
  const personId = personOf(actor)
  const operation = await write.operation.findFirst({ where: { id: wanted.operationId, removedAt: null, build: { removedAt: null } }, select: OPERATION_NAME })
  if (!operation) throw notFound('operation')
  const { item, operation: words } = nameOperation(operation)
  if (operation.state === 'done') {
    throw new Problem(409, 'This operation is done', `${item}, ${words}, is marked done. Set it back to running on its own page if there is more to do, or start another.`)
  }
  const running = await findTimer(write, personId)
  if (running?.operationId === wanted.operationId && running.kind === wanted.kind) return { timer: running, entry: null }
  await refuseHeld(write, operation, wanted.kind)
  const stoppedAt = running ? stopOf(running, settlement, actor.now) : actor.now
  const entry = running ? await settle(write, actor, running, settlement) : null
  const timer = { buildId: operation.buildId, operationId: operation.id, kind: wanted.kind, startedAt: stoppedAt }
  await write.timer.upsert({ where: { personId }, create: { personId, ...timer }, update: timer })
  await audit(write, actor, { action: `timer started: ${wanted.kind}`, recordKind: 'operation', recordId: operation.id })
  await setStarted(write, actor, operation, wanted.kind)
  return { timer: await findTimer(write, personId), entry }
}

/** Stops the timer and writes its entry; where the operation is done, that too, or neither. */
export async function stopTimer(
  write: Write, actor: Actor, stop: { operationId: string | null; isDone: boolean }, settlement: Settlement,
): Promise<Timing> {
  const running = await findTimer(write, personOf(actor))
  if (!running) throw new Problem(409, 'Nothing is running', 'The timer was stopped already, perhaps on another phone. What it logged stands under Now and My hours.')
  if (stop.operationId && stop.operationId !== running.operationId) {
    const { item, operation } = nameOperation(running.operation)
    throw new Problem(409, 'Another timer runs now', `Since then ${item}, ${operation}, was started, perhaps on another phone. Nothing was stopped: open Now again.`)
  }
  const entry = await settle(write, actor, running, settlement)
  await write.timer.delete({ where: { personId: running.personId } })
  await audit(write, actor, { action: 'timer stopped', recordKind: 'operation', recordId: running.operationId })
  if (stop.isDone) await setState(write, actor, running.operation, 'done')
  return { timer: null, entry }
}

type Wanted = Pick<Timer['operation'], 'id' | 'kind' | 'part' | 'line' | 'factoryPart' | 'number' | 'work'>

/** Waiting for the sample can be timed; working on what the customer has not approved cannot. */
async function refuseHeld(write: Write, operation: Wanted, kind: TimeKind): Promise<void> {
  const hold = operation.part && kind !== 'waiting' ? await findHold(write, { id: operation.id, partId: operation.part.id, kind: operation.kind }) : null
  if (!hold) return
  const { item, operation: words } = nameOperation(operation)
  throw new HeldProblem('The sample is not approved', `${item}, ${words}, was not started. ${hold.words}`, { href: hold.href, name: `Open ${hold.name}` })
}

function personOf(actor: Actor): string {
  if (!actor.personId) throw new Error('a timer belongs to a person')
  return actor.personId
}

async function settle(write: Write, actor: Actor, timer: Timer, settlement: Settlement): Promise<LoggedEntry | null> {
  const measured = Math.floor((stopOf(timer, settlement, actor.now).getTime() - timer.startedAt.getTime()) / 1000)
  const isBelievable = measured >= 0 && measured <= LONGEST_STRETCH_S
  const problems = [
    ...(isBelievable || settlement.time !== null ? [] : [unbelievable(measured)]),
    ...missingWhy({ kind: timer.kind, why: settlement.why }),
  ]
  if (problems.length > 0) throw new FieldProblems(problems)
  const time = isBelievable ? measured : (settlement.time ?? 0)
  if (time === 0) return null
  const { buildId, operationId, kind, startedAt, personId } = timer
  return store(write, { buildId, operationId, kind, why: settlement.why, time, startedAt }, { actor, personId }, null)
}

/** When a timer stopped: at the press that led to a question, if that lies in its time, else now. */
export function stopOf(timer: Pick<Timer, 'startedAt'>, { at }: Pick<Settlement, 'at'>, now: Date): Date {
  return at && at >= timer.startedAt && at <= now ? at : now
}

function unbelievable(measured: number): FieldProblem {
  if (measured < 0) return { field: 'time', message: 'The clock stands before the start of this timer: it was set back. Enter the hours really worked.' }
  return { field: 'time', message: `This timer ran ${formatQuantity(measured, 'time', 'metric')}, longer than anybody works at a stretch. Enter the hours really worked.` }
}

type Standing = Pick<Timer['operation'], 'id' | 'state' | 'version'>

async function setStarted(write: Write, actor: Actor, operation: Standing, kind: TimeKind): Promise<void> {
  if (kind === 'waiting') return setState(write, actor, operation, 'waiting')
  if (operation.state === 'not started' || operation.state === 'waiting') await setState(write, actor, operation, 'running')
}

async function setState(write: Write, actor: Actor, { id, version, state }: Standing, to: string): Promise<void> {
  if (state === to) return
  await changeRecord(write, getKind('operation'), id, version, { values: { state: to }, entered: {} }, actor)
}
