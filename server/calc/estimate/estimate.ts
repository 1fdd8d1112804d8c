import type { Amount, Working } from '../amounts.ts'
import { figureIn } from '../figures.ts'
import { departmentFinder } from './operations.ts'
import type { LaborInput } from './operations.ts'
import { estimateOperation, LABOR_KEYS, toLaborSums } from './operationEstimate.ts'
import type { LaborKey, LaborSums, OperationEstimate } from './operationEstimate.ts'
import { ownerFinder } from '../parts/owners.ts'
import type { Owner } from '../parts/owners.ts'
import { explodeParts } from '../parts/partTree.ts'
import { rollUp } from '../parts/rollUp.ts'
import { addSums } from '../shares.ts'
import { deviationOf, THREE_POINT_SOURCE } from './threePoint.ts'
import { viewByDepartment, viewByOwner, viewByZone } from './views.ts'
import type { View } from './views.ts'

export type { LaborSums, OperationEstimate } from './operationEstimate.ts'

export interface EstimateTotal {
  /** Zone, department or owner; null for what has none, and for the build as a whole. */
  readonly id: string | null
  readonly label: string
  readonly sums: LaborSums
  readonly workings: Readonly<Record<'labor' | 'withoutRework' | 'rework' | 'elapsed' | 'cost' | 'sell', Working>>
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
  /** One standard deviation of the total, person-seconds; null where nobody was unsure of anything. */
  readonly giveOrTake: { readonly seconds: number, readonly working: Working } | null
}

/**
 * Labor of a build from its operations, with learning curves, three-point values, crews and the allowance for
 * rework: see `estimateOperation`. Money by the department's rates, rounded once for each operation.
 *
 * Seconds and minor units. Every view sums to the total exactly. What has no pieces takes no time.
 * Refuses unknown departments, parts that contain themselves and times below zero.
 * Source: common practice, no source; curves and three-point values as in their own files.
 * @example set-up 1800 s, run 600 s, 4 pieces, crew 2: elapsed 4200 s, labor 8400 s
 */
export function estimateLabor(input: LaborInput): Estimate {
  const { parts, operations, departmentOf } = explode(input)
  const zoneNames = new Map(input.zones.map(({ id, name }) => [id, name]))
  const giveOrTake = giveOrTakeOf(operations)
  const toTotal = totalMaker(operations)

  const owners = viewByOwner(LABOR_KEYS, operations).map(({ owner, ...view }) => ({ owner, ...toTotal(view, owner.label) }))
  const ownOf = new Map(owners.filter(({ owner }) => owner.kind === 'part').map(view => [view.id, view]))
  const none = (id: string, label: string) => toTotal({ id, sums: addSums(LABOR_KEYS, []), entries: [] }, label)
  const withPieces = rollUp(LABOR_KEYS, parts, id => ownOf.get(id)?.sums ?? addSums(LABOR_KEYS, []))
  const byDepartment = viewByDepartment(LABOR_KEYS, operations).map(view => toTotal(view, view.id === null ? '' : departmentOf(view.id).name))
  const whole = { id: null, sums: addSums(LABOR_KEYS, operations.map(({ sums }) => sums)), entries: byDepartment }
  return {
    operations,
    byPart: [...parts.values()].map(({ part, count }) => {
      const own = ownOf.get(part.id) ?? none(part.id, `${part.number} ${part.name}`)
      return { partId: part.id, label: own.label, count, own, withPieces: toLaborSums(withPieces.get(part.id) ?? own.sums) }
    }),
    byOwner: owners,
    byZone: viewByZone(LABOR_KEYS, operations).map(view => toTotal(view, zoneNames.get(view.id ?? '') ?? 'no zone')),
    byDepartment,
    total: toTotal(whole, 'Labor of the build', operations, giveOrTake?.seconds),
    giveOrTake,
  }
}

/**
 * The operations of `estimateLabor` alone, where nobody asks for zones, departments and owners.
 * @example the sum of their labor is the labor of the build
 */
export const estimateOperations = (input: LaborInput): readonly OperationEstimate[] => explode(input).operations

