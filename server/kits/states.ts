/** How a line's need stands to the part of the kit that brought it. */
export type KitState = 'as the kit' | 'adjusted' | 'left out' | 'as it was built' | 'no longer in the kit'

interface Need {
  readonly quantity: number
  readonly materialId: string
  readonly isAdjusted: boolean
  readonly removedAt: Date | null
}

interface Part {
  readonly quantity: number
  readonly materialId: string
  readonly removedAt: Date | null
}

export function stateOfNeed(need: Need, part: Part): KitState {
  if (need.removedAt !== null || need.quantity === 0) return 'left out'
  if (part.removedAt !== null) return 'no longer in the kit'
  if (need.quantity === part.quantity && need.materialId === part.materialId) return 'as the kit'
  return need.isAdjusted ? 'adjusted' : 'as it was built'
}
