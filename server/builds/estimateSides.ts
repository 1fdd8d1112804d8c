import type { OperationCosting } from '../calc/costing/costRows.ts'
import type { CostTotal } from '../calc/costing/costSums.ts'
import type { OwnerKind } from '../calc/parts/owners.ts'
import { ratioInWords } from '../operations/ratioStore.ts'
import { listTree } from './estimateTree.ts'
import type { BuildFigures } from './figures.ts'
import type { StoredBuild } from './store.ts'

/** One line of the estimate, whatever of it this viewer sees. */
export interface SideLine {
  /** What the keys of its workings begin with. */
  readonly how: string
  readonly label: string
  readonly level: number
  readonly total: CostTotal
  readonly href?: string
  readonly anchor?: string
  /** What a manager accepted of the shop's hours for operations of this line, in words; left out where nothing was. */
  readonly ratios?: string
}

/** The same build seen from three sides; the outermost lines of each sum to the same, those of parts and others together. */
export interface Sides {
  readonly zones: readonly SideLine[]
  readonly departments: readonly SideLine[]
  readonly parts: readonly SideLine[]
  /** Equipment, factory parts and the build itself. */
  readonly others: readonly SideLine[]
}

const PAGE_OF: Readonly<Record<OwnerKind, string>> = { 'part': 'parts', 'equipment': 'equipment-lines', 'factory part': 'factory-parts', 'build': 'builds' }

export function estimateSides(stored: StoredBuild, figures: BuildFigures): Sides {
  return { zones: zonesOf(stored, figures), departments: departmentsOf(figures), parts: partsOf(figures), others: othersOf(figures) }
}

/** What was accepted for some of the operations, each kind once. */
function ratiosOf({ costing: { operations } }: BuildFigures, isOfLine: (row: OperationCosting) => boolean): Pick<SideLine, 'ratios'> {
  const words = operations.filter(isOfLine).flatMap(({ operation: { kind, ratio } }) => (ratio === null ? [] : [`${kind} ${ratioInWords(ratio)}`]))
  return words.length === 0 ? {} : { ratios: [...new Set(words)].join('; ') }
}

function zonesOf({ head, zones }: StoredBuild, { costing }: BuildFigures): SideLine[] {
  const numberOf = new Map(zones.map((zone) => [zone.id, zone.number]))
  const place = ({ id }: CostTotal): number => numberOf.get(id ?? '') ?? Infinity
  return costing.byZone.toSorted((a, b) => place(a) - place(b)).map((total) => {
    const number = numberOf.get(total.id ?? '')
    if (number === undefined) return { how: 'z0', label: total.label, level: 0, total }
    return { how: `z${number}`, label: `${number} ${total.label}`, level: 0, total, anchor: `zone-${number}`, href: `/builds/${head.id}#zone-${number}` }
  })
}

function departmentsOf(figures: BuildFigures): SideLine[] {
  return figures.costing.byDepartment.map((total, index) => {
    const isBought = total.id === null && total.figures.forecastS === 0
    return { how: `d${index}`, label: isBought ? 'Bought, of no department' : total.label, level: 0, total, ...ratiosOf(figures, ({ departmentId }) => departmentId === total.id) }
  })
}

function partsOf(figures: BuildFigures): SideLine[] {
  const lines = listTree(figures)
  // An assembly has a line for itself alone: that one says it.
  const isSplit = (index: number): boolean => lines[index]?.label !== 'itself' && lines[index + 1]?.label === 'itself'
  return lines.map(({ partId, label, level, total }, index) => ({
    how: `p${index}`, label, level, total, ...(label === 'itself' ? {} : { href: `/parts/${partId}` }), ...(isSplit(index) ? {} : ratiosOf(figures, ({ operation }) => operation.partId === partId)),
  }))
}

function othersOf(figures: BuildFigures): SideLine[] {
  return figures.costing.byOwner.filter(({ owner }) => owner.kind !== 'part').map((total, index) =>
    ({ how: `o${index}`, label: total.label, level: 0, total, ...(total.owner.id === null ? {} : { href: `/${PAGE_OF[total.owner.kind]}/${total.owner.id}` }), ...ratiosOf(figures, ({ owner }) => owner.kind === total.owner.kind && owner.id === total.owner.id) }))
}
