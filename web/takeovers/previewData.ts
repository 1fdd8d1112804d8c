import type { Option } from '../shared/form.tsx'
import type { FieldProblem } from '../shared/viewer.ts'

/** Person-seconds there, for all pieces. */
export interface HoursThere {
  readonly estimate: number
  readonly work: number
  readonly rework: number
  /** What they open by on the page of their build. */
  readonly how: string
}

export interface PreviewOperation extends HoursThere {
  readonly key: string
  readonly name: string
  readonly workName: string
  readonly isTaken: boolean
  readonly isLogged: boolean
  readonly isEdited: boolean
  readonly setUp: string
  readonly run: string
}

export interface PreviewRow extends HoursThere {
  readonly key: string
  readonly name: string
  /** The zone that begins with this row; empty on the others. */
  readonly zone: string
  readonly isTaken: boolean
  readonly quantity?: string | undefined
  /** How many operations it has, and how many of the folded ones were edited. */
  readonly count: number
  readonly edited: number
  readonly operations: readonly PreviewOperation[]
}

export interface PreviewGroup {
  readonly name: string
  readonly hasQuantity: boolean
  readonly rows: readonly PreviewRow[]
}

export interface PreviewData {
  readonly build: { readonly name: string, readonly href: string }
  readonly source: { readonly name: string, readonly href: string }
  readonly title: string
  readonly action: string
  /** Shows the preview again with other operations open; writes nothing. */
  readonly previewAction: string
  readonly listHref: string
  readonly idempotencyKey: string
  readonly hidden: readonly (readonly [name: string, value: string])[]
  readonly into?: { readonly value: string, readonly options: readonly Option[] } | undefined
  readonly zones: readonly string[]
  readonly groups: readonly PreviewGroup[]
  readonly besides: string
  readonly isLoggedForAll: boolean
  readonly problems: readonly FieldProblem[]
}
