import type { Working } from '../calc/amounts.ts'
import { costOperations } from '../calc/costing/costRows.ts'
import { estimateLabor } from '../calc/estimate/estimate.ts'
import type { LaborInput } from '../calc/estimate/operations.ts'
import { Refusal } from '../calc/refusal.ts'
import { chainEntries, type TimeEntry } from '../calc/hours/timeEntries.ts'
import { remainingOfOperation } from '../operations/remainingWorking.ts'
import { ratioFor, toOperation } from '../operations/toOperation.ts'
import { label } from '../shared/records/kind.ts'
import type { BenchOperation, Trees } from './nowStore.ts'

/** Person-seconds of one operation, or why they cannot be told. */
export interface BenchFigures {
  readonly estimateS: number
  /** Work and rework of everybody. */
  readonly loggedS: number
  readonly remainingS: number
  readonly refusal: string
  /** How the estimate comes about; null where it cannot be told. */
  readonly estimate: Working | null
  /** How the remaining time comes about; null where it cannot be told. */
  readonly remaining: Working | null
}

/** The figures of operations as the build's costing has them, build by build. */
export function toBenchFigures(operations: readonly BenchOperation[], trees: Trees, entries: readonly TimeEntry[]): Map<string, BenchFigures> {
  const figures = new Map<string, BenchFigures>()
  for (const buildId of new Set(operations.map((operation) => operation.buildId))) {
    const own = operations.filter((operation) => operation.buildId === buildId)
    for (const [id, figure] of figuresOfBuild(own, treeOf(trees, buildId), entries)) figures.set(id, figure)
  }
  return figures
}

function figuresOfBuild(operations: readonly BenchOperation[], tree: Trees, entries: readonly TimeEntry[]): [string, BenchFigures][] {
  try {
    const { operations: estimates } = estimateLabor(toLaborInput(operations, tree))
    const workings = new Map(estimates.map(({ operation, working }) => [operation.id, working]))
    const ids = new Set(operations.map(({ id }) => id))
    const chains = chainEntries(entries.filter(({ operationId }) => operationId !== null && ids.has(operationId)))
    return costOperations(estimates, chains, 'nothing until done').map((costing) => [costing.operation.id, {
      estimateS: costing.figures.estimatedS, loggedS: costing.figures.loggedS, remainingS: costing.figures.remainingS, refusal: '',
      estimate: workings.get(costing.operation.id) ?? null, remaining: remainingOfOperation(costing),
    }])
  } catch (error) {
    // One build's absurd quantity must not keep everybody from their page.
    if (!(error instanceof Refusal)) throw error
    return operations.map(({ id }) => [id, { estimateS: 0, loggedS: 0, remainingS: 0, refusal: error.message, estimate: null, remaining: null }])
  }
}

function treeOf({ parts, uses, corrections }: Trees, buildId: string): Trees {
  const own = parts.filter((part) => part.buildId === buildId)
  const known = new Set(own.map(({ id }) => id))
  return { parts: own, uses: uses.filter((use) => use.buildId === buildId && known.has(use.parentId) && known.has(use.partId)), corrections: corrections.filter((correction) => correction.buildId === buildId) }
}

// Money plays no part at the bench: rates of nothing.
function toLaborInput(operations: readonly BenchOperation[], { parts, uses, corrections }: Trees): LaborInput {
  const departments = new Map(operations.map(({ departmentId, department }) => [departmentId, department]))
  return {
    parts: parts.map((part) => ({ ...part, number: label('P', part.number) })),
    partUses: uses,
    equipment: operations.flatMap(({ line }) => (line ? [line] : [])).map((line) => ({
      id: line.id, number: label('E', line.number), name: line.name, zoneId: null, quantity: line.quantity, suppliedBy: 'shop' as const,
      costMinor: 0, priceMinor: 0, leadDays: 0, expectedOn: null,
    })),
    factoryParts: operations.flatMap(({ factoryPart }) => (factoryPart ? [factoryPart] : [])).map((part) => ({
      id: part.id, number: label('F', part.number), name: part.name, zoneId: null,
    })),
    zones: [],
    departments: [...departments].map(([id, { reworkAllowance }]) => ({ id, name: '', costRateMinor: 0, sellRateMinor: 0, reworkThousandths: reworkAllowance })),
    operations: operations.map((operation) => toOperation(operation, {
      partId: operation.part?.id ?? null, equipmentLineId: operation.line?.id ?? null, factoryPartId: operation.factoryPart?.id ?? null,
      // What is accepted for a build is not for its service visits.
    }, operation.visit === null ? ratioFor(operation, corrections) : null)),
  }
}
