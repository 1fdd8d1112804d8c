import { listReady, type Worker, type WorkStep } from '../calc/schedule/readyWork.ts'
import type { Edge } from '../calc/graph.ts'
import type { OperationState } from '../calc/estimate/operations.ts'
import { label } from '../shared/records/kind.ts'
import type { BenchOperation } from './nowStore.ts'
import { nameOperation } from './operationName.ts'
import type { Planned } from './planned.ts'

const MOST_SHOWN = 8
const MOST_HELD_SHOWN = 3
const LATER_THAN_ANY_DATE = '9999'
const STAGES = ['intake', 'scope', 'quote', 'order', 'teardown', 'fabricate', 'wire and check', 'deliver']

export function toStep(operation: BenchOperation): WorkStep {
  return {
    id: operation.id, ownerId: (operation.part ?? operation.line ?? operation.factoryPart)?.id ?? '', number: operation.number,
    state: operation.state as OperationState, skillId: operation.skillId, personId: operation.personId,
  }
}

interface Looking {
  readonly find: string
  /** What the person is on already, which is not offered again. */
  readonly runningId: string | null
  /** What cannot be started until a sample is approved. */
  readonly heldIds: ReadonlySet<string>
  readonly plan: ReadonlyMap<string, Planned>
}

/**
 * What a person can take next: what was given to them and is in no plan, then what the plan has for them in its order, then
 * the rest by the earliest promise and the build that is furthest along, what the plan has for others after it. Where
 * something is looked for it is found whatever it waits for, except what is done. What a sample holds comes last.
 */
export function chooseNext(operations: readonly BenchOperation[], rules: readonly Edge[], worker: Worker, { find, runningId, heldIds, plan }: Looking): BenchOperation[] {
  const words = find.toLowerCase().split(/\s+/).filter((word) => word !== '')
  const byId = new Map(operations.map((operation) => [operation.id, operation]))
  const chosen = words.length > 0
    ? operations.filter((operation) => operation.state !== 'done' && hasAll(operation, words))
    : listReady(operations.map(toStep), rules, worker).flatMap(({ id }) => byId.get(id) ?? [])
  const others = chosen.filter(({ id }) => id !== runningId)
  const inOrder = others.toSorted((a, b) => rankOf(a, worker, plan) - rankOf(b, worker, plan) || byPlan(a, b, plan) || byPromise(a, b) || byStage(a, b))
  const held = inOrder.filter(({ id }) => heldIds.has(id))
  return [...inOrder.filter(({ id }) => !heldIds.has(id)).slice(0, MOST_SHOWN), ...held.slice(0, MOST_HELD_SHOWN)]
}

function hasAll(operation: BenchOperation, words: readonly string[]): boolean {
  const { item, operation: named } = nameOperation(operation)
  const text = `${item} ${named} ${label('B', operation.build.number)} ${operation.build.title}`.toLowerCase()
  return words.every((word) => text.includes(word))
}

function rankOf({ id, personId }: BenchOperation, worker: Worker, plan: Looking['plan']): number {
  const planned = plan.get(id)
  if (planned === undefined) return personId === worker.id ? 0 : 2
  return planned.isMine ? 1 : 3
}

function byPlan(a: BenchOperation, b: BenchOperation, plan: Looking['plan']): number {
  const [first, second] = [plan.get(a.id), plan.get(b.id)]
  return first?.isMine === true && second?.isMine === true ? first.startsMs - second.startsMs : 0
}

function byPromise(a: BenchOperation, b: BenchOperation): number {
  const [first, second] = [a.build.promisedOn ?? LATER_THAN_ANY_DATE, b.build.promisedOn ?? LATER_THAN_ANY_DATE]
  return first < second ? -1 : Number(first > second)
}

const byStage = (a: BenchOperation, b: BenchOperation): number => STAGES.indexOf(b.build.stage) - STAGES.indexOf(a.build.stage)
