import type { BillOfMaterials } from './billOfMaterials.ts'
import type { MaterialLine } from './materialLines.ts'
import type { OwnerReference } from './owners.ts'
import type { Peg } from './pegs.ts'
import { shareOut } from '../shares.ts'

/** Money for something bought, and the thing of the build that it is for (all null: the build itself). Minor units. */
export interface Bought extends OwnerReference {
  readonly label: string
  readonly costMinor: number
  readonly sellMinor: number
}

/**
 * What is bought for each thing of a build. The packs of a material are shared over all that takes of it, by
 * quantity and without a rest, so that it all sums to the bill of materials exactly.
 *
 * Source: common practice, no source.
 * @example a sheet of 58.00 for 2 m² of a pod and 1 m² of a ring: 38.67 for the pod, 19.33 for the ring
 */
export function listBought({ materials, equipment, singleUse }: Pick<BillOfMaterials, 'materials' | 'equipment' | 'singleUse'>): Bought[] {
  const nothing = { partId: null, equipmentLineId: null, factoryPartId: null }
  return [
    ...materials.flatMap(shareMaterial),
    ...equipment.map(({ line, costMinor, sellMinor }) => ({ ...nothing, equipmentLineId: line.id, label: `${line.number} ${line.name}`, costMinor, sellMinor })),
    ...singleUse.map(({ item, factoryPart, costMinor, sellMinor }) => ({
      ...nothing, factoryPartId: factoryPart.id, label: `${factoryPart.label}: ${item.name}`, costMinor, sellMinor,
    })),
  ]
}

function shareMaterial({ material, pegs, costMinor, sellMinor }: MaterialLine): Bought[] {
  const weights = pegs.map(({ quantity }) => quantity)
  const [costs, sells] = [shareOut(costMinor, weights), shareOut(sellMinor, weights)]
  return pegs.map((peg, index) => ({
    ...referenceOf(peg), label: `${peg.label}: ${material.number} ${material.name}`, costMinor: costs[index] ?? 0, sellMinor: sells[index] ?? 0,
  }))
}

function referenceOf({ source, id }: Peg): OwnerReference {
  return {
    partId: source === 'part' ? id : null, equipmentLineId: source === 'equipment' ? id : null, factoryPartId: source === 'factory part' ? id : null,
  }
}