function explode(input: LaborInput) {
  const parts = explodeParts(input.parts, input.partUses)
  const ownerOf = ownerFinder({ parts, equipment: input.equipment, factoryParts: input.factoryParts })
  const departmentOf = departmentFinder(input.departments)
  return { parts, departmentOf, operations: input.operations.map(operation => estimateOperation(operation, ownerOf(operation), departmentOf(operation.departmentId))) }
}

const PARTS_OF_WORKING: readonly (readonly [name: keyof EstimateTotal['workings'], title: string, key: keyof LaborSums, kind: Amount['kind'], formula: string])[] = [
  ['labor', 'person-hours', 'laborS', 'time', 'sum of person-hours, allowance for rework included'],
  ['withoutRework', 'person-hours without rework', 'withoutReworkS', 'time', 'sum of person-hours before the allowance for rework'],
  ['rework', 'person-hours allowed for rework', 'reworkS', 'time', 'sum of person-hours × allowance for rework, of the operation or else its department'],
  ['elapsed', 'elapsed hours', 'elapsedS', 'time', 'sum of person-hours ÷ people at once'],
  ['cost', 'labor cost', 'costMinor', 'money', 'sum of person-hours × the department’s cost rate, rounded for each operation'],
  ['sell', 'labor price', 'sellMinor', 'money', 'sum of person-hours × the department’s price rate, rounded for each operation'],
]
const SHARED = 'Waiting that needs nobody is not in it. Things that stand in several zones are shared by their pieces.'
const MIXED = 'Both learning models meet in this sum: each operation is computed by its own, none by both.'
const ONE_AFTER_ANOTHER = 'One crew after another: nothing runs beside anything else.'

/** Makes totals whose workings say what they take for granted of the operations in them. */
function totalMaker(operations: readonly OperationEstimate[]) {
  const modelOf = new Map(operations.flatMap(({ label, operation }) => (operation.learning ? [[label, operation.learning.model] as const] : [])))
  return (view: View<LaborKey>, label: string, within: readonly { readonly label: string }[] = view.entries, deviationS = 0): EstimateTotal => {
    const models = new Set(within.flatMap(entry => modelOf.get(entry.label) ?? []))
    const sums = toLaborSums(view.sums)
    const entries = view.entries.map(entry => ({ label: entry.label, sums: toLaborSums(entry.sums) }))
    const working = (title: string, key: keyof LaborSums, kind: Amount['kind'], formula: string): Working => ({
      title: `${label}: ${title}`,
      inputs: entries.filter(entry => entry.sums[key] !== 0).map(entry => ({ label: entry.label, source: 'estimate', amount: { kind, value: entry.sums[key] } })),
      result: { kind, value: sums[key] },
      formula,
      assumed: [
        SHARED, models.size > 1 ? MIXED : '', key === 'elapsedS' ? ONE_AFTER_ANOTHER : '',
        key === 'laborS' && deviationS > 0 ? `Give or take ${figureIn(deviationS, 'time', 'h')} h, one standard deviation.` : '',
      ].filter(sentence => sentence !== '').join(' '),
      source: 'common practice, no source',
    })
    const workings = PARTS_OF_WORKING.map(([name, ...parts]) => [name, working(...parts)])
    return { id: view.id, label, sums, workings: Object.fromEntries(workings) as EstimateTotal['workings'] }
  }
}

function giveOrTakeOf(operations: readonly OperationEstimate[]): Estimate['giveOrTake'] {
  const unsure = operations.filter(({ rangeS }) => rangeS > 0)
  if (unsure.length === 0) return null
  const seconds = deviationOf(unsure.map(({ rangeS }) => rangeS))
  return {
    seconds,
    working: {
      title: 'Labor of the build: give or take',
      inputs: unsure.map(({ label, rangeS }) => ({ label, source: 'worst − best, all pieces and people', amount: { kind: 'time', value: rangeS } })),
      result: { kind: 'time', value: seconds },
      formula: '√ of the sum of ((worst − best) ÷ 6)²',
      assumed: 'One standard deviation. What goes wrong at one operation has nothing to do with another; operations without three values are taken as sure. '
        + 'The deviation of a beta distribution through the same values differs a little.',
      source: THREE_POINT_SOURCE,
    },
  }
}
