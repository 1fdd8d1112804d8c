import type { AmountKind, Working, WorkingInput } from '../calc/amounts.ts'
import { FORM_KIND } from '../calc/parts/billInput.ts'
import type { PartOperation } from '../../web/parts/partData.ts'
import { summed, totalOf } from '../builds/costWorkings.ts'
import { remainingOfOperation } from '../operations/remainingWorking.ts'
import type { Workings } from '../shared/workings.ts'
import type { PartSources } from './partPage.ts'

const SOURCE = 'common practice, no source'
const input = (label: string, source: string, kind: AmountKind, value: number): WorkingInput => ({ label, source, amount: { kind, value } })

type Column = readonly [letter: string, name: string, of: (operation: PartOperation) => number]

const COLUMNS: readonly Column[] = [
  ['s', 'set-up', ({ hours }) => hours.setUp], ['r', 'run', ({ hours }) => hours.run],
  ['e', 'person-hours estimated', ({ hours }) => hours.setUp + hours.run + hours.allowance], ['l', 'person-hours logged', ({ hours }) => hours.logged],
  ['d', 'person-hours remaining', ({ remaining }) => remaining],
]

/** What the figures of a part's page open: o0e is the estimate of its first operation, te that of all, m0n the net need of its first material. */
export function partWorkings(sources: PartSources, operations: readonly PartOperation[]): Workings {
  return new Map([
    ...operations.flatMap((operation, index) => ofOperation(`o${index}`, operation, sources)),
    ...COLUMNS.map(([letter, name, of]): [string, Working] => [`t${letter}`, totalOf(`All operations: ${name}`,
      operations.map((operation) => ({ label: `${operation.number} ${operation.kind}`, value: of(operation) })), 'time', 'operation')]),
    ...ofMaterials(sources),
  ])
}

function ofOperation(prefix: string, operation: PartOperation, { operations, costing }: PartSources): [string, Working][] {
  const own = operations.find(({ operation: { id } }) => id === operation.id)
  const name = `${costing.label}: ${operation.number} ${operation.kind}`
  if (own === undefined) return []
  const { setUpS, crew, ratio } = own.operation
  return [
    [`${prefix}s`, {
      title: `${name}: set-up`, inputs: [input('Set-up, once for the batch', 'operation', 'time', setUpS), input('People at once', 'operation', 'count', crew),
        ...(ratio === null ? [] : [input('As the shop’s hours run', 'accepted', 'times', ratio.thousandths)])],
      result: { kind: 'time', value: operation.hours.setUp }, formula: `set-up${ratio === null ? '' : ' × as the shop’s hours run'} × people at once`, assumed: 'A part that is needed nowhere takes none.', source: SOURCE,
    }],
    [`${prefix}r`, {
      ...operation.estimate, title: `${name}: run, all pieces`, result: { kind: 'time', value: operation.hours.run },
      formula: `set-up left out, and no allowance for rework, of ${operation.estimate.formula}`,
    }],
    [`${prefix}e`, operation.estimate],
    [`${prefix}l`, {
      ...summed(`${name}: person-hours logged`, 'time', { ...costing.own, figures: own.figures, entries: [] }, 'time entries', ({ loggedS }) => loggedS),
      inputs: [input('Work', 'time entries', 'time', own.figures.workS), input('Rework', 'time entries', 'time', own.figures.reworkS)],
      formula: 'work + rework', assumed: 'Of a corrected entry the correction counts. Waiting is not in it.',
    }],
    [`${prefix}d`, remainingOfOperation(own)],
  ]
}

function ofMaterials({ stored, figures, part, count }: PartSources): [string, Working][] {
  return stored.needs.filter(({ partId }) => partId === part.id).flatMap((need, index): [string, Working][] => {
    const material = figures.inputs.bill.materials.find(({ id }) => id === need.materialId)
    const line = figures.bill.materials.find((each) => each.material.id === need.materialId)
    if (!material) return []
    const kind = FORM_KIND[material.form]
    return [
      [`m${index}n`, {
        title: `${material.number} ${material.name}: net`, inputs: [input('For one piece', 'material need', kind, need.quantity), input('Pieces', 'part', 'count', count)],
        result: { kind, value: need.quantity * count }, formula: 'need × pieces', assumed: 'Waste is not in it.', source: SOURCE,
      }],
      ...(line ? [[`m${index}t`, line.working] as [string, Working]] : []),
    ]
  })
}
