import type { Working } from '../calc/amounts.ts'
import type { Costing } from '../calc/costing/costing.ts'
import type { OperationCosting } from '../calc/costing/costRows.ts'
import type { CostFigures } from '../calc/costing/costSums.ts'
import { groupBy } from '../calc/grouping.ts'

const SOURCE = 'common practice, no source'

type Column = readonly [letter: string, name: string, of: (figures: CostFigures) => number]

const COLUMNS: readonly Column[] = [
  ['e', 'person-hours estimated', ({ estimatedS }) => estimatedS], ['w', 'work logged', ({ workS }) => workS], ['x', 'rework logged', ({ reworkS }) => reworkS],
]

const numberOf = ({ owner }: OperationCosting): string => owner.label.split(' ')[0] ?? ''

/** What the hours of every operation open by, as P-510.20; of several with one number each but the first carries the end of its id. */
export function operationKeys({ operations }: Pick<Costing, 'operations'>): Map<string, string> {
  const plain = (costing: OperationCosting): string => `${numberOf(costing)}.${costing.operation.number}`
  return new Map([...groupBy(operations, plain)].flatMap(([key, alike]) =>
    alike.map(({ operation: { id } }, index): [string, string] => [id, index === 0 ? key : `${key}.${id.slice(-6)}`])))
}

/** Hours of each operation, and of each part, line and factory part by its number: e estimate, w work, x rework. */
export function operationWorkings(costing: Costing): [key: string, working: Working][] {
  const keys = operationKeys(costing)
  const estimates = new Map(costing.estimate.operations.map(({ operation, working }) => [operation.id, working]))
  return [
    ...costing.operations.flatMap((each) => ofOperation(keys.get(each.operation.id) ?? '', each, estimates.get(each.operation.id))),
    ...[...groupBy(costing.operations, numberOf)].flatMap(([number, own]) => ofOwner(number, own)),
  ]
}

function ofOperation(key: string, { label, figures }: OperationCosting, estimate: Working | undefined): [string, Working][] {
  const logged = ([letter, name, of]: Column): [string, Working] => [`${key}${letter}`, {
    title: `${label}: ${name}`, inputs: [{ label: name, source: 'time entries of everybody', amount: { kind: 'time', value: of(figures) } }],
    result: { kind: 'time', value: of(figures) }, formula: 'sum of the time entries', assumed: 'Of a corrected entry the correction counts.', source: SOURCE,
  }]
  return [...(estimate ? [[`${key}e`, estimate] as [string, Working]] : []), ...COLUMNS.slice(1).map(logged)]
}

function ofOwner(number: string, operations: readonly OperationCosting[]): [string, Working][] {
  const label = operations[0]?.owner.label ?? number
  return COLUMNS.map(([letter, name, of]) => [`${number}${letter}`, {
    title: `${label}: ${name}`,
    inputs: operations.filter(({ figures }) => of(figures) > 0).map(({ operation, figures }) => (
      { label: `${operation.number} ${operation.kind}`, source: 'its operation', amount: { kind: 'time', value: of(figures) } })),
    result: { kind: 'time', value: operations.reduce((sum, { figures }) => sum + of(figures), 0) },
    formula: 'sum over its operations', assumed: 'What goes into it has hours of its own.', source: SOURCE,
  }])
}
