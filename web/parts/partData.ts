import type { PhotosProps } from '../shared/photos.tsx'
import type { Amount, Working } from '../../server/calc/amounts.ts'
import type { CautionProps } from '../shared/caution.tsx'
import type { HistoryEntry } from '../shared/history.tsx'
import type { StateName } from '../shared/marks.tsx'
import type { BarHours } from '../shared/operationBar.tsx'
import type { SavedProps } from '../shared/saved.tsx'
import type { TrailStep } from '../shared/strip.tsx'

export interface PartOperation {
  readonly id: string
  readonly number: number
  readonly kind: string
  /** What exactly; may be empty. */
  readonly work: string
  readonly department: string
  readonly state: StateName
  /** Instead of the state's own word, as "7 of 12". */
  readonly stateWords?: string | undefined
  readonly hours: BarHours
  /** What is unsure of a piece and how later ones go faster, in words; empty for most. */
  readonly curve: string
  /** That it runs over or nearly, in words; empty where all is well. */
  readonly runningOver: string
  /** How the estimate of this operation comes about. */
  readonly estimate: Working
  /** Person-seconds still to go. */
  readonly remaining: number
  readonly href: string
  /** What it took in the build it was taken over from, in words. */
  readonly earlier?: string | undefined
  /** The finish whose sample is not approved; it cannot start before. */
  readonly heldBy?: { readonly words: string, readonly href: string, readonly name: string } | undefined
}

export interface PartFinish {
  readonly name: string
  readonly href: string
  /** Of the sample. */
  readonly state: string
  readonly isApproved: boolean
}

export interface PartMaterial {
  readonly name: string
  readonly boughtAs: string
  /** For all pieces, waste not counted. */
  readonly net: Amount
  /** As "3 sheets". */
  readonly toTake: string
  /** Here, ordered, expected when. */
  readonly where: string
  readonly isHere: boolean
  readonly href: string
}

export interface PartTimeEntry {
  /** In the shop's zone, as "Tue 12 Jan 08:20". */
  readonly when: string
  readonly who: string
  readonly operation: number
  readonly kind: 'work' | 'rework' | 'waiting'
  readonly seconds: number
  readonly why: string
  /** As "was 2.0, corrected by R. Fennick 12 Jan"; empty for most. */
  readonly correction: string
  readonly correctHref?: string | undefined
}

export interface TreePart {
  readonly number: string
  readonly name: string
  /** In one of the part above. */
  readonly quantity: number
  readonly href?: string | undefined
  readonly isThis: boolean
  readonly pieces: readonly TreePart[]
}

export interface PartData {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly name: string
  readonly family: string
  /** As "12 off, one batch". */
  readonly quantity: string
  readonly fitsTo: string
  readonly drawing: string
  readonly mass?: Amount | undefined
  readonly onItNow: string
  readonly hours: { readonly estimate: Working, readonly logged: Working, readonly remaining: Working, readonly forecast: Working }
  /** Labor and what is bought; left out for those who see no money. */
  readonly money?: { readonly price: Working, readonly cost: Working, readonly margin: Working, readonly withPieces?: Working | undefined } | undefined
  readonly cautions: readonly CautionProps[]
  readonly operations: readonly PartOperation[]
  readonly materials: readonly PartMaterial[]
  readonly entries: readonly PartTimeEntry[]
  readonly finishes: readonly PartFinish[]
  readonly tree: TreePart
  /** How it comes off again without destroying anything. */
  readonly goesBack: string
  readonly note: string
  /** Where the part was taken over from. */
  readonly origin?: { readonly text: string, readonly href: string, readonly comparisonHref: string } | undefined
  readonly links: {
    readonly edit?: string | undefined
    readonly addOperation?: string | undefined
    readonly addMaterial?: string | undefined
    readonly addFinish?: string | undefined
    readonly schedule: string
    readonly addPiece?: string | undefined
    /** Where it is put into an assembly. */
    readonly addToAssembly?: string | undefined
    /** All its fields, its uses and its removal. */
    readonly record?: string | undefined
    readonly log?: string | undefined
  }
  readonly photos?: PhotosProps | undefined
  readonly history: readonly HistoryEntry[]
  readonly saved?: SavedProps | undefined
}
