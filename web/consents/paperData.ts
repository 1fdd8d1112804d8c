import type { PaperView } from '../shared/paperData.ts'
import type { FieldProblem } from '../shared/viewer.ts'

/** A frozen quote or change order with where it stands. */
export interface FrozenPaperData {
  readonly number: string
  /** Quote or change order. */
  readonly documentType: string
  readonly title: string
  readonly customer: string
  readonly shop: string
  readonly shopMore: string
  readonly vehicle: string
  readonly total: string
  readonly until: string
  readonly issued: string
  /** SHA-256 in groups of four. */
  readonly hash: string
  readonly view: PaperView
  /** Why it can no longer be answered, or what was answered. */
  readonly notice: { readonly title: string, readonly text: string } | null
  readonly consent: ConsentFormData | null
  readonly pdfs: readonly { readonly name: string, readonly href: string }[]
}

export interface ConsentFormData {
  readonly action: string
  /** Where the total with what is ticked is worked out. */
  readonly totalsAction: string
  readonly csrfToken: string
  readonly key: string
  readonly declineKey: string
  readonly hash: string
  /** The total that is before the reader, in minor units: agreeing to another is asked again. */
  readonly seen: number
  readonly total: string
  /** True where somebody of the shop takes it down. */
  readonly isInShop: boolean
  readonly typed: { readonly typedName: string, readonly hasRead: boolean, readonly note: string, readonly declineName: string, readonly declineNote: string }
  readonly problems: readonly FieldProblem[]
}
