import type { FieldProblem } from '../shared/viewer.ts'
import type { TrailStep } from '../shared/strip.tsx'
import type { CautionProps } from '../shared/caution.tsx'

export interface ShownFastener {
  readonly text: string
  /** As "9 N·m, 6.6 lbf·ft (80 lbf·in)", "maker’s manual", "no torque"; '' where nothing is to be said. */
  readonly torque: string
  readonly source: string
  /** The entry for what was applied; null where nothing is asked. */
  readonly asks: { readonly name: string } | null
  /** As "9 N·m, S. Penhale: as noted"; '' while nobody entered one. */
  readonly applied: string
}

export interface ShownPicture {
  readonly src: string
  readonly href: string
  readonly says: string
  readonly width: number
  readonly height: number
}

export interface ShownStep {
  readonly key: string
  readonly text: string
  readonly place: string
  readonly notes: readonly string[]
  readonly cautions: readonly string[]
  readonly fasteners: readonly ShownFastener[]
  readonly pictures: readonly ShownPicture[]
  readonly isDone: boolean
  readonly isSigned: boolean
  /** "S. Penhale, Mon 3 Mar 2031 09:12"; '' while nobody has. */
  readonly by: string
  readonly signature: string
  /** Steps that have to come first and are not done. */
  readonly waitsFor: readonly string[]
  /** Those that were open when it was ticked, and why all the same. */
  readonly skipped: readonly string[]
  readonly why: string
  readonly deviations: readonly { readonly text: string, readonly by: string }[]
  /** Of the form: the ids of what is put down with it, so that sending it again adds nothing. */
  readonly id: string
}

export interface GroupLink {
  readonly name: string
  readonly href: string
  readonly done: number
  readonly count: number
  readonly isHere: boolean
}

export interface SheetPageData {
  readonly trail: readonly TrailStep[]
  readonly id: string
  readonly number: string
  readonly title: string
  readonly done: number
  readonly count: number
  readonly frozen: string
  readonly hash: string
  readonly closed: string
  readonly differences: readonly string[]
  readonly cautions: readonly CautionProps[]
  readonly groups: readonly GroupLink[]
  readonly here: { readonly name: string, readonly steps: readonly ShownStep[] }
  readonly nextHref: string
  readonly action: string
  readonly links: readonly { readonly name: string, readonly href: string }[]
  readonly closing: { readonly href: string } | null
  /** A step that was not taken: it waits for others, or an entry cannot be read; what was typed stays. */
  readonly stopped?: StoppedStep | undefined
}

export interface StoppedStep {
  readonly key: string
  /** '' where only entries have to be mended. */
  readonly warning: string
  readonly problems: readonly FieldProblem[]
  readonly typed: Readonly<Record<string, string>>
}
