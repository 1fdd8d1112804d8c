import { randomUUID } from 'node:crypto'
import type { LogLine, NextWork, NowData, RunningWork } from '../../web/now/now.tsx'
import type { PostProps } from '../../web/shared/post.tsx'
import { writeHours } from '../../web/shared/amount.ts'
import type { Viewer } from '../../web/shared/viewer.ts'
import { cautionsFor, isTrigger, triggersOfOperation, triggersOfVehicle, triggersOfZone } from '../calc/removal/cautions.ts'
import { findWaiting } from '../calc/schedule/readyWork.ts'
import { loadHolds, type Hold } from '../operations/heldStore.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import { label } from '../shared/records/kind.ts'
import { clockTimeIn } from '../shared/shopTime.ts'
import { toBenchFigures, type BenchFigures } from './benchFigures.ts'
import { dayIn, whenIn } from './days.ts'
import { TIME_KINDS, type TimeKind } from './forms.ts'
import { chooseNext, toStep } from './nextWork.ts'
import { findOperation, listBenchOperations, listPredecessors, loadTrees, skillsOf, type BenchOperation } from './nowStore.ts'
import { inOneLine, nameOperation } from './operationName.ts'
import type { PlanFor } from './planned.ts'
import { runningWorkings, stillToDo } from './runningWords.ts'
import { findEntry, listEffective, loadOperationEntries, type LoggedEntry } from './store.ts'
import { findTimer, type Timer } from './timers.ts'

interface Asked {
  readonly find: string
  /** The entry that was just written, to say so. */
  readonly logged: string | null
  /** The operation whose remaining time was just noted. */
  readonly left: string | null
  readonly now: Date
  readonly planFor: PlanFor
}

/** All that a person's page of the moment shows. */
export async function nowData(reads: Reads, viewer: Viewer, asked: Asked): Promise<NowData> {
  const { personId } = viewer
  const { timeZone } = await shopOf(reads)
  const timer = await findTimer(reads, personId)
  const [running, operations, rules, skillIds, today] = await Promise.all([
    timer ? findOperation(reads, timer.operationId) : null, listBenchOperations(reads), listPredecessors(reads), skillsOf(reads, personId),
    entriesOf(reads, personId, timeZone, viewer.today),
  ])
  const edges = rules.map(({ earlierId, laterId }) => ({ before: earlierId, after: laterId }))
  const holds = await loadHolds(reads, [...new Set(operations.flatMap(({ partId }) => partId ?? []))])
  const plan = await asked.planFor(reads, personId, viewer.today)
  const next = chooseNext(operations, edges, { id: personId, skillIds }, { find: asked.find, runningId: timer?.operationId ?? null, heldIds: new Set(holds.keys()), plan })
  const shown = running ? [running, ...next] : next
  const figures = await figuresOf(reads, shown)
  const waiting = findWaiting(operations.map(toStep), edges)
  const byId = new Map(operations.map((operation) => [operation.id, operation]))
  const first = shown.find(({ id }) => id === running?.id || !holds.has(id))
  return {
    running: timer && running ? toRunning(timer, running, figures.get(running.id), timeZone, asked.now) : null,
    cautions: first ? cautionsOf(first) : [],
    next: next.map((operation) => toNext(operation, figures.get(operation.id), (waiting.get(operation.id) ?? []).flatMap((id) => byId.get(id) ?? []), holds.get(operation.id), plan.get(operation.id)?.words ?? '')),
    today: today.map((entry) => toLine(entry, timeZone)),
    teardowns: teardownsOf(shown),
    logHref: '/hours/new', myHoursHref: '/hours', find: { action: '/now', text: asked.find },
    saved: (await saidOf(reads, viewer, asked.logged)) ?? (running && running.id === asked.left ? leftSaid(running, viewer) : undefined),
  }
}

/** The builds that are being taken apart, by what runs and what can be taken next. */
function teardownsOf(operations: readonly BenchOperation[]): NowData['teardowns'] & object {
  const builds = new Map(operations.filter(({ kind, build }) => kind === 'take out' || build.stage === 'teardown').map(({ build }) => [build.id, build.number]))
  return [...builds].map(([id, number]) => ({ name: `Teardown of ${label('B', number)}`, href: `/builds/${id}/teardown` }))
}

async function figuresOf(reads: Reads, operations: readonly BenchOperation[]): Promise<Map<string, BenchFigures>> {
  const buildIds = [...new Set(operations.map(({ buildId }) => buildId))]
  const [trees, entries] = await Promise.all([loadTrees(reads, buildIds), loadOperationEntries(reads, operations.map(({ id }) => id))])
  return toBenchFigures(operations, trees, entries)
}

