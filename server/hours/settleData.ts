import { randomUUID } from 'node:crypto'
import type { SettleData } from '../../web/hours/settle.tsx'
import { writeDay } from '../../web/shared/day.ts'
import type { FieldProblem } from '../../web/shared/viewer.ts'
import { shopOf } from '../shared/access.ts'
import type { Reads } from '../shared/database/database.ts'
import type { Body } from '../shared/records/submission.ts'
import { calendarDateIn, clockTimeIn } from '../shared/shopTime.ts'
import { nameOperation } from './operationName.ts'
import { stopOf, type Timer } from './timers.ts'

interface Pressed {
  readonly action: string
  readonly body: Body
  readonly at: Date | null
  readonly now: Date
  readonly problems: readonly FieldProblem[]
}

/** What is asked before a running timer becomes an entry. The moment of the first press is kept. */
export async function settleData(reads: Reads, timer: Timer, { action, body, at, now, problems }: Pressed): Promise<SettleData> {
  const { timeZone } = await shopOf(reads)
  const { item, operation } = nameOperation(timer.operation)
  const asksTime = problems.some(({ field }) => field === 'time') || typed(body.time) !== ''
  const kept = ['operationId', 'kind', 'isDone'].flatMap((name) => (typed(body[name]) === '' ? [] : [[name, typed(body[name])] as const]))
  return {
    item, operation, kind: timer.kind as SettleData['kind'],
    since: `${writeDay(calendarDateIn(timeZone, timer.startedAt))} ${clockTimeIn(timeZone, timer.startedAt)}`,
    action, key: randomUUID(), hidden: [...kept, ['at', stopOf(timer, { at }, now).toISOString()]],
    time: asksTime ? typed(body.time) : undefined, why: timer.kind === 'work' ? undefined : typed(body.why), problems,
  }
}

const typed = (raw: unknown): string => (typeof raw === 'string' ? raw : '')
