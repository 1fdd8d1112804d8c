import type { Alteration, FactoryPart, InstalledItem } from '../removal/factoryParts.ts'
import type { RemovalEdge } from '../removal/removalEdges.ts'

export type RestorationChoice = 'all' | {
  readonly factoryPartIds: readonly string[]
  /** Alterations of the body, or of further parts; those of the chosen parts are meant anyway. */
  readonly alterationIds: readonly string[]
}

export interface RestorationInput {
  readonly factoryParts: readonly FactoryPart[]
  readonly installedItems: readonly InstalledItem[]
  readonly edges: readonly RemovalEdge[]
  readonly alterations: readonly Alteration[]
  readonly choice: RestorationChoice
}
