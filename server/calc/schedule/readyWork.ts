import { groupEdges } from '../graph.ts'
import type { Edge } from '../graph.ts'
import { groupBy } from '../grouping.ts'
import type { OperationState } from '../estimate/operations.ts'

export interface WorkStep {
  readonly id: string
  /** The made part, equipment line or factory part it is on. */
  readonly ownerId: string
  /** Its place among the operations of its owner. */
  readonly number: number
  readonly state: OperationState
  /** Null where anybody can do it. */
  readonly skillId: string | null
  /** Null where nobody is named for it. */
  readonly personId: string | null
}

export interface Worker {
  readonly id: string
  readonly skillIds: ReadonlySet<string>
}

/**
 * What each operation still waits for: those that must be finished first by rule, and those with a lower
 * number on the same thing. Done ones keep nobody waiting.
 *
 * @example findWaiting([cut10, sand20], []).get('sand20') // only cut10, which is not done
 */
export function findWaiting(steps: readonly WorkStep[], rules: readonly Edge[]): Map<string, string[]> {
  const open = new Map(steps.filter(isOpen).map(step => [step.id, step]))
  const firstOf = groupEdges(rules, 'after', 'before')
  const byOwner = groupBy(open.values(), step => step.ownerId)
  return new Map([...open.values()].map(step => {
    const earlier = (byOwner.get(step.ownerId) ?? []).filter(({ number }) => number < step.number).map(({ id }) => id)
    return [step.id, [...new Set([...earlier, ...(firstOf.get(step.id) ?? []).filter(id => open.has(id))])]]
  }))
}

/**
 * The operations that somebody can take now, in listed order: not done, waiting for nothing, within the
 * person's skills, and not named for somebody else.
 */
export function listReady<Step extends WorkStep>(steps: readonly Step[], rules: readonly Edge[], worker: Worker): Step[] {
  const waiting = findWaiting(steps, rules)
  return steps.filter(step => isOpen(step) && waiting.get(step.id)?.length === 0 && canTake(step, worker))
}

function isOpen({ state }: WorkStep): boolean {
  return state !== 'done'
}

function canTake({ skillId, personId }: WorkStep, { id, skillIds }: Worker): boolean {
  if (personId !== null) return personId === id
  return skillId === null || skillIds.has(skillId)
}
