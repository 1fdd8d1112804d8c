import { COST_KEYS, toCostTotal } from '../calc/costing/costSums.ts'
import type { CostSums, CostTotal } from '../calc/costing/costSums.ts'
import type { RequiredPart } from '../calc/parts/partTree.ts'
import { shareSums } from '../calc/shares.ts'
import type { BuildFigures } from './figures.ts'

/** A made part at one place in the tree, with the share of its hours and money that goes there. */
export interface TreeLine {
  readonly partId: string
  readonly label: string
  readonly level: number
  readonly total: CostTotal
}

type Split = (sums: CostSums) => CostSums

/**
 * The tree of made parts, each assembly above itself alone and what goes into it. Outermost lines sum to all parts,
 * as a part that goes into several assemblies is shared over them; below its first place its pieces are not repeated.
 */
export function listTree({ bill, costing }: BuildFigures): TreeLine[] {
  const partOf = new Map(costing.byPart.map((part) => [part.partId, part]))
  const usesIn = new Map(bill.parts.map(({ part }) => [part.id, bill.parts.filter(({ demands }) => demands.some(({ parentId }) => parentId === part.id))]))
  const shown = new Set<string>()
  const lines: TreeLine[] = []

  const add = (required: RequiredPart, parentId: string | null, level: number, up: Split): void => {
    const { part: { id }, demands } = required
    const part = partOf.get(id)
    if (!part) return
    const index = demands.findIndex((demand) => demand.parentId === parentId)
    const isShared = parentId !== null || demands.length > 1
    const split: Split = (sums) => up(shareSums(COST_KEYS, sums, demands.map(({ count }) => count))[index] ?? sums)
    const pieces = usesIn.get(id) ?? []
    lines.push({ partId: id, label: part.label, level, total: isShared ? shareOf(part.withPieces, split) : pieces.length > 0 ? part.withPieces : part.own })
    if (shown.has(id)) return
    shown.add(id)
    if (pieces.length > 0) lines.push({ partId: id, label: 'itself', level: level + 1, total: isShared ? shareOf(part.own, split) : part.own })
    for (const piece of pieces) add(piece, id, level + 1, split)
  }
  const outermost = bill.parts.filter(({ demands }) => demands.length === 0 || demands.some(({ parentId }) => parentId === null))
  for (const required of outermost) add(required, null, 0, (sums) => sums)
  return lines
}

function shareOf({ id, label, figures }: CostTotal, split: Split): CostTotal {
  const sums = split(figures)
  return toCostTotal(id, label, sums, [{ label: `${label}: the share of its pieces that goes here`, sums }])
}
