import { LARGEST_INTEGER } from './amounts.ts'
import type { Amount, Working } from './amounts.ts'
import { costOfTime } from './money.ts'
import { departmentFinder } from './operations.ts'
import type { Department, LaborInput, Operation } from './operations.ts'
import { ownerFinder } from './owners.ts'
import type { Owner } from './owners.ts'
import { explodeParts } from './partTree.ts'
import { Refusal, toWhole } from './refusal.ts'
import { rollUp } from './rollUp.ts'
import { addSums } from './shares.ts'
import type { Sums } from './shares.ts'
import { viewByDepartment, viewByOwner, viewByZone } from './views.ts'
import type { Row, View } from './views.ts'

/** Elapsed: the clock of one crew after another; labor: person-seconds; wait: seconds that need nobody. */
const KEYS = ['elapsedS', 'laborS', 'waitS', 'costMinor', 'sellMinor'] as const
type Key = typeof KEYS[number]
export type LaborSums = Sums<Key>

export interface OperationEstimate extends Row<Key> {
  readonly operation: Operation
  readonly department: Department
  readonly pieces: number
  readonly working: Working
}

export interface EstimateTotal {
  /** Zone, department or owner; null for what has none, and for the build as a whole. */
  readonly id: string | null
  readonly label: string
  readonly sums: LaborSums
  readonly workings: { readonly labor: Working, readonly cost: Working, readonly sell: Working }
}

export interface PartEstimate {
  readonly partId: string
  readonly label: string
  readonly count: number
  readonly own: EstimateTotal
  /** With its share of all that goes into it. */
  readonly withPieces: LaborSums
}

export interface Estimate {
  readonly operations: readonly OperationEstimate[]
  readonly byPart: readonly PartEstimate[]
  /** Parts, equipment, factory parts and the build itself: sums to the total. */
  readonly byOwner: readonly (EstimateTotal & { readonly owner: Owner })[]
  readonly byZone: readonly EstimateTotal[]
  readonly byDepartment: readonly EstimateTotal[]
  readonly total: EstimateTotal
}

/**
 * Labor of a build from its operations: set-up once for the batch of all pieces, run time for each piece,
 * times the crew; money by the department's rates, rounded once for each operation.
 *
 * Seconds and minor units. Every view sums to the total exactly. What has no pieces takes no time.
 * Refuses unknown departments, parts that contain themselves and times below zero.
 * Source: common practice, no source.
 * @example set-up 1800 s, run 600 s, 4 pieces, crew 2: elapsed 4200 s, labor 8400 s
 */
export function estimateLabor(input: LaborInput): Estimate {
  const parts = explodeParts(input.parts, input.partUses)
  const ownerOf = ownerFinder({ parts, equipment: input.equipment, factoryParts: input.factoryParts })
  const departmentOf = departmentFinder(input.departments)
  const operations = input.operations.map(operation =>
    estimateOperation(operation, ownerOf(operation), departmentOf(operation.departmentId)))
  const zoneNames = new Map(input.zones.map(({ id, name }) => [id, name]))

  const owners = viewByOwner(KEYS, operations).map(({ owner, ...view }) => ({ owner, ...toTotal(view, owner.label) }))
  const ownOf = new Map(owners.filter(({ owner }) => owner.kind === 'part').map(view => [view.id, view]))
  const none = (id: string, label: string) => toTotal({ id, sums: addSums(KEYS, []), entries: [] }, label)
  const withPieces = rollUp(KEYS, parts, id => ownOf.get(id)?.sums ?? addSums(KEYS, []))
  const byDepartment = viewByDepartment(KEYS, operations).map(view => toTotal(view, view.id === null ? '' : departmentOf(view.id).name))
  return {
    operations,
    byPart: [...parts.values()].map(({ part, count }) => {
      const own = ownOf.get(part.id) ?? none(part.id, `${part.number} ${part.name}`)
      return { partId: part.id, label: own.label, count, own, withPieces: withPieces.get(part.id) ?? own.sums }
    }),
    byOwner: owners,
    byZone: viewByZone(KEYS, operations).map(view => toTotal(view, zoneNames.get(view.id ?? '') ?? 'no zone')),
    byDepartment,
    total: toTotal({ id: null, sums: addSums(KEYS, operations.map(({ sums }) => sums)), entries: byDepartment }, 'Labor of the build'),
  }
}

function estimateOperation(operation: Operation, owner: Owner, department: Department): OperationEstimate {
  const label = `${owner.label}: ${operation.number} ${operation.kind}`
  const { pieces } = owner
  const setUpS = toWhole(operation.setUpS, 0, `The set-up time of ${label}`)
  const runS = toWhole(operation.runS, 0, `The run time of ${label}`)
  const crew = toWhole(operation.crew, 1, `The crew of ${label}`)
  const elapsedS = pieces === 0 ? 0 : toTime(setUpS + runS * pieces, label)
  const laborS = toTime(elapsedS * crew, label)
  return {
    operation, owner, department, departmentId: department.id, label, pieces,
    sums: {
      elapsedS, laborS, waitS: pieces === 0 ? 0 : toWhole(operation.waitS, 0, `The waiting time of ${label}`),
      costMinor: costOfTime(laborS, department.costRateMinor), sellMinor: costOfTime(laborS, department.sellRateMinor),
    },
    working: {
      title: label,
      inputs: [
        { label: 'Set-up, once for the batch', source: 'operation', amount: { kind: 'time', value: setUpS } },
        { label: 'Run, each piece', source: 'operation', amount: { kind: 'time', value: runS } },
        { label: 'Pieces', source: owner.label, amount: { kind: 'count', value: pieces } },
        { label: 'People at once', source: 'operation', amount: { kind: 'count', value: crew } },
      ],
      result: { kind: 'time', value: laborS },
      formula: '(set-up + run × pieces) × people at once',
      assumed: 'All pieces are made in one batch and none goes faster than the first.',
      source: 'common practice, no source',
    },
  }
}

function toTime(seconds: number, label: string): number {
  if (seconds > LARGEST_INTEGER) throw new Refusal(`${label} takes more than 596,523 hours: check its times and the pieces.`)
  return seconds
}

function toTotal(view: View<Key>, label: string): EstimateTotal {
  const working = (title: string, key: Key, kind: Amount['kind'], formula: string): Working => ({
    title: `${label}: ${title}`,
    inputs: view.entries.map(entry => ({ label: entry.label, source: 'estimate', amount: { kind, value: entry.sums[key] } })),
    result: { kind, value: view.sums[key] },
    formula,
    assumed: 'Waiting that needs nobody is not in it. Things that stand in several zones are shared by their pieces.',
    source: 'common practice, no source',
  })
  return {
    id: view.id, label, sums: view.sums,
    workings: {
      labor: working('person-hours', 'laborS', 'time', 'sum of person-hours'),
      cost: working('labor cost', 'costMinor', 'money', 'sum of person-hours × the department’s cost rate, rounded for each operation'),
      sell: working('labor price', 'sellMinor', 'money', 'sum of person-hours × the department’s price rate, rounded for each operation'),
    },
  }
}
