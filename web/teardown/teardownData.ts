import type { CautionProps } from '../shared/caution.tsx'
import type { MarkName } from '../shared/marks.tsx'
import type { PhotoShown } from '../shared/photos.tsx'
import type { PostProps } from '../shared/post.tsx'
import type { FieldProblem } from '../shared/viewer.ts'
import type { Option } from '../shared/form.tsx'

export interface TeardownCaution extends CautionProps {
  readonly trigger: string
  /** For this part, or before the first touch of any. */
  readonly isShown: boolean
}

/** Something in front of the part, the part itself, or what it frees. */
export interface FrontRow {
  readonly number: string
  readonly name: string
  readonly words: string
  readonly mark: MarkName
  readonly isCurrent: boolean
}

export interface BinChoice {
  readonly number: number
  readonly name: string
  /** As "last used", or where it stands. */
  readonly words: string
}

export interface FastenerShown {
  readonly text: string
  /** Torque with its source, or why there is none; never empty. */
  readonly torque: string
  readonly href: string
}

export interface CurrentPart {
  readonly id: string
  readonly number: string
  readonly name: string
  readonly href: string
  readonly zone: string
  /** What was noted of it before it is touched. */
  readonly how: string
  /** As "free now", "behind F-053", "out, bin A-002". */
  readonly standing: string
  readonly isOut: boolean
  readonly front: readonly FrontRow[]
  readonly photos: readonly PhotoShown[]
  readonly photoCount: number
  readonly fasteners: readonly FastenerShown[]
}

/** A part in the order, as far as the page can go on to it without asking. */
export interface OrderRow {
  readonly id: string
  readonly number: string
  readonly name: string
  readonly how: string
  readonly words: string
  readonly mark: MarkName
  readonly isSettled: boolean
  /** Triggers of its cautions, with commas. */
  readonly triggers: string
  /** What is recorded of it: "photo, bin". */
  readonly recorded: string
}

/** What was recorded incompletely. */
export interface RestRow {
  readonly name: string
  readonly href: string
  readonly missing: string
}

/** One of the forms that can follow, as it is shown: with what was typed where it was refused. */
export interface MoreForm {
  readonly action: string
  readonly key: string
  readonly values: Readonly<Record<string, string>>
  readonly problems: readonly FieldProblem[]
}

export interface MoreForms {
  readonly fastener: MoreForm
  readonly notes: MoreForm
  readonly part: MoreForm
  readonly edge: MoreForm
  readonly kinds: readonly string[]
  readonly drives: readonly string[]
  readonly torqueUnit: string
  readonly zones: readonly Option[]
  readonly things: readonly Option[]
}

export interface TeardownData {
  readonly buildId: string
  readonly build: string
  readonly settled: number
  readonly total: number
  /** The part that is shown; null where nothing is left. */
  readonly part: CurrentPart | null
  readonly isNext: boolean
  readonly cautions: readonly TeardownCaution[]
  readonly bins: readonly BinChoice[]
  readonly newBin: number
  readonly key: string
  readonly last: { readonly words: string, readonly undo: PostProps } | null
  readonly rows: readonly OrderRow[]
  readonly rest: readonly RestRow[]
  /** What cannot be ordered, or speaks against itself; in sentences. */
  readonly open: readonly string[]
  readonly said: string
  readonly more: MoreForms | null
}
