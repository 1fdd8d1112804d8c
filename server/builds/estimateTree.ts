import { COST_KEYS } from '../calc/costSums.ts'
import type { CostSums } from '../calc/costSums.ts'
import type { RequiredPart } from '../calc/partTree.ts'
import { shareSums } from '../calc/shares.ts'
import type { BuildFigures } from './figures.ts'

/** A made part at one place in the tree, with the share of its hours and money that goes there. */
export interface TreeLine {
  readonly partId: string
  readonly label: string
  readonly level: number
  readonly sums: CostSums
}

type Split = (sums: CostSums) => CostSums

/**
 * The tree of made parts, each assembly above what goes into it. Outermost lines sum to all parts, as a part
 * that goes into several assemblies is shared over them; below its first place its pieces are not repeated.
 */
export function listTree({ bill, costing }: BuildFigures): TreeLine[] {
  const totals = new Map(costing.byPart.map(({ partId, label, withPieces }) => [partId, { label, sums: withPieces.figures }]))
  const usesIn = new Map(bill.parts.map(({ part }) => [part.id, bill.parts.filter(({ demands }) => demands.some(({ parentId }) => parentId === part.id))]))
  const shown = new Set<string>()
  const lines: TreeLine[] = []

  const add = (required: RequiredPart, parentId: string | null, level: number, up: Split): void => {
    const { part, demands } = required
    const total = totals.get(part.id)
    if (!total) return
    const index = demands.findIndex((demand) => demand.parentId === parentId)
    const split: Split = (sums) => up(shareSums(COST_KEYS, sums, demands.map(({ count }) => count))[index] ?? sums)
    lines.push({ partId: part.id, label: total.label, level, sums: split(total.sums) })
    if (shown.has(part.id)) return
    shown.add(part.id)
    for (const piece of usesIn.get(part.id) ?? []) add(piece, part.id, level + 1, split)
  }
  const outermost = bill.parts.filter(({ demands }) => demands.length === 0 || demands.some(({ parentId }) => parentId === null))
  for (const required of outermost) add(required, null, 0, (sums) => sums)
  return lines
}