async function entriesOf(reads: Reads, personId: string, timeZone: string, date: string): Promise<LoggedEntry[]> {
  const { from, to } = dayIn(timeZone, date)
  return (await listEffective(reads, personId, from, to)).filter(({ seconds }) => seconds > 0).reverse()
}

async function saidOf(reads: Reads, viewer: Viewer, logged: string | null): Promise<NowData['saved']> {
  const entry = logged ? await findEntry(reads, logged) : null
  if (!entry || entry.personId !== viewer.personId) return undefined
  return {
    what: `${writeHours(entry.seconds, 2)} h ${entry.kind} on ${inOneLine(entry.operation)}`, csrfToken: viewer.csrfToken,
    next: { href: `/hours/${entry.id}/correction`, name: 'Correct it' },
  }
}

function leftSaid(operation: BenchOperation, { csrfToken }: Viewer): NowData['saved'] {
  const left = operation.remaining === null ? 'what is left goes by the estimate' : `${writeHours(operation.remaining, 2)} h still to do`
  return { what: `${left} on ${inOneLine(operation)}`, csrfToken }
}

const post = (action: string, values: PostProps['values'] & object): PostProps => ({ action, idempotencyKey: randomUUID(), values })

const startOf = (operationId: string, kind: TimeKind): PostProps => post('/timers', [['operationId', operationId], ['kind', kind]])

function toRunning(timer: Timer, operation: BenchOperation, figures: BenchFigures | undefined, timeZone: string, now: Date): RunningWork {
  const { item, itemHref, operation: words } = nameOperation(operation)
  const elapsed = timer.kind === 'waiting' ? 0 : Math.max(0, Math.floor((now.getTime() - timer.startedAt.getTime()) / 1000))
  const own = [['operationId', operation.id]] as const
  return {
    build: nameOfBuild(operation), item, itemHref, operation: words, kind: timer.kind as TimeKind,
    since: clockTimeIn(timeZone, timer.startedAt), startedAt: timer.startedAt.toISOString(), now: now.toISOString(),
    logged: (figures?.loggedS ?? 0) + elapsed, estimate: figures?.estimateS ?? 0, workings: runningWorkings(figures, elapsed, clockTimeIn(timeZone, timer.startedAt)), ...stillToDo(operation, figures, elapsed),
    stop: post('/timer-stops', own), done: post('/timer-stops', [...own, ['isDone', 'yes']]),
    left: {
      post: post(`/operations/${operation.id}/states`, []), value: operation.remaining === null ? '' : writeHours(operation.remaining, 2),
    },
    answers: TIME_KINDS.filter((kind) => kind !== timer.kind).map((kind) => ({ kind, post: startOf(operation.id, kind) })),
  }
}

function toNext(operation: BenchOperation, figures: BenchFigures | undefined, waitsFor: readonly BenchOperation[], heldBy: Hold | undefined, planned: string): NextWork {
  const { item, itemHref, operation: words } = nameOperation(operation)
  return {
    item, itemHref, operation: words, build: nameOfBuild(operation), planned,
    remaining: figures?.remaining ?? null, key: operation.id, waitsFor: [...waitsInWords(operation, waitsFor), figures?.refusal ?? ''].filter((text) => text !== '').join(' '),
    ...(heldBy ? { heldBy } : { start: startOf(operation.id, 'work') }),
  }
}

function nameOfBuild({ build, visit }: BenchOperation): string {
  return [`${label('B', build.number)} ${build.title}`, visit ? `service visit ${label('W', visit.number)}` : ''].filter((text) => text !== '').join(', ')
}

function waitsInWords(operation: BenchOperation, [first, ...others]: readonly BenchOperation[]): string[] {
  if (first) return [`Waits for ${inOneLine(first)}${others.length > 0 ? ` and ${others.length} more` : ''}.`]
  return operation.state === 'waiting' ? ['Marked waiting: look whether it can go on.'] : []
}

/** What can hurt at this operation: by its kind, what it is on, where that is, and the vehicle. */
function cautionsOf(operation: BenchOperation): NowData['cautions'] {
  const thing = operation.part ?? operation.line ?? operation.factoryPart
  const { vehicle } = operation.build
  const triggers = [
    ...triggersOfOperation(`${operation.kind} ${operation.work}`), ...(thing?.cautions.split(',').filter(isTrigger) ?? []),
    ...triggersOfZone(thing?.zone.place ?? ''), ...triggersOfVehicle(vehicle.energy),
  ]
  return cautionsFor(triggers, { batteryWaitS: vehicle.airbagWait }).map(({ signalWord, title, text }) => ({ signal: signalWord, title, text }))
}

function toLine(entry: LoggedEntry, timeZone: string): LogLine {
  return { when: whenIn(timeZone, entry), what: inOneLine(entry.operation), kind: entry.kind as TimeKind, seconds: entry.seconds }
}
